package checklist

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
)

// An answer that says otherwise than what is expected closes nothing, nor does one
// without the figure, nor one from a day to come.
func TestAnAnswerMustSayWhatIsExpected(t *testing.T) {
	l := sample.Dumped()
	l.Switch.CutOut = sample.Between("", 0.38e5, 0.46e5)
	ventTime := 20.0
	for _, c := range []struct {
		item, date, value string
		figures           []finding.Figure
		closes            bool
		why               string
	}{
		{finding.ItemVentTest, "2026-05-01", "9 s", []finding.Figure{{Value: 9, Unit: finding.InSecond}}, false,
			"says nothing of what every gauge shows then: asked is 0.050 bar or less"},
		{finding.ItemVentTest, "2026-05-01", "9 s, every gauge at zero", []finding.Figure{{Value: 9, Unit: finding.InSecond}}, true, ""},
		{finding.ItemVentTest, "2026-05-01", "9 s, 0.02 bar", []finding.Figure{{Value: 9, Unit: finding.InSecond}, {Value: 2e3,
			Unit: finding.InPascalGauge}}, true, ""},
		{finding.ItemVentTest, "2026-05-01", "9 s, 0.3 bar", []finding.Figure{{Value: 9, Unit: finding.InSecond}, {Value: 0.3e5,
			Unit: finding.InPascalGauge}}, false, "not what is expected"},
		{finding.ItemVentTest, "2026-05-01", "600 s", []finding.Figure{{Value: 600, Unit: finding.InSecond}}, false, "not what is expected"},
		{finding.ItemVentTest, "2026-05-01", "empties slowly", nil, false, "no figure in s"},
		{finding.ItemVentTest, "2026-05-01", "", nil, false, "no figure in s"},
		{finding.ItemVentTest, "2099-05-01", "9 s", []finding.Figure{{Value: 9, Unit: finding.InSecond}}, false, "still to come"},
		{finding.ItemReliefTest, "2026-05-01", "0.75 bar, three times", slices.Repeat([]finding.Figure{{Value: 0.75e5,
			Unit: finding.InPascalGauge}}, 3),
			false, "says nothing of the full flow"},
		{finding.ItemReliefTest, "2026-05-01", "0.75 bar", []finding.Figure{{Value: 0.75e5, Unit: finding.InPascalGauge}}, false,
			"1 of the 3 readings"},
		{finding.ItemReliefTest, "2026-05-01", "3 bar", []finding.Figure{{Value: 3e5, Unit: finding.InPascalGauge}}, false,
			"not what is expected"},
		{finding.ItemSwitchTest, "2026-05-01", "ten cycles, 0.40 to 0.43 bar", []finding.Figure{{Value: 0.40e5, Unit: finding.InPascalGauge},
			{Value: 0.43e5, Unit: finding.InPascalGauge}}, true, ""},
		{finding.ItemSwitchTest, "2026-05-01", "0.40 to 0.43 bar", []finding.Figure{{Value: 0.40e5, Unit: finding.InPascalGauge},
			{Value: 0.43e5, Unit: finding.InPascalGauge}}, false, "2 of the 10 readings"},
		{finding.ItemSwitchTest, "2026-05-01", "three cycles, 0.40 to 0.43 bar", []finding.Figure{{Value: 0.40e5, Unit: finding.InPascalGauge},
			{Value: 0.43e5, Unit: finding.InPascalGauge}}, false, "2 of the 10 readings"},
		{finding.ItemSwitchTest, "2026-05-01", "0.40 to 0.9 bar", []finding.Figure{{Value: 0.40e5, Unit: finding.InPascalGauge}, {Value: 0.9e5,
			Unit: finding.InPascalGauge}}, false, "not what is expected"},
		{"loading.wait", "2026-05-01", "1 s", []finding.Figure{{Value: 1, Unit: finding.InSecond}}, false, "not what is expected"},
		{finding.ItemLeakDown, "2026-05-01", "tight", nil, false, "has no figure"},
		{finding.ItemLeakDown, "2026-05-01", "0.36 bar all the while", []finding.Figure{{Value: 0.36e5, Unit: finding.InPascalGauge}}, false,
			"not what is expected"},
		{finding.ItemLeakDown, "2026-05-01", "fell 0.00 bar over 10 min", []finding.Figure{{Unit: finding.InPascalGauge},
			{Value: 600, Unit: finding.InSecond}}, true, ""},
		{finding.ItemJamDrill, "2026-05-01", "", nil, false, "says too little"},
		{finding.ItemJamDrill, "2026-05-01", "all four practised it", nil, true, ""},
		{finding.ItemJamDrill, "2099-05-01", "", nil, false, "still to come"},
	} {
		l.Checklist = []finding.Confirmation{{Item: c.item, Who: "A. N.", Date: c.date, Value: c.value, Figures: c.figures}}
		a := &assessment.Assessment{Launcher: l, Day: "2026-06-01", Faults: &fault.Report{}, Loading: vent.LoadingOf(l, 5000),
			Emptying: &vent.Report{Target: 5000, Tests: []vent.StopwatchTest{{Volume: "tank", Slowest: ventTime}}}}
		it := assessed.Item(t, launcher.Answered(append(VentItems(a), FaultItems(a)...), l, a.Day), c.item)
		assert.Equal(t, c.closes, it.Done != nil, "%s %q: %s", c.item, c.value, it.OpenWhy.String())
		if c.why == "" {
			assert.Empty(t, it.OpenWhy.String())
		} else {
			assert.Contains(t, it.OpenWhy.String(), c.why)
		}
	}
}

// Shots are figures: a word about them closes nothing, their speeds or their file do.
func TestShotsAreAnsweredByFigures(t *testing.T) {
	it := shotsItem(&assessment.Assessment{Launcher: sample.Plain(), Energy: &worst.EnergyReport{Model: 0.1}}, nil)
	word := &finding.Confirmation{Item: it.ID, Who: "A. N.", Date: "2026-05-01", Value: "five good ones"}
	it.OpenWhy = finding.Refuses(&it, word, "2026-06-01")
	assert.Contains(t, it.OpenWhy.String(), "has no figure")
	speeds := &finding.Confirmation{Item: it.ID, Who: "A. N.", Date: "2026-05-01", Value: "five shots, 4.1 to 4.3 m/s",
		Figures: []finding.Figure{{Value: 4.1, Unit: finding.InMetrePerSecond}, {Value: 4.3, Unit: finding.InMetrePerSecond}}}
	it.Asks = nil // at what pressure, where that is known
	assert.Empty(t, finding.Refuses(&it, speeds, "2026-06-01"))
	it.AnswerBy("shots.csv", finding.Words("five shots"))
	assert.NotNil(t, it.Done)
	assert.Empty(t, it.OpenWhy, "what is done is not open for a reason")
}

// Where the nominal shot stays in the barrel nobody is told to expect a speed.
func TestShotsItemOfAStalledShot(t *testing.T) {
	a := &assessment.Assessment{Launcher: sample.Plain(), Energy: &worst.EnergyReport{Model: 0.1}}
	a.Energy.NominalMax.FinalSpeed = math.NaN()
	assert.Equal(t, "the nominal shot does not leave the barrel; every shot below 0.10 J", shotsItem(a, nil).Expect.String())
}

// A chronograph at the muzzle reads what the projectile leaves with, one further away what it flies with: both are expected.
func TestShotsItemExpectsTheSpeedWhereItIsRead(t *testing.T) {
	a := &assessment.Assessment{Launcher: sample.Plain(), Energy: &worst.EnergyReport{Model: 0.1}}
	a.Energy.NominalMax.MuzzleSpeed, a.Energy.NominalMax.FinalSpeed = 4.8, 4.9
	assert.Contains(t, shotsItem(a, nil).Expect.String(), "about 4.8 to 4.9 m/s from ")
	a.Energy.NominalMax.FinalSpeed = 4.801
	assert.Contains(t, shotsItem(a, nil).Expect.String(), "about 4.8 m/s from ", "the same, as far as it is told")
}
