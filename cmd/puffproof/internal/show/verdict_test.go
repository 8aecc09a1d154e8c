package show

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
)

func number(v float64) *float64 { return &v }

// A value just over its limit never looks equal to it.
func TestFailedValueLooksLargerThanItsLimit(t *testing.T) {
	for _, at := range []float64{0.5004, 0.5095} { // one is shown rounded down, one up
		for _, over := range []float64{1e-2, 1e-4, 1e-6, 1e-9} {
			v := finding.Verdict{Status: finding.Fail, Value: number(at * (1 + over)), Limit: number(at), Margin: number(-over),
				Unit: finding.InJoule}
			value, limit := Figures(quantity.Metric, v)
			assert.NotEqual(t, value, limit, "%g of %g", over, at)
		}
	}
}

// The value goes towards its limit; the unit is said once; nothing of nothing is none.
func TestFiguresOfAVerdict(t *testing.T) {
	for want, v := range map[string]finding.Verdict{
		"0.38 of 0.50 J": {Status: finding.Pass, Value: number(0.371), Limit: number(0.5), Margin: number(0.2),
			Unit: finding.InJoule},
		"0.37, at least 0.50 J": {Status: finding.Fail, Value: number(0.379), Limit: number(0.5), Margin: number(-0.2),
			Unit: finding.InJoule},
		"0.041 bar gauge": {Status: finding.Pass, Value: number(4099), Unit: finding.InPascalGauge},
		"0.046 of 0.46 bar gauge": {Status: finding.Pass, Value: number(4560), Limit: number(46000), Margin: number(0.9),
			Unit: finding.InPascalGauge},
		"0.0037 J, none allowed": {Status: finding.Fail, Value: number(0.0037), Limit: number(0), Margin: number(-1), Unit: finding.InJoule},
		"2, none allowed":        {Status: finding.Fail, Value: number(2), Limit: number(0), Unit: finding.InCount},
		"none":                   {Status: finding.Pass, Value: number(0), Limit: number(0), Unit: finding.InCount},
		"-0.12, at least 0 bar gauge": {Status: finding.Fail, Value: number(-12000), Limit: number(0), Margin: number(-1),
			Unit: finding.InPascalGauge},
	} {
		value, limit := Figures(quantity.Metric, v)
		assert.Equal(t, want, OfLimit(v, value, limit))
	}
}

// A pass near its limit does not look like it; a limit to stay above is rounded up, as a zone is that is kept clear; a share of
// decibels or of a count is no margin.
func TestFiguresNearALimitAndMarginsThatMeanSomething(t *testing.T) {
	for want, v := range map[string]finding.Verdict{
		"0.494 of 0.5 bar gauge": {Status: finding.Pass, Value: number(49430), Limit: number(50000), Margin: number(0.0114),
			Unit: finding.InPascalGauge},
		"0.50 of 0.50 J": {Status: finding.Pass, Value: number(0.5), Limit: number(0.5), Margin: number(0), Unit: finding.InJoule},
		"0.54, at least 10.3 m": {Status: finding.Conditional, Value: number(0.54), Limit: number(10.217), Margin: number(-0.95),
			Unit: finding.InMetre, AtLeast: true},
	} {
		value, limit := Figures(quantity.Metric, v)
		assert.Equal(t, want, OfLimit(v, value, limit))
	}
	assert.Equal(t, "margin 2 dB", MarginOf(finding.Verdict{Value: number(132.2), Limit: number(135), Margin: number(0.021),
		Unit: finding.InDecibel}))
	assert.Equal(t, "", MarginOf(finding.Verdict{Value: number(3), Limit: number(2), Margin: number(0.5), Unit: finding.InCount,
		AtLeast: true}))
}

// A report that claims both to fail and to be confirmed is not believed, and a test
// of the real launcher that went wrong is named.
func TestFindingBelievesTheWorst(t *testing.T) {
	bad := finding.Verdict{ID: finding.MeasuredLeak, Status: finding.Fail, Why: finding.Words("leaks: 42 mL/min")}
	words, tone := Finding(limits.Report{Confirmed: true, Verdicts: []finding.Verdict{bad, {Status: finding.Unknown}, {Status: finding.Pass}}})
	assert.Equal(t, "DOES NOT HOLD: the measured leak-down is not tight (leaks); 1 verdict fails, 1 unknown.", words)
	assert.Equal(t, Bad, tone)
	words, tone = Finding(limits.Report{Holds: true, OpenItems: 1, Energy: &worst.EnergyReport{Basis: finding.OnMeasured}})
	assert.Equal(t, "Holds on measured shots. NOT yet confirmed: 1 item open: not to be used yet.", words)
	assert.Equal(t, Open, tone)
	words, tone = Finding(limits.Report{Holds: true, Confirmed: true})
	assert.Equal(t, "Holds, confirmed by measurement.", words)
	assert.Equal(t, Good, tone)
}

// What people have to keep is counted before anything is claimed.
func TestFindingCountsConditions(t *testing.T) {
	for want, r := range map[string]limits.Report{
		"Holds on the model. NOT yet confirmed: 2 items open: not to be used yet. It holds on 1 condition that people keep.": {Holds: true,
			Conditions: 1, OpenItems: 2},
		"Holds on measured shots. NOT yet confirmed: 1 item open: not to be used yet. It holds on 5 conditions that people keep.": {Holds: true,
			Conditions: 5,
			OpenItems:  1, Energy: &worst.EnergyReport{Basis: finding.OnMeasured}},
		"Holds, confirmed by measurement. It holds on 5 conditions that people keep.": {Holds: true, Conditions: 5, Confirmed: true},
		"DOES NOT HOLD: 0 verdicts fail, 0 unknown.":                                  {Conditions: 5},
	} {
		words, _ := Finding(r)
		assert.Equal(t, want, words)
	}
}

// Words tell statuses apart, the worst comes first, and a status that the program
// does not know is no pass.
func TestLooksOfStatuses(t *testing.T) {
	all := []finding.Status{finding.Fail, finding.Unknown, finding.OpenItem, finding.Conditional, finding.Pass, finding.NotApplicable, ""}
	words, papers := map[string]bool{}, map[string]bool{}
	for i, st := range all {
		words[Word(st)], papers[PaperWord(st)] = true, true
		if i > 0 {
			assert.Greater(t, Rank(st), Rank(all[i-1]), string(st))
		}
	}
	assert.Len(t, words, len(all))
	assert.Len(t, papers, len(all))
	assert.Equal(t, "CONDITIONAL", Word(finding.Conditional))
	assert.Equal(t, "◊ conditional", PaperWord(finding.Conditional))
	assert.NotEqual(t, ToneOf(finding.Pass), ToneOf(finding.Conditional))
	assert.Equal(t, "UNKNOWN", Word("of a later version"))
	assert.Equal(t, Open, ToneOf("of a later version"))
}

// A limit to stay above says so where it is just met, and is never missed so many times.
func TestALimitToStayAbove(t *testing.T) {
	v := finding.NewVerdict("switch.band", "", finding.InPascalGauge)
	v.JudgeLower(5000, 5000)
	value, limit := Figures(quantity.Metric, v)
	assert.Equal(t, "0.050, at least 0.050 bar gauge", OfLimit(v, value, limit))
	v.JudgeLower(-6000, 5000)
	assert.Equal(t, "margin -220 %", MarginOf(v))
	v.AtLeast = false
	v.Judge(16000, 5000)
	assert.Equal(t, "3.2 times the limit", MarginOf(v))
	v.Judge(1667e5, 10e5) // no model covers it: neither has digits
	value, limit = Figures(quantity.Metric, v)
	assert.Equal(t, []string{"over 400 bar gauge", "10.0 bar gauge", "over 40 times the limit"}, []string{value, limit, MarginOf(v)})
}
