package checklist

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// Each control has an item of its own; where nothing enters, one projectile at a time is
// left to watch.
func TestItemsOnWhatEnters(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Barrel.ObjectControl = []string{"supervised loading by the adult in charge", "a cover"}
	})
	items := controlItems(l)
	assert.Contains(t, assessed.Item(t, items, "object-control.1").Title.String(), "supervised loading")
	assert.Contains(t, assessed.Item(t, items, "object-control.2").Title.String(), "a cover")
	assert.Negative(t, finding.IndexOfItem(items, finding.ItemOneProjectile))
	for name, change := range map[string]func(*launcher.Launcher){
		"grid":          func(l *launcher.Launcher) { l.Barrel.ObjectControl = []string{"grid of 5 mm"} },
		"muzzle_admits": func(l *launcher.Launcher) { l.Barrel.MuzzleAdmits = launcher.Exact("", 5*sample.Millimetres) },
	} {
		assert.GreaterOrEqual(t, finding.IndexOfItem(controlItems(sample.Plain(change)), finding.ItemOneProjectile), 0, name)
	}
}

// What a builder inspects once, each only where the design has it: a stop that fixes the
// seat, more than one valve into the one barrel, the print between both its ends.
func TestItemsOnTheBuild(t *testing.T) {
	has := func(l *launcher.Launcher, id string) bool { return finding.IndexOfItem(controlItems(l), id) >= 0 }
	l := sample.Plain()
	assert.True(t, has(l, finding.ItemSeatStop), "the seat of this launcher is fixed")
	assert.False(t, has(l, finding.ItemOneBarrel), "one valve")
	l.Barrel.FixedSeat = false
	l.Paths = append(l.Paths, l.Paths[0])
	l.Paths[1].Name = "second"
	assert.False(t, has(l, finding.ItemSeatStop))
	assert.True(t, has(l, finding.ItemOneBarrel), "two valves")
}

// A tip that is not shown to be soft is asked for its radius, as a figure.
func TestARigidTipIsAskedForItsRadius(t *testing.T) {
	has := func(tip launcher.Tip) bool {
		items := radiusItems(tip)
		return len(items) == 1 && items[0].Figure.Low == 2e-3 && math.IsInf(items[0].Figure.High, 1)
	}
	assert.True(t, has(launcher.RigidTip))
	assert.True(t, has(launcher.UnprovedTip))
	assert.False(t, has(launcher.ResilientTip))
}

// A muffler on a relief valve may shut it: its outlet stays free. One on a vent is part of its flow.
func TestNothingSitsOnAReliefValvesOutlet(t *testing.T) {
	for _, it := range practiceItems(&assessment.Assessment{Launcher: sample.Plain()}) {
		if it.ID != finding.ItemVentOutlets {
			continue
		}
		assert.Contains(t, it.Title.String(), "nothing on the relief valve's outlet")
		assert.Contains(t, it.How.String(), "A muffler on a vent belongs to its flow")
		return
	}
	t.Fatal("no item on outlets")
}

// How deep a projectile sits is asked where it is not judged at every seat: over a tube, on which a hand can push it past any mark, and
// in a bore where a stop is to hold it.
func TestHowDeepAProjectileSitsIsAsked(t *testing.T) {
	tube, bore := sample.Plain(sample.OverTube), sample.Plain()
	tube.Barrel.Engagement = launcher.Exact("", 0.035)
	tube.Barrel.Engagement.High = 0.037
	it := seatItem(&tube.Barrel)
	assert.Equal(t, finding.ItemSeatStop, it.ID)
	assert.Equal(t, "37.0 mm at most", it.Expect.String())
	bore.Barrel.FixedSeat = false
	assert.Empty(t, seatItem(&bore.Barrel).ID, "every seat is judged")
	bore.Barrel.FixedSeat = true
	assert.Equal(t, bore.Barrel.Travel.High, seatItem(&bore.Barrel).Figure.High)
	deeper := &finding.Confirmation{Item: it.ID, Who: "A. N.", Date: "2026-05-01", Value: "loaded ten times, 36 mm, 60 mm",
		Figures: []finding.Figure{{Value: 0.036, Unit: finding.InMetre}, {Value: 0.06, Unit: finding.InMetre}}}
	assert.NotEmpty(t, finding.Refuses(&it, deeper, "2026-06-01"), "pushed right on it goes further than was judged")
	deeper.Figures[1].Value = 0.0365
	assert.Empty(t, finding.Refuses(&it, deeper, "2026-06-01"))
}

// A label that says less than the design contradicts it, however much less the launcher asks for: what is computed rests on the design.
func TestALabelBelowTheDesignContradictsIt(t *testing.T) {
	l := sample.TwoTanks(sample.Regulator(0.3e5, 0))
	for i := range l.Volumes {
		l.Volumes[i].RatedPressure = launcher.Exact("", 10e5)
	}
	l.Barrel.RatedPressure = launcher.Exact("", 10e5)
	it := labelItem(&assessment.Assessment{Launcher: l, Stated: l})
	require.Len(t, it.Parts, 3)
	for i := range it.Parts {
		require.Equal(t, 10e5, it.Parts[i].Low, "no part has to hold so much")
	}
	first, second := it.Parts[0].Name, it.Parts[1].Name
	judged := func(a, b float64) (finding.Outcome, string) {
		outcome, why := finding.Judge(&it, &finding.Confirmation{Item: it.ID, Who: "A. N.", Date: "2026-05-01",
			Value:   first + ", " + second + " and the barrel, for air",
			Beside:  []string{first, second + " and barrel"},
			Figures: []finding.Figure{{Value: a, Unit: finding.InPascalGauge}, {Value: b, Unit: finding.InPascalGauge}}}, "2026-06-01")
		return outcome, why.String()
	}
	outcome, why := judged(10e5, 12e5)
	assert.Equal(t, finding.Closes, outcome, why)
	outcome, why = judged(10e5, 8e5)
	assert.Equal(t, finding.Failing, outcome)
	assert.Contains(t, why, "the design states volumes."+second+".rated_pressure as 10 bar, the label has 8 bar: change the design "+
		"to the label's figure")
	_, why = judged(0.01e5, 8e5)
	assert.Contains(t, why, "the design states volumes."+first+".rated_pressure as 10 bar", "below all that is asked it is told too")
	// 150 psi is 10.342 bar (NIST SP 811, 2008, B.8: 1 psi is 6.894757 kPa); a label in bar is rounded.
	for _, rated := range []*launcher.Band{&l.Volumes[0].RatedPressure, &l.Volumes[1].RatedPressure, &l.Barrel.RatedPressure} {
		*rated = launcher.Exact("", 150*6894.757)
	}
	it = labelItem(&assessment.Assessment{Launcher: l, Stated: l})
	outcome, why = judged(10.3e5, 10.3e5)
	assert.Equal(t, finding.Closes, outcome, why)
}

// A part whose rating is not stated contradicts nothing: its print has to reach what it has to hold.
func TestAPrintThatTheDesignDoesNotStateContradictsNothing(t *testing.T) {
	it := finding.Item{ID: finding.ItemLabels, Figure: finding.FigureBetween(finding.InPascalGauge, 2e5, math.Inf(1)),
		Parts: []finding.NamedPart{{Name: "paths.feed.hose", Expected: *finding.FigureBetween(finding.InPascalGauge, 2e5, math.Inf(1))}}}
	_, why := finding.Judge(&it, &finding.Confirmation{Item: it.ID, Who: "A. N.", Date: "2026-05-01", Value: "1 bar for air",
		Figures: []finding.Figure{{Value: 1e5, Unit: finding.InPascalGauge}}}, "2026-06-01")
	assert.NotContains(t, why.String(), "the design states")
	assert.NotEmpty(t, why)
}

// A rating that names no part has to reach the lowest pressure that one of them has to hold; each named one its own.
func TestLabelsAskTheLeastOfARatingThatNamesNoPart(t *testing.T) {
	l := sample.TwoTanks(sample.Regulator(0.3e5, 0))
	for i := range l.Volumes {
		l.Volumes[i].RatedPressure = launcher.Exact("", 10e5+2e5*float64(i))
	}
	a := &assessment.Assessment{Launcher: l, Stated: l}
	it := labelItem(a)
	require.NotNil(t, it.Figure)
	least, most := math.Inf(1), 0.0
	for _, part := range it.Parts {
		least, most = min(least, part.Low), max(most, part.Low)
	}
	require.Less(t, least, most, "parts that have to hold different pressures")
	assert.Equal(t, least, it.Figure.Low)
}
