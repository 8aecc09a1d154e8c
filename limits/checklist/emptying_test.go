package checklist

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
)

// Items are made without answers, with the figures of the emptying.
func TestItemsOnEmptying(t *testing.T) {
	l := sample.SealedTank()
	l.Checklist = []finding.Confirmation{{Item: finding.ItemVentTest, Who: "A. N.", Date: "2026-05-01",
		Figures: []finding.Figure{{Value: 9, Unit: finding.InSecond}}}}
	e := &vent.Report{Target: 5000, Left: 0.123, Tests: []vent.StopwatchTest{{Volume: "tank", Slowest: 20.2, Rebound: 3000},
		{Volume: "dose", Slowest: 7, Rebound: 2000}, {Volume: "shut", Rebound: 9e4, Trapped: true}},
		Cases: []vent.Case{{Volume: "tank", Rebound: 2e4}}, // from a fault's pressure, which is not what is emptied before it is watched
		Leaks: []vent.LeakTest{{Volume: "tank", Start: 8e4, Falls: 1e4, FallsMost: 2e4, Settled: 130, Needed: 600, Loses: 800, May: 700}}}
	a := &assessment.Assessment{Launcher: l, Emptying: e, Day: "2026-06-01", Revealed: map[string][]string{
		finding.ItemVentTest: {"vent stuck shut"}, finding.ItemGaugeCompare: {"gauge reads low"}}}
	items := VentItems(a)
	byID := map[string]finding.Item{}
	for _, it := range items {
		assert.Nil(t, it.Done, it.ID)
		assert.NotEmpty(t, it.Source, it.ID)
		byID[it.ID] = it
	}
	require.Len(t, byID, 5)
	vent := byID[finding.ItemVentTest]
	assert.Contains(t, vent.Expect.String(), "0.050 bar or less on every gauge after 21 s at the latest")
	assert.Contains(t, vent.Why.String(), " It reveals: vent stuck shut.")
	assert.Equal(t, finding.Expected{Unit: finding.InSecond, Low: 0.2, High: 21}, *vent.Figure)
	assert.Equal(t, []finding.Asked{finding.EmptyAt(5000)}, vent.Asks)
	assert.Contains(t, byID[finding.ItemStaysEmpty].Expect.String(), "tank can come back to 0.030 bar")
	assert.Equal(t, "tank from 0.80 bar: cooling alone takes it to about 0.70 bar, to 0.60 bar at the lowest, and is over after 3 min; after "+
		"that it stands, "+
		"to what the gauge can show, until 10 min (then no leak of more than 0.0080 bar a minute can "+
		"hide); from 3 min to 10 min it falls by 0.0070 bar at most", byID[finding.ItemLeakDown].Expect.String())
	assert.Contains(t, byID[finding.ItemOpenTag].Expect.String(), "at most 0.13 J")
	assert.Equal(t, "the gauge on tank within 0.026 bar", byID[finding.ItemGaugeCompare].Expect.String())
	assert.Contains(t, byID[finding.ItemGaugeCompare].Why.String(), "gauge reads low")

	off := l.SensedGaugeError() // where no leak-down can tell, the gauge may have fallen by no more than it may be off
	for _, c := range []struct {
		name   string
		change func()
		item   string
		expect string
		latest float64 // of the figure; NaN: none; infinite: of any size
	}{
		{"the slowest stays full", func() { e.Tests[0].Slowest = math.Inf(1) }, finding.ItemVentTest, "tank does not empty: mend that first", 0},
		{"no test", func() { e.Tests = nil }, finding.ItemVentTest, "", math.NaN()},
		{"a gauge that is coarse", func() { e.Leaks[0].Needed = math.Inf(1) }, finding.ItemLeakDown, "too coarse to tell a leak in an hour",
			off},
		{"empties while armed", func() { e.Leaks[0].Opens = "vent" }, finding.ItemLeakDown, "in state armed paths.vent is open on tank",
			off},
		{"another volume was read", func() { e.Leaks[0].Volume = "dose" }, finding.ItemLeakDown, "", off},
	} {
		c.change()
		it := VentItems(a)[finding.IndexOfItem(VentItems(a), c.item)]
		assert.Contains(t, it.Expect.String(), c.expect, c.name)
		assert.Equal(t, c.expect == "", len(it.Expect) == 0, c.name)
		if math.IsNaN(c.latest) {
			assert.Nil(t, it.Figure, c.name)
		} else {
			assert.Equal(t, c.latest, it.Figure.High, c.name)
		}
	}
	l.Gauges, a.Revealed = nil, nil
	assert.Negative(t, finding.IndexOfItem(VentItems(a), finding.ItemGaugeCompare))
	assert.NotContains(t, VentItems(a)[0].Why.String(), "reveals")
}

// The test that a builder can do begins where the supply stops by itself, not at
// the pressure of a fault, and the item asks for its time.
func TestTheStopwatchTestBeginsAtTheCutOut(t *testing.T) {
	l := sample.VentedTank()
	l.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: launcher.Band{Set: true, Key: "pressure_switch.cut_out", Nominal: 0.36e5,
		Low: 0.33e5, High: 0.39e5}}
	e := assessed.Emptying(t, l, vent.FullSheets).Emptying
	require.Len(t, e.Tests, len(l.Volumes))
	for _, test := range e.Tests {
		require.NotEmpty(t, test.Sheet)
		first := test.Sheet[0]
		assert.InDelta(t, l.Switch.CutOut.Nominal, first.Gauge, 1, "the expected reading at the start")
		assert.LessOrEqual(t, first.Low, l.Switch.CutOut.Low)
		assert.GreaterOrEqual(t, first.High, l.Switch.CutOut.High)
		assert.Less(t, first.High, e.Start, "below the pressure of a fault")
	}
	assert.Less(t, e.LatestTest().Slowest, e.WorstOf(vent.PowerLost).Slowest)
	words, figure := expectVent(l, e)
	assert.Contains(t, words.String(), "from the cut-out, ")
	assert.Empty(t, fromFault(l, e).String())
	assert.Contains(t, words.String(), strconv.Itoa(int(math.Ceil(e.LatestTest().Slowest)))+" s at the latest")
	assert.InDelta(t, e.LatestTest().Slowest, figure.High, 1, "the next whole second")
}

// Without a switch there is no cut-out: the test begins where the filling ends, and the item tells its time apart from the longer one
// of the verdict, which begins where the sun or a fault brings it. VentedTank stalls at 1.00 to 1.05 bar of its own dead head.
func TestTheStopwatchTestWithoutASwitch(t *testing.T) {
	l := sample.VentedTank()
	a := assessed.Emptying(t, l, vent.ForItems)
	item := ventTestItem(a)
	assert.Contains(t, item.Expect.String(), "from where its filling ends, up to "+finding.WorstBar(a.Emptying.LatestTest().High).String())
	assert.NotContains(t, item.Expect.String(), "cut-out")
	judged := a.Emptying.WorstOf(vent.PowerLost)
	require.Greater(t, judged.Start, a.Emptying.LatestTest().High)
	assert.Contains(t, item.How.String(), "they begin at "+finding.WorstBar(judged.Start).String())
}

// The sheet of a leak-down: a launcher that is tight reads between lowest and
// highest, whatever its cut-out, warmth and room; one that leaks by the greatest
// leak that may hide is below in the end.
func TestTheLeakDownSheetHoldsATightLauncher(t *testing.T) {
	l := sample.SealedTank()
	e := assessed.Emptying(t, l, vent.FullSheets).Emptying
	require.Len(t, e.Leaks, 1)
	test := e.Leaks[0]
	m := vent.NewLeakModel(l, "tank", 0.8e5)
	end := test.Sheet[len(test.Sheet)-1].Time
	assert.GreaterOrEqual(t, end, 600.0)
	for _, cutOut := range []float64{vent.LowestStart(l), 0.8e5, test.High} {
		for _, warmth := range []float64{0, 0.5, 1} {
			c, err := m.Course(0, cutOut, warmth, end)
			require.NoError(t, err)
			for _, r := range test.Sheet {
				assert.GreaterOrEqual(t, c.At(r.Time), r.Low-1)
				assert.LessOrEqual(t, c.At(r.Time), r.High+1)
			}
		}
	}
	assert.InDelta(t, 0.8e5, test.Sheet[0].Gauge, 1e-3)
	words := expectLeakDown(&assessment.Assessment{Launcher: l, Emptying: e}).String()
	assert.Contains(t, words, finding.Bar(test.Start-test.FallsMost).String())
	assert.Contains(t, words, vent.Minutes(test.Needed).String())
}

// The plug of a supply that would keep the launcher full is an item, closed by a gauge at or
// below the target.
func TestThePlugOfTheSupplyIsAnItem(t *testing.T) {
	of := func(r *vent.RunsOn) (finding.Item, bool) {
		a := &assessment.Assessment{Launcher: sample.SealedTank(), Emptying: &vent.Report{Target: 5000, RunsOn: r}, Faults: &fault.Report{}}
		items := VentItems(a)
		i := finding.IndexOfItem(items, finding.ItemSupplyOff)
		if i < 0 {
			return finding.Item{}, false
		}
		return items[i], true
	}
	for _, none := range []*vent.RunsOn{nil, {Known: true, Most: 4000, Volume: "tank", Empty: true}} {
		_, there := of(none)
		assert.False(t, there)
	}
	it, there := of(&vent.RunsOn{Known: true, Most: 0.78e5, Volume: "tank"})
	require.True(t, there)
	assert.Contains(t, it.Why.String(), "it stands at up to 0.78 bar")
	assert.Equal(t, finding.VentShutdown, it.Verdict)
	assert.Equal(t, finding.Expected{Unit: finding.InPascalGauge, Low: math.Inf(-1), High: 5000}, *it.Figure)
	it, _ = of(&vent.RunsOn{Most: math.Inf(1), Volume: "tank"})
	assert.Contains(t, it.Why.String(), "nobody knows how far")
}

// What is expected of an emptying tells both its ends: whoever writes down less than a hand can time knows beforehand that it is none.
func TestAnEmptyingTellsBothItsEnds(t *testing.T) {
	assert.Equal(t, "; less than 0.2 s is no reading of a stopwatch", notTimed(1).String())
	assert.Empty(t, notTimed(quickest), "nothing is timed that closely")
}

// An emptying that no gauge shows is heard, within its seconds, and its answer says so; a plug that is pulled is followed by a wait. What a
// gauge shows needs neither (own rule of this project).
func TestAnEmptyingThatNoGaugeShowsIsHeard(t *testing.T) {
	seconds := finding.Figure{Value: 9, Unit: finding.InSecond}
	zero := finding.Figure{Value: 0, Unit: finding.InPascalGauge}
	for on, unseen := range map[string]bool{"tank": false, "elsewhere": true} {
		l := sample.SealedTank()
		l.Gauges[0].On = on
		e := &vent.Report{Target: 5000, Tests: []vent.StopwatchTest{{Volume: "tank", High: 8e4, Slowest: 9.4, Unseen: unseen}},
			Cases: []vent.Case{{Kind: vent.Shutdown, Volume: "tank", Start: 8e4, Slowest: 12.3}}}
		e.RunsOn = &vent.RunsOn{Known: true, Most: 8e4, Volume: "tank"}
		a := &assessment.Assessment{Launcher: l, Emptying: e}
		test := ventTestItem(a)
		assert.Equal(t, unseen, strings.Contains(test.How.String(), "No gauge shows tank as it empties: fit one on it for the test, or hear its "+
			"vent hiss at once and fall silent within 10 s"), on)
		off := supplyOffItem(l, e)
		assert.Equal(t, unseen, strings.Contains(off.Expect.String(), "no gauge shows tank: 13 s by a clock"), on)
		for _, c := range []struct {
			item    *finding.Item
			value   string
			figures []finding.Figure
			closes  bool
		}{
			{&test, "9 s, every gauge at zero", []finding.Figure{seconds}, !unseen},
			{&test, "9 s, its vent hissed and fell silent, every gauge at zero", []finding.Figure{seconds}, true},
			{&off, "plug pulled, every gauge at 0 bar", []finding.Figure{zero}, !unseen},
			{&off, "plug pulled, every gauge at 0 bar, waited 13 s", []finding.Figure{zero, {Value: 13, Unit: finding.InSecond}}, true},
			{&off, "plug pulled, every gauge at 0 bar, waited 12 s", []finding.Figure{zero, {Value: 12, Unit: finding.InSecond}}, !unseen},
		} {
			outcome, why := finding.Judge(c.item, &finding.Confirmation{Who: "A. N., B. N.", Date: "2026-05-01", Value: c.value, Figures: c.figures,
				Beside: make([]string, len(c.figures))}, "2026-05-02")
			assert.Equal(t, c.closes, outcome == finding.Closes, "gauge on %s, %q: %s", on, c.value, why)
		}
	}
}
