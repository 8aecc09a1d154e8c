package finding

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// said is what comes of an answer in words to an item without a figure, as a commissioning asks it: the reading itself, and whether it
// affirms what is asked.
func said(id, value string) bool {
	why := Refuses(&Item{ID: id, Names: []string{"dump_tank"}}, &Confirmation{Item: id, Who: "AB", Date: "2026-05-01", Value: value},
		"2026-06-01")
	return len(why) == 0 && Affirms(id, value)
}

// An answer in words says that it was as it should be, and nothing of it says otherwise: what is good on one launcher is no sentence of
// luck on another. Each refused one tells of a launcher that is not in order, or that nobody looked at.
func TestWordsAffirm(t *testing.T) {
	for id, c := range map[string]struct{ good, bad []string }{
		ItemTwoActions: {[]string{"no click", "no click in any of them", "nothing fires", "none fired, tried each"},
			[]string{"it fired at one", "no click, but it fired at one", "a click once", "nothing at all", "no", "all tried",
				"didn't look, no click", "no click it fired"}},
		ItemDryControl: {[]string{"nothing fires, silent", "dump_tank open, fire shut, nothing fired"},
			[]string{"the pump ran on", "nothing fires, the pump ran on", "dump_tank shut", "not looked at"}},
		ItemContacts: {[]string{"each contact opens", "each opened, meter shows no reading"},
			[]string{"one is welded", "each opens, k1 sticks", "both together open", "all fine"}},
		ItemBarrelEmpty: {[]string{"no bubble", "no bubbles for two minutes", "the film stayed flat"},
			[]string{"bubble at the muzzle", "no bubble at first, then bubbles", "hissed", "film held, hissed"}},
		ItemGuard: {[]string{"probe stays out", "the probe does not reach the bore"},
			[]string{"the probe reaches the bore", "stays out, except one side where the probe reaches in"}},
		ItemEndCaps: {[]string{"threads fully in", "750 N, all caps hold", "caps seated"},
			[]string{"none of them holds", "caps won't hold", "not recorded", "fully in, one moved"}},
		ItemReliefShutOff: {[]string{"no tap on the way", "straight from the vessel to the relief valve, no ball valve between"},
			[]string{"ball valve between vessel and relief valve", "no tap, a ball valve between them", "never traced"}},
		ItemTugAndBite: {[]string{"nothing came off", "no piece came off", "still whole", "bitten, nothing came off",
			"tugged and bitten for ten seconds, nothing came off", "pulled, squeezed and bitten hard: no pieces",
			"bitten all round and tugged, it held", "bitten hard, still in one piece", "nothing bitten off", "tugged, bitten, nothing broke off",
			"was bitten for ten seconds; nothing came off", "pulled and bitten, nothing has come off"},
			[]string{"child bit a piece off", "whole, child bit a piece off", "a crumb came off", "bitten", "bitten off, held",
				"bitten through, held", "bitten in two, nothing came off", "the tip is bitten, whole", "bitten to shreds, nothing came off",
				"a fin bitten away, whole", "bitten into, it holds", "came off in one piece", "bitten a little off, whole",
				"bitten open, nothing came off", "not bitten, nothing came off", "bitten by nobody, whole", "never bitten, whole"}},
		ItemOpenTag: {[]string{"tag on dump_tank", "locked open and tagged"}, []string{"no tag", "tag on, vent shut", "tag missing"}},
		ItemLookIn:  {[]string{"empty, water ran out"}, []string{"tank not empty", "unlooked, empty"}},
		ItemAgeRetire: {[]string{"no cracks, no date past", "no cracks at all"}, []string{"one date past", "no cracks, hose expired",
			"not looked at"}},
		ItemKeyAndStop: {[]string{"vents each time"}, []string{"vents, but not the last time", "the stop never vented"}},
		ItemSecondLook: {[]string{"all of it, the leak-down shown again"}, []string{"no leak test shown", "nothing read", "a quick glance"}},
		ItemJamDrill: {[]string{"all four did it", "practised, nobody in line"}, []string{"one did not do it",
			"did it, one was hurt, the ball came off stuck"}},
		ItemLandingClear:  {[]string{"nobody within 12 m"}, nil},
		ControlItem + "1": {[]string{"named and tried"}, []string{"not named", "somebody will look"}},
	} {
		for _, value := range c.good {
			assert.True(t, said(id, value), "%s: %s", id, value)
		}
		for _, value := range c.bad {
			assert.False(t, said(id, value), "%s: %s", id, value)
		}
	}
	for _, id := range ItemIDs() {
		if sentence := Sentence(id); sentence != "" {
			assert.True(t, said(id, sentence), "%s: what is asked, %q, is accepted", id, sentence)
		}
	}
}

// Each figure belongs to the part before it: where several are asked each is named, once, and the longer of two names is meant.
func TestEachFigureHasItsPart(t *testing.T) {
	rated := func(name string, low float64) NamedPart {
		return NamedPart{Name: name, Expected: *FigureBetween(InPascalGauge, low, 100e5)}
	}
	it := &Item{ID: ItemLabels, Figure: FigureBetween(InPascalGauge, 1e5, 100e5),
		Parts: []NamedPart{rated("tank", 1e5), rated("dump_tank", 5e5), rated("paths.feed.hose", 8e5)}}
	for name, c := range map[string]struct {
		bars   []float64
		beside []string
		want   Outcome
	}{
		"each its own":     {[]float64{2, 6, 9}, []string{"tank", "dump_tank", "feed hose"}, Closes},
		"in another order": {[]float64{9, 6, 2}, []string{"the paths.feed.hose", "Dump tank", "and tank"}, Closes},
		"two with one":     {[]float64{6, 9}, []string{"tank and dump_tank", "feed hose"}, Closes},
		"mixed up":         {[]float64{6, 2, 9}, []string{"tank", "dump_tank", "feed hose"}, Failing},
		"one left out":     {[]float64{2, 6}, []string{"tank", "dump_tank"}, Unusable},
		"one twice":        {[]float64{2, 2, 6, 9}, []string{"tank", "tank", "dump_tank", "feed hose"}, Unusable},
		"without names":    {[]float64{6, 6, 9}, nil, Unusable},
		"one without":      {[]float64{2, 6, 9, 9}, []string{"tank", "dump_tank", "feed hose", ""}, Unusable},
	} {
		answer := &Confirmation{Who: "AB", Date: "2026-05-01", Value: "as read, for air", Beside: c.beside}
		for _, v := range c.bars {
			answer.Figures = append(answer.Figures, Figure{v * 1e5, InPascalGauge})
		}
		got, why := Judge(it, answer, "2026-05-02")
		assert.Equal(t, c.want, got, "%s: %s", name, why)
	}
}

// A figure that nobody read off is none, and what a label denies it does not show.
func TestAFigureIsRead(t *testing.T) {
	it := &Item{ID: ItemLabels, Figure: FigureBetween(InPascalGauge, 1e5, 100e5)}
	for value, want := range map[string]Outcome{"10 bar": Unusable, "10 bar for air": Closes, "10 bar nitrogen": Closes,
		"10 bar, gas":          Closes,
		"10 bar, photographed": Unusable, "10 bar, not for air": Failing, "10 bar, for air, not water": Closes,
		"10 bar or more": Unusable, "about 10 bar": Unusable, "~10 bar": Unusable, "10 bar, guessed": Unusable, "an estimated 10 bar": Unusable,
		"not 10 bar": Failing, "10 bar, water only": Failing, "10 bar, not measured": Failing, "10 bar, unread": Failing} {
		got, why := Judge(it, &Confirmation{Who: "AB", Date: "2026-05-01", Value: value, Figures: []Figure{{10e5, InPascalGauge}}},
			"2026-05-02")
		assert.Equal(t, want, got, "%s: %s", value, why)
	}
	far := &Item{ID: ItemLandingClear, Figure: &Expected{Unit: InMetre, High: 1e9, Reach: 10}}
	loud := &Item{ID: ItemHearing, May: FigureBetween(InDecibel, 0, 115)}
	for _, c := range []struct {
		it   *Item
		f    []Figure
		want Outcome
	}{{far, []Figure{{4, InMetre}, {12, InMetre}}, Closes}, {far, []Figure{{4, InMetre}}, Failing},
		{loud, []Figure{{110, InDecibel}}, Closes}, {loud, []Figure{{140, InDecibel}}, Failing}, {loud, []Figure{{110, InOtherDecibel}},
			Unusable}} {
		got, why := Judge(c.it, &Confirmation{Who: "AB", Date: "2026-05-01", Value: map[*Item]string{far: "nobody within",
			loud: "loudest"}[c.it],
			Figures: c.f}, "2026-05-02")
		assert.Equal(t, c.want, got, "%v: %s", c.f, why)
	}
}

// What an answer has to say it says, whatever figures it brings: a recording of shots is no answer on a pump.
func TestAnAnswerSaysWhatIsAsked(t *testing.T) {
	it := &Item{ID: ItemHearing, May: FigureBetween(InDecibel, 0, 115), Says: []string{"ear defender*"}}
	for value, want := range map[string]Outcome{"recorded, loudest 108 dB(C)": Unusable,
		"recorded, loudest 108 dB(C), ear defenders at the pump": Closes,
		"ear defenders on everybody at the pump":                 Closes} {
		c := &Confirmation{Who: "AB", Date: "2026-05-01", Value: value}
		if strings.Contains(value, "108") {
			c.Figures = []Figure{{108, InDecibel}}
		}
		got, why := Judge(it, c, "2026-05-02")
		assert.Equal(t, want, got, "%s: %s", value, why)
	}
}

// Beside a figure too a word that takes a part of it back makes the answer none; a figure that is outside fails all the same.
func TestAFigureIsNotTakenBack(t *testing.T) {
	it := &Item{ID: ItemVentTest, Figure: FigureBetween(InSecond, 0.2, 9)}
	for value, want := range map[string]Outcome{"6 s": Closes, "6 s, twice, by the stop too": Closes,
		"6 s, but the dose took longer": Unusable,
		"6 s, only the tank":            Unusable, "6 s if the plug is pulled": Unusable, "6 s except once": Failing,
		"6 s, it swells":      Unusable,
		"6 s, nothing swells": Closes} {
		got, why := Judge(it, &Confirmation{Who: "AB", Date: "2026-05-01", Value: value, Figures: []Figure{{6, InSecond}}}, "2026-05-02")
		assert.Equal(t, want, got, "%s: %s", value, why)
	}
	got, _ := Judge(it, &Confirmation{Who: "AB", Date: "2026-05-01", Value: "60 s, but twice", Figures: []Figure{{60, InSecond}}},
		"2026-05-02")
	assert.Equal(t, Failing, got)
}

// Where a step ends with the launcher empty a pressure that is told has to come to zero.
func TestAPressureThatIsLeft(t *testing.T) {
	bar := func(v float64) Figure { return Figure{v * 1e5, InPascalGauge} }
	for _, c := range []struct {
		id, value string
		figures   []Figure
		want      Outcome
	}{
		{ItemKeyAndStop, "vents to 0.2 bar", []Figure{bar(0.2)}, Unusable},
		{ItemKeyAndStop, "vents from 0.36 bar to zero", []Figure{bar(0.36)}, Closes},
		{ItemKeyAndStop, "vents from 0.36 bar to 0.00 bar", []Figure{bar(0.36), bar(0)}, Closes},
		{ItemKeyAndStop, "vents each time", nil, Closes},
		{ItemLoadingWait, "waited, gauge at 0.3 bar", []Figure{bar(0.3)}, Unusable},
		{ItemEndCaps, "threads in, looked at from 0.3 bar", []Figure{bar(0.3)}, Closes},
	} {
		got, why := Judge(&Item{ID: c.id}, &Confirmation{Who: "AB", Date: "2026-05-01", Value: c.value, Figures: c.figures}, "2026-05-02")
		assert.Equal(t, c.want, got, "%s: %s", c.value, why)
	}
}

// A press test says which figure is of which state: dry, wet and cold, each once.
func TestAPressTestHasItsStates(t *testing.T) {
	it := &Item{ID: ItemTip, Figure: &Expected{Unit: InNewton, Low: 0.1, High: 1e9, Least: 3, States: []string{"dry", "wet", "cold"},
		With: FigureBetween(InMetre, 1e-3, 45e-3)}}
	judge := func(value string, n int, flat float64) Outcome {
		c := &Confirmation{Who: "AB", Date: "2026-05-01", Value: value}
		for range n {
			c.Figures = append(c.Figures, Figure{60, InNewton}, Figure{flat, InMetre})
		}
		got, _ := Judge(it, c, "2026-05-02")
		return got
	}
	assert.Equal(t, Closes, judge("dry, wet, cold", 3, 8e-3))
	assert.Equal(t, Unusable, judge("dry, dry, dry", 3, 8e-3))
	assert.Equal(t, Unusable, judge("dry, wet", 2, 8e-3))
	assert.Equal(t, Unusable, judge("three times", 3, 8e-3))
	assert.Equal(t, Failing, judge("dry, wet, cold", 3, 60e-3), "flatter than it is thick")
}
