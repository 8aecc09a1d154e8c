package unit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Examples and sizes in the faults are written in the reader's units; what is quoted of the
// text stays as it stands there. An avoirdupois ounce weighs a sixteenth of a pound-force, a
// US gallon of 231 in3 has 128 fluid ounces, an inch of water is 249.089 Pa (NIST SP 811,
// 2008, Appendix B.8).
func TestFaultsInTheReadersUnits(t *testing.T) {
	for _, c := range []struct {
		text       string
		want       Dimension
		metric, us string
	}{
		{"0.45", Pressure, "such as 0.45 bar", "such as 6.5 psi"},
		{"18", Temperature, "such as 18 degC", "such as 64 degF"},
		{"30", Time, "such as 30 ms", "such as 30 ms"},
		{"1/2 in", Length, "write 0.5 in (12.7 mm); ", "write 0.5 in; "},
		{"2 bar -4 bar", Pressure, `"2 to 4 bar"`, `"30 to 60 psi"`},
		{"5 g ± 0.5", Mass, `"± 0.5 g"`, `"± 0.02 oz"`},
		{"0.5 N +1 N", Force, "-0/+1 N", "-0/+0.2 lbf"},
		{"18 degC ± 5 %", Temperature, "± 10 K", "± 18 degF"},
		{"-500 degF", Temperature, "-273.15 degC", "-459.67 degF"},
		{"8 oz", Force, "the weight of 8 oz is 2.22 N", "that is 0.5 lbf"},
		{"12 fl oz", Volume, "mL (1 US fl oz is 29.57 mL)", "in3 (1 US fl oz is 1.805 in3)"},
		{"4 inH2O", Pressure, "cmH2O (1 inch of water is 2.54 cmH2O)", "psi (1 inch of water is 0.0361 psi)"},
		{"~12 g", Mass, `"12 g, estimated"`, `"0.4 oz, estimated"`},
		{"< 5 N", Force, `"0 to 5 N"`, `"0 to 1 lbf"`},
	} {
		for system, words := range map[System]string{Metric: c.metric, US: c.us, "": c.metric} {
			_, err := system.Parse(c.text, c.want)
			require.NotNil(t, err, c.text)
			require.Contains(t, err.Want+"|"+err.Hint, words, "%s in %q", c.text, system)
		}
	}
}
