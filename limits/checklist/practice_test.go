package checklist

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/control"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/pneumatics"
)

// judged is what comes of figures in an answer to an item.
func judged(it *finding.Item, unit finding.Quantity, values ...float64) finding.Outcome {
	c := &finding.Confirmation{Item: it.ID, Who: "AB", Date: "2026-05-01", Value: "as read"}
	if it.ID == finding.ItemSealGuard {
		c.Value = "as read, air gets past"
	}
	for _, v := range values {
		c.Figures = append(c.Figures, finding.Figure{Value: v, Unit: unit})
	}
	got, _ := finding.Judge(it, c, "2026-05-02")
	return got
}

// A fuse is one of a launcher's circuits, 0.1 A to 100 A (own rule of this project): a figure far off is that of something else, as in
// milliamperes. One above what the thinnest usual wire, 0.75 mm2, bears needs the size of its wire. Without a circuit no figure is asked.
func TestAFuseIsOneOfALauncher(t *testing.T) {
	l := sample.Plain()
	it := assessed.Item(t, practiceItems(&assessment.Assessment{Launcher: l}), finding.ItemFuses)
	for amperes, want := range map[float64]finding.Outcome{0.05: finding.Failing, 0.1: finding.Closes, 2: finding.Closes,
		6: finding.Closes, 7: finding.Unusable,
		100: finding.Unusable, 110: finding.Failing, 5000: finding.Failing} {
		assert.Equal(t, want, judged(&it, finding.InAmpere, amperes), "%g A", amperes)
	}
	assert.Equal(t, finding.Failing, judged(&it, finding.InAmpere, 2, 500), "each of them")
	assert.Equal(t, finding.Unusable, judged(&it, finding.InSecond, 2), "no time")
	// What single copper wires bear for good (common practice, no source, as puffproof keys control says).
	for _, c := range []struct {
		fuses, wires []float64 // [A], [mm2]
		want         finding.Outcome
	}{
		{[]float64{6}, []float64{0.75}, finding.Closes}, {[]float64{7.5}, []float64{0.75}, finding.Failing},
		{[]float64{16}, []float64{1.5}, finding.Closes}, {[]float64{16}, []float64{2}, finding.Closes},
		{[]float64{2}, []float64{0.75}, finding.Closes}, {[]float64{2}, []float64{0.2}, finding.Failing},
		{[]float64{2, 10}, []float64{0.75, 1}, finding.Closes}, {[]float64{10, 2}, []float64{0.75, 1}, finding.Failing},
		{[]float64{2, 10}, []float64{1}, finding.Unusable},
	} {
		answer := &finding.Confirmation{Item: it.ID, Value: "as read", Who: "AB", Date: "2026-05-01"}
		for _, a := range c.fuses {
			answer.Figures = append(answer.Figures, finding.Figure{Value: a, Unit: finding.InAmpere})
		}
		for _, a := range c.wires {
			answer.Figures = append(answer.Figures, finding.Figure{Value: 1e-6 * a, Unit: finding.InSquareMetre})
		}
		got, why := finding.Judge(&it, answer, "2026-05-02")
		assert.Equal(t, c.want, got, "%v A on %v mm2: %s", c.fuses, c.wires, why)
	}
	_, why := finding.Judge(&it, &finding.Confirmation{Item: it.ID, Value: "30 A", Who: "AB", Date: "2026-05-01",
		Figures: []finding.Figure{{Value: 30, Unit: finding.InAmpere}}}, "2026-05-02")
	assert.Contains(t, why.String(), "what its load draws")
	l.Switch, l.Paths, l.Supply = nil, nil, nil
	assert.Nil(t, practiceFigure(l, finding.ItemFuses))
}

// Where the wiring names its fuses, each is read by its name, and what is read is what the design states; where it states no rating,
// no more than the wire behind bears. A larger one in place of any of them was replaced, and fails.
func TestEachFuseIsReadAsTheDesignHasIt(t *testing.T) {
	l := sample.Plain()
	l.Control = &control.Wiring{Parts: []control.Part{{Name: "f1", Kind: control.Fuse, Rating: 2, Least: 2, Wire: 6},
		{Name: "main_fuse", Kind: control.Fuse, Wire: 10}, {Name: "F3", Kind: control.Fuse}, {Name: "stop", Kind: control.Stop}}}
	it := assessed.Item(t, practiceItems(&assessment.Assessment{Launcher: l}), finding.ItemFuses)
	assert.Equal(t, "f1 2 A, main_fuse at most the 10 A of its wire, F3 what its print says", it.Expect.String())
	reads := func(f1, mains, f3 string) string { return f1 + " A, " + mains + " A, " + f3 + " A" }
	for value, want := range map[string]finding.Outcome{
		reads("f1 2", "main fuse 10", "F3 16"):  finding.Closes,
		reads("main fuse 5", "f3 0.5", "f1: 2"): finding.Closes,
		reads("f1 3", "main fuse 10", "F3 16"):  finding.Failing,
		reads("f1 1", "main fuse 10", "F3 16"):  finding.Failing,
		reads("f1 2", "main fuse 16", "F3 16"):  finding.Failing,
		reads("f1 2", "main fuse 10", "F3 120"): finding.Failing,
		reads("2", "10", "16"):                  finding.Unusable,
		reads("f1 2", "main fuse 10", "pump 2"): finding.Unusable,
		reads("f1 2", "f1 2", "main fuse 10"):   finding.Unusable,
		"f1 2 A, main fuse 10 A":                finding.Unusable,
		"fused below its wire":                  finding.Unusable,
	} {
		got, why := finding.Judge(&it, answered(t, value), "2026-05-02")
		assert.Equal(t, want, got, "%s: %s", value, why)
	}
}

// answered is an answer with the figures in amperes of its text, and the words before each.
func answered(t *testing.T, value string) *finding.Confirmation {
	t.Helper()
	c := &finding.Confirmation{Who: "AB", Date: "2026-05-01", Value: value}
	parts := strings.Split(value, " A")
	for _, part := range parts[:len(parts)-1] {
		words := strings.Fields(part)
		v, err := strconv.ParseFloat(words[len(words)-1], 64)
		require.NoError(t, err, value)
		c.Figures = append(c.Figures, finding.Figure{Value: v, Unit: finding.InAmpere})
		c.Beside = append(c.Beside, strings.Join(words[:len(words)-1], " "))
	}
	return c
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
	assert.Contains(t, practiceItems(flights(10.217))[0].Inward().String(), "within 10.3 m of the muzzle", "never less than it can fly")
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
		assert.Equal(t, c.clear < 12, strings.Contains(it.Expect.String(), "up to 12.0 m away; where a net"), "%s: %s", name, it.Expect)
		within := func(words string, v float64) finding.Outcome {
			got, _ := finding.Judge(&it, &finding.Confirmation{Who: "AB", Date: "2026-05-01", Value: "came down, nobody within it" + words,
				Beside: []string{"came down at", " nobody within"}, Figures: []finding.Figure{{Value: 30, Unit: finding.InMetre},
					{Value: v, Unit: finding.InMetre}}}, "2026-05-02")
			return got
		}
		assert.Equal(t, finding.Closes, within("", 12), "%s: nobody within all of it", name)
		assert.Equal(t, finding.Closes, within(", net hung", c.clear), "%s: a net stands in", name)
		assert.Equal(t, finding.Failing, within(", net hung", 0.9*c.clear), "%s: nearer than the net", name)
		assert.Equal(t, finding.Failing, within("", 0.9*c.clear), "%s: a smaller zone, though one came down further away", name)
		if c.clear < 12 {
			assert.Equal(t, finding.Failing, within("", c.clear), "%s: nothing stands in", name)
			assert.Equal(t, finding.Failing, within(", no net", c.clear), "%s: no net stands in", name)
		}
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

// The item about contacts names each of them: a relay with three contacts in use is three readings of a meter.
func TestEachContactIsNamed(t *testing.T) {
	l := sample.Plain()
	through := func(no int) []control.Step { return []control.Step{{{Part: "f1", No: 1}}, {{Part: "k1", No: no}}} }
	l.Control = &control.Wiring{Parts: []control.Part{{Name: "f1", Kind: control.Fuse}, {Name: "k1", Kind: control.Relay, Through: through(1)},
		{Name: "pump", Kind: control.Load, Through: through(2)}, {Name: "fire", Kind: control.Load, Through: through(3)}}}
	assert.Equal(t, "every contact opens by itself: k1.1, k1.2, k1.3", contactsItem(l).Expect.String())
}

// The item on age asks for the year of each part of which the design has no date, none older than such parts are used, forty years and ten
// of foam (own rule), and for that until which a part may be used longer; not of a part that has its date.
func TestTheAgeItemAsksForWhatTheDesignDoesNotTell(t *testing.T) {
	l := sample.Plain()
	l.Volumes[0].MadeOn, l.Volumes[0].RetireBy = "1980-03-01", "2031-06-30"
	l.Barrel.MadeOn, l.Projectile.MadeOn = "2020-01-01", ""
	of := func(day string) []finding.Dated {
		return papersOf(&assessment.Assessment{Launcher: l, Stated: l, Day: day})
	}
	assert.Equal(t, []finding.Dated{{Name: "volumes." + l.Volumes[0].Name, From: 2031, Such: 2031},
		{Name: "projectile", From: 2016, Such: 2026}}, of("2026-05-31"))
	assert.Empty(t, of(""))
	l.Volumes[0].MadeOn, l.Projectile.MadeOn = "2020-03-01", "2025-04-01"
	assert.Empty(t, of("2026-05-31"))
}

// Whatever has current has a fuse, and its item asks for the figure of it: a compressor beside a valve that a hand turns too.
func TestWhateverHasCurrentHasAFuse(t *testing.T) {
	l := sample.Plain()
	l.Switch, l.Control = nil, nil
	for i := range l.Paths {
		l.Paths[i].Kind = pneumatics.HandValve
	}
	for kind, want := range map[launcher.SupplyKind]bool{launcher.Compressor: true, launcher.HandPump: false} {
		l.Supply.Kind = kind
		assert.Equal(t, want, practiceFigure(l, finding.ItemFuses) != nil, kind)
		assert.Equal(t, l.Electric(), practiceFigure(l, finding.ItemFuses) != nil, kind)
	}
}
