package checklist

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/control"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
)

// judged is what comes of figures in an answer to an item.
func judged(it *finding.Item, unit finding.Quantity, values ...float64) finding.Outcome {
	c := &finding.Confirmation{Item: it.ID, Who: "AB", Date: "2026-05-01", Value: "as read"}
	for _, v := range values {
		c.Figures = append(c.Figures, finding.Figure{Value: v, Unit: unit})
	}
	got, _ := finding.Judge(it, c, "2026-05-02")
	return got
}

// A fuse is one of a launcher's circuits, 0.1 A to 100 A (own rule of this project): a figure far off is that of something else, as in
// milliamperes. Without a circuit no figure is asked.
func TestAFuseIsOneOfALauncher(t *testing.T) {
	l := sample.Plain()
	it := assessed.Item(t, practiceItems(&assessment.Assessment{Launcher: l}), finding.ItemFuses)
	for amperes, want := range map[float64]finding.Outcome{0.05: finding.Failing, 0.1: finding.Closes, 2: finding.Closes, 100: finding.Closes,
		110: finding.Failing, 5000: finding.Failing} {
		assert.Equal(t, want, judged(&it, finding.InAmpere, amperes), "%g A", amperes)
	}
	assert.Equal(t, finding.Failing, judged(&it, finding.InAmpere, 2, 500), "each of them")
	assert.Equal(t, finding.Unusable, judged(&it, finding.InSecond, 2), "no time")
	l.Switch, l.Paths = nil, nil
	assert.Nil(t, practiceFigure(l, finding.ItemFuses))
}

// Where the wiring names its fuses, the answer names each of them.
func TestEachFuseIsNamed(t *testing.T) {
	l := sample.Plain()
	l.Control = &control.Wiring{Parts: []control.Part{{Name: "f1", Kind: control.Fuse}, {Name: "F2", Kind: control.Fuse},
		{Name: "main_fuse", Kind: control.Fuse}, {Name: "stop", Kind: control.Stop}}}
	e := practiceFigure(l, finding.ItemFuses)
	assert.Equal(t, []string{"f1", "f2"}, e.States)
	for value, want := range map[string]finding.Outcome{"f1 2 A on 6 A wire, f2 7.5 A on 10 A wire": finding.Closes,
		"F1: 2 A; F2: 7.5 A": finding.Closes, "f1 2 A on 6 A wire": finding.Unusable, "2 A and 7.5 A": finding.Unusable} {
		figures := []finding.Figure{{Value: 2, Unit: finding.InAmpere}, {Value: 7.5, Unit: finding.InAmpere}}
		got, _ := e.Judge(&finding.Confirmation{Value: value, Figures: figures})
		assert.Equal(t, want, got, value)
	}
}

// Nobody stands as far as a projectile reaches, or as people stand in the design, who are judged by themselves: a zone that was kept
// smaller than that fails, whatever else was paced out.
func TestTheZoneThatWasKeptClear(t *testing.T) {
	flights := func(reach float64) *assessment.Assessment {
		a := &assessment.Assessment{Launcher: sample.Plain(), Flights: &measure.FlightReport{}}
		a.Flights.ClearRadius = reach
		return a
	}
	assert.Zero(t, keptClear(&assessment.Assessment{Launcher: sample.Plain()}), "no flight is known")
	assert.Zero(t, keptClear(flights(math.NaN())))
	assert.Equal(t, 12.0, keptClear(flights(12)))
	for name, c := range map[string]struct {
		person, kerb launcher.Band
		clear        float64
	}{
		"a person nearer":   {sample.Between("", 4, 5), launcher.Band{}, 4},
		"the kerb nearer":   {sample.Between("", 4, 5), sample.Between("", 3, 6), 3},
		"people far away":   {sample.Between("", 20, 30), sample.Between("", 15, 30), 12},
		"a wheel is no one": {launcher.Band{}, launcher.Band{}, 12},
	} {
		a := flights(12)
		a.Launcher.Event = &launcher.EventSpec{NearestPerson: c.person, Kerb: c.kerb, Wheels: sample.Between("", 1, 2)}
		assert.Equal(t, c.clear, keptClear(a), name)
		it := practiceItems(a)[0]
		assert.Equal(t, finding.ItemLandingClear, it.ID)
		assert.Equal(t, c.clear < 12, strings.Contains(it.Expect.String(), "up to 12 m away; where a net"), "%s: %s", name, it.Expect)
		assert.Equal(t, finding.Closes, judged(&it, finding.InMetre, 1, c.clear), "%s: came down near, nobody within all of it", name)
		assert.Equal(t, finding.Failing, judged(&it, finding.InMetre, 0.5, 0.9*c.clear), "%s: a smaller zone", name)
		assert.Equal(t, finding.Unusable, judged(&it, finding.InSecond, 9), "%s: no distance", name)
	}
}

// The openings of a guard are as large as the firing valve needs: less than that fails, a length is no area, and a word is none.
func TestTheAreaOfASealGuard(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Paths[0].Flow = sample.Orifice(3e-3, 0.6)
		l.Barrel.SealGuard = "four slots"
	})
	area, needed := l.SlotArea()
	assert.True(t, needed)
	it := assessed.Item(t, controlItems(l), finding.ItemSealGuard)
	for share, want := range map[float64]finding.Outcome{0.5: finding.Failing, 0.98: finding.Failing, 1: finding.Closes, 4: finding.Closes} {
		assert.Equal(t, want, judged(&it, finding.InSquareMetre, share*area), "%g of the area", share)
	}
	assert.Equal(t, finding.Failing, judged(&it, finding.InSquareMetre, 2*area, 0.1*area), "each that is told")
	assert.Equal(t, finding.Unusable, judged(&it, finding.InMetre, 0.02), "a length")
	assert.Equal(t, finding.Unusable, judged(&it, finding.InSquareMetre), "no figure")
}
