package limits

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Items are made without answers, with the figures of the emptying.
func TestItemsOnEmptying(t *testing.T) {
	l := sealedTank()
	l.Checklist = []Confirmation{{Item: ItemVentTest, Who: "A. N.", Date: "2026-05-01", Figures: []Figure{{9, InSecond}}}}
	e := &VentReport{Target: 5000, Left: 0.123, Tests: []StopwatchTest{{Volume: "tank", Slowest: 20.2}, {Volume: "dose", Slowest: 7}},
		Cases: []VentCase{{Volume: "dose", Rebound: 2000}, {Volume: "tank", Rebound: 3000}, {Volume: "shut", Rebound: 9e4, Trapped: true}},
		Leaks: []LeakTest{{Volume: "tank", Start: 8e4, Falls: 1e4, FallsMost: 2e4, Settled: 130, Needed: 600, Loses: 800}}}
	a := &Assessment{Launcher: l, Emptying: e, Day: "2026-06-01", Faults: &FaultReport{Faults: []FaultResult{
		{Part: "vent", Mode: StuckShut, RevealedBy: ItemVentTest}, {Part: "vent", Mode: StuckShut, State: "armed", RevealedBy: ItemVentTest},
		{Part: "gauge", Mode: ReadsLow, RevealedBy: ItemGaugeCompare}}}}
	items := ventItems(a)
	byID := map[string]Item{}
	for _, it := range items {
		assert.Nil(t, it.Done, it.ID)
		assert.NotEmpty(t, it.Source, it.ID)
		byID[it.ID] = it
	}
	require.Len(t, byID, 5)
	vent := byID[ItemVentTest]
	assert.Contains(t, vent.Expect, "0.050 bar or less on every gauge after 21.0 s at the latest")
	assert.Contains(t, vent.Why, " It reveals: vent stuck shut.")
	assert.Equal(t, Expected{Unit: InSecond, Low: 0, High: 21, Also: &Expected{Unit: InPascalGauge, Low: math.Inf(-1), High: 5000}},
		*vent.Figure)
	assert.Contains(t, byID[ItemStaysEmpty].Expect, "tank could come back to 0.030 bar")
	assert.Equal(t, "tank from 0.80 bar: cooling alone takes it to about 0.70 bar, to 0.60 bar at most, and is over after 3 min; after "+
		"that it stands, "+
		"to what the gauge can show, until 10 min (then no leak of more than 0.0080 bar a minute can hide)", byID[ItemLeakDown].Expect)
	assert.Contains(t, byID[ItemOpenTag].Expect, "at most 0.12 J")
	assert.Equal(t, "the gauge on tank within 0.026 bar", byID[ItemGaugeCompare].Expect)
	assert.Contains(t, byID[ItemGaugeCompare].Why, "gauge reads low")

	for _, c := range []struct {
		name   string
		change func()
		item   string
		expect string
		latest float64 // of the figure [s]; NaN: none
	}{
		{"the slowest stays full", func() { e.Tests[0].Slowest = math.Inf(1) }, ItemVentTest, "tank does not empty: mend that first", 0},
		{"no test", func() { e.Tests = nil }, ItemVentTest, "", math.NaN()},
		{"a gauge that is coarse", func() { e.Leaks[0].Needed = math.Inf(1) }, ItemLeakDown, "too coarse to tell a leak in an hour", math.NaN()},
		{"empties while armed", func() { e.Leaks[0].Opens = "vent" }, ItemLeakDown, "in state armed paths.vent is open on tank", math.NaN()},
		{"another volume was read", func() { e.Leaks[0].Volume = "dose" }, ItemLeakDown, "", math.NaN()},
	} {
		c.change()
		it := ventItems(a)[indexOfItem(ventItems(a), c.item)]
		assert.Contains(t, it.Expect, c.expect, c.name)
		assert.Equal(t, c.expect == "", it.Expect == "", c.name)
		if math.IsNaN(c.latest) {
			assert.Nil(t, it.Figure, c.name)
		} else {
			assert.InDelta(t, c.latest, it.Figure.High, 0, c.name)
		}
	}
	l.Gauges, a.Faults = nil, nil
	assert.Negative(t, indexOfItem(ventItems(a), ItemGaugeCompare))
	assert.NotContains(t, ventItems(a)[0].Why, "reveals")
}
