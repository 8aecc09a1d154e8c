package checklist

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/drill"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// What is home-made, or whose rating is a guess, is proved with water at 1.5 times its rating (common practice, from memory);
// what has a label is not.
func TestWhatIsProvedWithWater(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*launcher.VolumeSpec)
		due    bool
	}{
		"a label":              {func(v *launcher.VolumeSpec) { v.RatedPressure.Origin = launcher.Label }, false},
		"a guess":              {func(v *launcher.VolumeSpec) { v.RatedPressure.Origin = launcher.Estimated }, true},
		"a promise":            {func(v *launcher.VolumeSpec) { v.RatedPressure.Origin = launcher.Declared }, true},
		"home-made":            {func(v *launcher.VolumeSpec) { v.Material = "home-made, steel" }, true},
		"with a proof stated":  {func(v *launcher.VolumeSpec) { v.ProofTest = "2026-01-01, water" }, true},
		"home-made, not rated": {func(v *launcher.VolumeSpec) { v.Material, v.RatedPressure = "printed", launcher.Band{} }, false},
	} {
		l := sample.SealedTank()
		v := &l.Volumes[0]
		v.RatedPressure = launcher.Exact("volumes.tank.rated_pressure", 10e5)
		v.RatedPressure.Origin = launcher.Label
		c.change(v)
		items := waterItem(l)
		require.Equal(t, c.due, len(items) == 1, name)
		if c.due {
			assert.Equal(t, 15e5, items[0].Figure.Low, name)
			for bar, closes := range map[float64]bool{10: false, 15: true, 16: true, 25: false} {
				a := finding.Confirmation{Who: "A.", Date: "2026-05-31", Value: "water, no drop, no growth",
					Figures: []finding.Figure{{Value: bar * 1e5, Unit: finding.InPascalGauge}, {Value: 600, Unit: finding.InSecond}}}
				assert.Equal(t, closes, len(finding.Refuses(&items[0], &a, "2026-06-01")) == 0, "%s: %g bar", name, bar)
				a.Value = "water, no drop"
				assert.NotEmpty(t, finding.Refuses(&items[0], &a, "2026-06-01"), "%s: nothing is said of growth", name)
			}
		}
	}
}

// The relief valve is tried against the whole supply only where every rating and every gauge is above what that can push to,
// and nobody is told to touch the switch where it is not.
func TestNobodyBridgesWhatWouldBurst(t *testing.T) {
	l := sample.Whale()
	l.Gauges = append(l.Gauges, launcher.GaugeSpec{On: "tank", Range: launcher.Exact("gauge.range", 1.6e5)})
	require.NotEmpty(t, drill.NoBridging(l), "its gauge ends below the dead head")
	assert.Empty(t, inPlaceItem(l))
	assert.Equal(t, drill.NoBridging(l), NotInPlace(l))
	a := assessed.Emptying(t, l, vent.ForItems)
	assert.Contains(t, faultsTriedItem(a).How.String(), "Nobody touches the switch")

	strong := sample.Whale()
	for i := range strong.Gauges {
		strong.Gauges[i].Range = launcher.Exact("gauge.range", 40e5)
	}
	for i := range strong.Volumes {
		strong.Volumes[i].RatedPressure, strong.Volumes[i].RatedForGas = launcher.Exact("r", 40e5), launcher.Yes
	}
	strong.Barrel.RatedPressure, strong.Barrel.RatedForGas = launcher.Exact("r", 40e5), launcher.Yes
	require.Empty(t, drill.NoBridging(strong))
	items := inPlaceItem(strong)
	require.Len(t, items, 1)
	low, high := drill.ReliefRest(strong)
	assert.Equal(t, []float64{low, high}, []float64{items[0].Figure.Low, items[0].Figure.High})
	assert.NotContains(t, faultsTriedItem(assessed.Emptying(t, strong, vent.ForItems)).How.String(), "Nobody touches")
	strong.Supply.DeadHead = launcher.Exact("supply.dead_head", 0.1e5)
	assert.Contains(t, NotInPlace(strong).String(), "cannot push so far")
}

// Without air every valve is told open or shut as it stands without power; a reading that tells one the other way has failed.
func TestWithoutAirEachValveStandsAsItShould(t *testing.T) {
	it := dryControlItem(&launcher.Launcher{Paths: []launcher.PathSpec{{Name: "dump_tank", To: "atmosphere", Kind: pneumatics.Valve,
		Unpowered: pneumatics.Open}, {Name: "fire", To: "barrel", Kind: pneumatics.Valve, Unpowered: pneumatics.Closed}, {Name: "bleed",
		Kind: pneumatics.Orifice}}})
	for value, want := range map[string]finding.Outcome{
		"each time dump_tank open, fire shut, nothing fires": finding.Closes,
		"vents open, firing valve shut, nothing fires":       finding.Closes,
		"vents shut, nothing fires":                          finding.Failing,
		"nothing fires, the dump valve stays closed":         finding.Failing,
		"firing valve open, nothing fires":                   finding.Failing,
		"dump_tank shut, nothing fires":                      finding.Failing,
		"dump_tank open, fire open, nothing fires":           finding.Failing,
	} {
		got, why := finding.Judge(&it, &finding.Confirmation{Who: "AB", Date: "2026-05-01", Value: value}, "2026-05-02")
		assert.Equal(t, want, got, "%s: %s", value, why)
	}
}

// The first emptying is from a low pressure that can be told from empty, at most the lowest at which the filling ends, on a
// mark of the gauge, and takes no longer than that from the cut-out.
func TestTheFirstEmptyingIsFromALowPressure(t *testing.T) {
	l := sample.VentedTank()
	e := assessed.Emptying(t, l, vent.ForItems).Emptying
	low, full := e.LatestLowTest(), e.LatestTest()
	require.NotNil(t, low)
	assert.LessOrEqual(t, low.Start, vent.LowestStart(l))
	assert.Greater(t, low.Start, 2*e.Target)
	step := l.ReadingStep(l.Sensed(), low.Start)
	assert.InDelta(t, math.Round(low.Start/step), low.Start/step, 1e-9) // rounding of a quotient
	assert.Less(t, low.Slowest, full.Slowest)
	items := lowVentItem(e)
	require.Len(t, items, 1)
	assert.Equal(t, math.Ceil(low.Slowest), items[0].Figure.High)
	none := &vent.Report{LowTests: []vent.StopwatchTest{{Volume: "tank", Slowest: math.Inf(1)}}}
	assert.Empty(t, lowVentItem(none), "what does not empty is not timed")
	assert.Empty(t, lowVentItem(&vent.Report{}))
}

// The second look is one by somebody who was at no other step, done or watched; one more beside them is enough.
func TestTheSecondLookIsBySomebodyElse(t *testing.T) {
	did := func(who string) finding.Item {
		return finding.Item{ID: finding.ItemFuses, Done: &finding.Confirmation{Who: who, Value: "2 A"}}
	}
	file := finding.Item{ID: finding.ItemShots, Done: &finding.Confirmation{Who: "shots.csv", Shows: finding.Words("12 shots")}}
	for who, done := range map[string]bool{"AB": false, "A. B.": false, "ab": false, "CD": false, "AB, CD": false, "EF": false, "Abe": false,
		"GH": true, "AB/GH": true, "AB and GH": true, "shots.csv": true, "...": false} {
		items := []finding.Item{did("A.B., C.D."), did("AB and EF"), file,
			{ID: finding.ItemSecondLook, Done: &finding.Confirmation{Who: who, Value: "all"}}}
		secondLook(items)
		assert.Equal(t, done, items[3].Done != nil, who)
	}
	alone := []finding.Item{{ID: finding.ItemSecondLook, Done: &finding.Confirmation{Who: "AB", Value: "all"}}}
	secondLook(alone)
	assert.NotNil(t, alone[0].Done, "nobody did a step")
}
