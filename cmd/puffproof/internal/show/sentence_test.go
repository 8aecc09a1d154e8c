package show

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Factors by definition: 1 psi is 6894.757 Pa, 1 in is 25.4 mm, 1 ft is 0.3048 m.
func TestSentence(t *testing.T) {
	for in, want := range map[string]string{
		"stuck after a shot from 0.42 bar: the most":       "stuck after a shot from 6.1 psi: the most",
		"3.6 L at up to 0.78 bar mixed":                    "220 in3 at up to 11.3 psi mixed",
		"at least 31.6 mm across":                          "at least 1.25 in across", // 1.244: rounded to the safe side
		"largest pressure times volume 2.1 bar L, up to 3": "largest pressure times volume 2.1 bar L, up to 3",
		"between 20 and 24 mm across":                      "between 0.787 in and 0.945 in across",
		"PN10 pipe of 2026-11-25, 5 barrels, 0.31 J":       "PN10 pipe of 2026-11-25, 5 barrels, 0.31 J",
		"about 4.8 m/s":                                    "about 15.7 ft/s",
		// Settings go to a hundredth of a psi, and to the safe side: 1.063 bar is
		// 15.4175 psi, 0.749 bar 10.8633 psi.
		"set to at most 1.063 bar":                  "set to at most 15.41 psi",
		"hold the pressure at 1.063 bar or less":    "hold the pressure at 15.41 psi or less",
		"at least 0.749 bar":                        "at least 10.87 psi",
		"a gauge that reads to 0.749 bar or more":   "a gauge that reads to 10.87 psi or more",
		"must rest between 0.634 bar and 1.063 bar": "must rest between 9.20 psi and 15.42 psi",
	} {
		assert.Equal(t, want, Sentence(in, US))
		assert.Equal(t, in, Sentence(in, Metric))
	}
}

func TestSentencesOfAResult(t *testing.T) {
	type verdict struct {
		ID, Why string
		Notes   []string
	}
	report := struct {
		Verdicts []verdict
		Energy   *verdict
	}{[]verdict{{"1 bar", "1.0 bar", []string{"25.4 mm"}}}, &verdict{Why: "2.0 bar"}}
	Sentences(&report, US)
	assert.Equal(t, verdict{"1 bar", "14.5 psi", []string{"1.00 in"}}, report.Verdicts[0])
	assert.Equal(t, "29.0 psi", report.Energy.Why)
}

// The sentences of emptying and of faults are rewritten too.
func TestSentencesOfEmptyingAndFaults(t *testing.T) {
	report := struct{ Says, Missing, StartWhy, TargetWhy, Trouble, DetectedBy, PreventedBy, Volume string }{
		"at 1.0 bar", "at 1.0 bar", "at 1.0 bar", "at 1.0 bar", "at 1.0 bar", "at 1.0 bar", "at 1.0 bar", "1.0 bar"}
	Sentences(&report, US)
	for _, s := range []string{report.Says, report.Missing, report.StartWhy, report.TargetWhy, report.Trouble, report.DetectedBy, report.PreventedBy} {
		assert.Equal(t, "at 14.5 psi", s)
	}
	assert.Equal(t, "1.0 bar", report.Volume, "a name stays")
}
