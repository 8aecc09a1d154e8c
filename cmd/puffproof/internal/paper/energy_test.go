package paper

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
)

// The figure of the energies shows what is above its limit too: a jam, an object, a fault. What is within it is not said to be over.
func TestTheEnergyFigureShowsWhatExceeds(t *testing.T) {
	in := invented(t, nil)
	in.Report.Verdicts = append(in.Report.Verdicts,
		finding.Verdict{ID: finding.BarrelJammed, Title: "Jam", Status: finding.Conditional, Value: number(0.955), Limit: number(0.5),
			Unit: finding.InJoule, Margin: number(-0.91)},
		finding.Verdict{ID: finding.MisuseOfObjects, Title: "Objects", Status: finding.Fail, Value: number(3.1), Limit: number(0.08),
			Unit: finding.InJoule, Margin: number(-37)},
		finding.Verdict{ID: finding.EnergyFault, Title: "Faults", Status: finding.Pass, Value: number(0.4), Limit: number(0.5),
			Unit: finding.InJoule, Margin: number(0.2)})
	f := figureOf(t, in, "Energies against the limit")
	assert.Contains(t, f.Alt, "never moved (jam), freed 0.96 J, OVER 0.50 J")
	assert.Contains(t, f.Alt, "another object 3.10 J, OVER 0.080 J")
	assert.Contains(t, f.Alt, "worst single fault 0.40 J;")
	assert.Contains(t, f.Caption, "above its limit")
	assert.NotContains(t, figureOf(t, invented(t, nil), "Energies against the limit").Caption, "above its limit")
}

// figureOf is the figure of a file whose caption begins so.
func figureOf(t *testing.T, in Input, caption string) document.Figure {
	t.Helper()
	for _, b := range built(t, in).Blocks {
		if f, ok := b.(document.Figure); ok && len(f.Caption) >= len(caption) && f.Caption[:len(caption)] == caption {
			return f
		}
	}
	require.Failf(t, "missing", "no figure %q", caption)
	return document.Figure{}
}

// The card carries the whole fingerprint of the design file as a code beside its text, also where it must not be used.
func TestTheCardHasTheFingerprintAsACode(t *testing.T) {
	for name, in := range map[string]Input{"holds": invented(t, nil), "fails": failing(invented(t, nil))} {
		d, err := Card(in)
		require.NoError(t, err, name)
		codes := 0
		for _, b := range d.Blocks {
			if f, ok := b.(document.Figure); ok {
				codes++
				assert.True(t, f.Aside, name)
				assert.Contains(t, f.Alt, "sha256:"+in.Design.SHA256, name)
				assert.Equal(t, name == "fails", strings.Contains(f.Alt, "DOES NOT HOLD"), name)
			}
		}
		assert.Equal(t, 1, codes, name)
		body, _, err := document.Pages(d)
		require.NoError(t, err)
		assert.Equal(t, 1, body, "%s: it stays one page", name)
	}
}

// What the barrel takes for a moment counts: the sentence about half a bar (Directive 2014/68/EU, Art. 1(1)) is not said of a launcher
// whose own
// verdict has more than that anywhere.
func TestHalfABarCountsTheMomentInTheBarrel(t *testing.T) {
	in := invented(t, nil)
	in.Launcher.Switch, in.Launcher.Paths = nil, in.Launcher.Paths[:2] // no relief valve; the dead head is the highest
	in.Launcher.Supply.DeadHead.Low, in.Launcher.Supply.DeadHead.Nominal, in.Launcher.Supply.DeadHead.High = 0.18e5, 0.2e5, 0.22e5
	in.Faults.Faults[0].WorstGauge = 0.3e5
	const best = "Everything, single faults included, stays at or below 0.5 bar gauge"
	require.Contains(t, read(t, in), best)
	in.Report.Verdicts = append(in.Report.Verdicts, finding.Verdict{ID: finding.VesselRating, Title: "Ratings", Status: finding.Pass,
		Value: number(0.61e5), Limit: number(10e5), Margin: number(0.9), Unit: finding.InPascalGauge})
	assert.NotContains(t, read(t, in), best)
	assert.Contains(t, read(t, in), "Every vessel, single faults included, stays at or below 0.5 bar gauge: at most 0.36 bar")
	assert.Contains(t, read(t, in), "The barrel can take more for the moment in which it fills, up to 0.61 bar gauge: ask whether that "+
		"counts.")
}

// Nothing that fails stays in the appendix unsaid: pairs of faults that exceed are counted in part 2, though no verdict asks for them.
func TestPairsThatExceedAreSaidInTheBody(t *testing.T) {
	in := invented(t, nil)
	pair := fault.Result{ID: "a", With: "b", Part: "pressure switch", Mode: fault.SwitchWelded, Effect: fault.ChangesShot, Judged: 0.59,
		WorstGauge: 0.46e5, Status: finding.Fail}
	in.Faults.Pairs = []fault.Result{pair}
	text := read(t, in)
	said := strings.Index(text, "1 pair exceeds a limit or is unknown. The appendix lists them.")
	assert.Greater(t, said, 0)
	assert.Less(t, said, strings.Index(text, "3. Rules of use\nHolds"))
	in.Faults.Pairs = []fault.Result{pair, pair}
	assert.Contains(t, read(t, in), "2 pairs exceed a limit or are unknown.")
	in.Faults.Pairs = in.Faults.Pairs[:1]
	in.Faults.Faults[0].Status = finding.OpenItem
	assert.Contains(t, read(t, in), "1 single fault holds only by an item that is still open")
	in.Faults.Pairs[0].Status = finding.Pass
	assert.Contains(t, read(t, in), "No pair that was computed exceeds a limit.")
}

// Conditions are rules of use, in words and not by the name of a verdict only.
func TestConditionsAreRules(t *testing.T) {
	in := invented(t, nil)
	v := finding.Verdict{ID: finding.SoundAtPeak, Title: "Peak sound level at the worse ear"}
	v.HoldsWhile(finding.Words("everybody within 2.0 m wears ear defenders"), finding.ItemHearing)
	in.Report.Verdicts = append(in.Report.Verdicts, v)
	text := read(t, in)
	rules := text[strings.Index(text, "Read them aloud"):strings.Index(text, "4. Plan of the place\nHolds")]
	assert.Contains(t, rules, "Peak sound level at the worse ear: everybody within 2.0 m wears ear defenders (sound.hearing).")
}
