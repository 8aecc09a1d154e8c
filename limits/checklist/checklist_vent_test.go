package checklist

import (
	"math"
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/vent"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Items are made without answers, with the figures of the emptying.
func TestItemsOnEmptying(t *testing.T) {
	l := sample.SealedTank()
	l.Checklist = []finding.Confirmation{{Item: finding.ItemVentTest, Who: "A. N.", Date: "2026-05-01", Figures: []finding.Figure{{Value: 9, Unit: finding.InSecond}}}}
	e := &vent.Report{Target: 5000, Left: 0.123, Tests: []vent.StopwatchTest{{Volume: "tank", Slowest: 20.2}, {Volume: "dose", Slowest: 7}},
		Cases: []vent.Case{{Volume: "dose", Rebound: 2000}, {Volume: "tank", Rebound: 3000}, {Volume: "shut", Rebound: 9e4, Trapped: true}},
		Leaks: []vent.LeakTest{{Volume: "tank", Start: 8e4, Falls: 1e4, FallsMost: 2e4, Settled: 130, Needed: 600, Loses: 800}}}
	a := &assessment.Assessment{Launcher: l, Emptying: e, Day: "2026-06-01", Faults: &fault.Report{Faults: []fault.Result{
		{Part: "vent", Mode: fault.StuckShut, RevealedBy: finding.ItemVentTest}, {Part: "vent", Mode: fault.StuckShut, State: "armed", RevealedBy: finding.ItemVentTest},
		{Part: "gauge", Mode: fault.ReadsLow, RevealedBy: finding.ItemGaugeCompare}}}}
	items := VentItems(a)
	byID := map[string]finding.Item{}
	for _, it := range items {
		assert.Nil(t, it.Done, it.ID)
		assert.NotEmpty(t, it.Source, it.ID)
		byID[it.ID] = it
	}
	require.Len(t, byID, 5)
	vent := byID[finding.ItemVentTest]
	assert.Contains(t, vent.Expect.String(), "0.050 bar or less on every gauge after 21.0 s at the latest")
	assert.Contains(t, vent.Why.String(), " It reveals: vent stuck shut.")
	assert.Equal(t, finding.Expected{Unit: finding.InSecond, Low: 0, High: 21, Also: &finding.Expected{Unit: finding.InPascalGauge, Low: math.Inf(-1), High: 5000}},
		*vent.Figure)
	assert.Contains(t, byID[finding.ItemStaysEmpty].Expect.String(), "tank could come back to 0.030 bar")
	assert.Equal(t, "tank from 0.80 bar: cooling alone takes it to about 0.70 bar, to 0.60 bar at most, and is over after 3 min; after "+
		"that it stands, "+
		"to what the gauge can show, until 10 min (then no leak of more than 0.0080 bar a minute can hide)", byID[finding.ItemLeakDown].Expect.String())
	assert.Contains(t, byID[finding.ItemOpenTag].Expect.String(), "at most 0.12 J")
	assert.Equal(t, "the gauge on tank within 0.026 bar", byID[finding.ItemGaugeCompare].Expect.String())
	assert.Contains(t, byID[finding.ItemGaugeCompare].Why.String(), "gauge reads low")

	for _, c := range []struct {
		name   string
		change func()
		item   string
		expect string
		latest float64 // of the figure [s]; NaN: none
	}{
		{"the slowest stays full", func() { e.Tests[0].Slowest = math.Inf(1) }, finding.ItemVentTest, "tank does not empty: mend that first", 0},
		{"no test", func() { e.Tests = nil }, finding.ItemVentTest, "", math.NaN()},
		{"a gauge that is coarse", func() { e.Leaks[0].Needed = math.Inf(1) }, finding.ItemLeakDown, "too coarse to tell a leak in an hour", math.NaN()},
		{"empties while armed", func() { e.Leaks[0].Opens = "vent" }, finding.ItemLeakDown, "in state armed paths.vent is open on tank", math.NaN()},
		{"another volume was read", func() { e.Leaks[0].Volume = "dose" }, finding.ItemLeakDown, "", math.NaN()},
	} {
		c.change()
		it := VentItems(a)[finding.IndexOfItem(VentItems(a), c.item)]
		assert.Contains(t, it.Expect.String(), c.expect, c.name)
		assert.Equal(t, c.expect == "", len(it.Expect) == 0, c.name)
		if math.IsNaN(c.latest) {
			assert.Nil(t, it.Figure, c.name)
		} else {
			assert.InDelta(t, c.latest, it.Figure.High, 0, c.name)
		}
	}
	l.Gauges, a.Faults = nil, nil
	assert.Negative(t, finding.IndexOfItem(VentItems(a), finding.ItemGaugeCompare))
	assert.NotContains(t, VentItems(a)[0].Why.String(), "reveals")
}
