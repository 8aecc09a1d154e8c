package checklist

import (
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
	"puffproof/limits/verdict"
	"puffproof/pneumatics"
)

// The expected figures of items are those that close them.
func TestItemsOfFaultsExpectFigures(t *testing.T) {
	l := relieved()
	a := assessed.WithFaults(l)
	a.Loading = &vent.Loading{Names: []string{"tank"}, Wait: 12.3}
	items := FaultItems(a)
	relief := assessed.Item(t, items, finding.ItemReliefTest).Figure
	assert.InDelta(t, 0.2e5, relief.Low, 0)
	assert.InDelta(t, l.Paths[len(l.Paths)-1].SetPressure.High, relief.High, 0)
	assert.InDelta(t, 0.25e5, assessed.Item(t, items, finding.ItemReliefTest).Asks[0].High, 0, "full flow")
	l.Paths[len(l.Paths)-1].FullFlowPressure = launcher.Exact("", 1.05e5)
	assert.Contains(t, assessed.Item(t, FaultItems(a), finding.ItemReliefTest).Expect.String(), "full by 1.05 bar",
		"what a gauge is held against has the digits of its dial")
	assert.InDelta(t, 13, assessed.Item(t, items, finding.ItemLoadingWait).Figure.Low, 0)
	waits := func(gauge string, air vent.Loading) string {
		l := l.Clone()
		l.Gauges = []launcher.GaugeSpec{{On: gauge, Range: launcher.Exact("", 1e5)}}
		a := assessed.WithFaults(l)
		a.Loading = &air
		return assessed.Item(t, FaultItems(a), finding.ItemLoadingWait).How.String()
	}
	vented := vent.Loading{Names: []string{"tank"}, Wait: 12.3, Empty: []bool{true}}
	assert.Contains(t, waits("elsewhere", vented), "No gauge shows whether tank is empty: wait 13 s by a clock")
	assert.Contains(t, waits("tank", vented), "The gauge on tank reads zero first.")
	assert.NotContains(t, waits("tank", vented), "clock")
	assert.NotContains(t, waits("tank", vent.Loading{Empty: []bool{false}}), "zero", "it is full then")
	cut := assessed.Item(t, items, finding.ItemSwitchTest).Figure
	assert.InDelta(t, 0.1e5, cut.Low, 0)
	assert.InDelta(t, 0.12e5, cut.High, 0)
	a.Faults.Faults = []fault.Result{{Effect: fault.FiresUnasked, Energy: 1e-3}}
	assessed.Item(t, FaultItems(a), finding.ItemGuard)
}

// Where soaked foam would shoot harder than it may, every projectile is weighed between both ends of the stated mass, before any shot;
// where it would not, or its cells are closed, nothing is asked.
func TestFoamThatSoaksIsWeighed(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Projectile.Mass = sample.Between("projectile.mass", 3.6e-3, 4.4e-3) })
	soaked := fault.Result{Part: "projectile", Mode: fault.Soaked, Effect: fault.ChangesShot, Judged: 1.9, Status: finding.OpenItem,
		HeldBy: finding.ItemWeighed}
	a := assessed.WithFaults(l, soaked)
	a.Loading = vent.LoadingOf(l, 5000)
	it := assessed.Item(t, FaultItems(a), finding.ItemWeighed)
	assert.Equal(t, [2]float64{3.6e-3, 4.4e-3}, [2]float64{it.Figure.Low, it.Figure.High})
	assert.Equal(t, finding.EnergyFault, it.Verdict)
	assert.Contains(t, it.Expect.String(), "each between 3.6 g and 4.4 g")
	steps := InOrder([]finding.Item{{ID: finding.ItemShotsWeak}, it, {ID: finding.ItemTip}})
	assert.Equal(t, []string{finding.ItemTip, finding.ItemWeighed, finding.ItemShotsWeak}, []string{steps[0].ID, steps[1].ID, steps[2].ID})
	assert.True(t, Empty(it.ID))
	assert.True(t, finding.IsItem(it.ID))
	assert.True(t, rests(finding.ItemShots, finding.ItemWeighed), "shots of wet ones are none of this design")

	a.Faults.Faults[0].HeldBy, a.Faults.Faults[0].Status = "", finding.Pass
	assert.Negative(t, finding.IndexOfItem(FaultItems(a), finding.ItemWeighed))
}

// With a guard the verdict names both items that it rests on, and whether each is
// confirmed by the day of the question.
func TestAnUnaskedShotNamesItsItems(t *testing.T) {
	l := sample.Plain()
	l.Barrel.SealGuard = "ring with slots"
	l.Checklist = []finding.Confirmation{{Item: finding.ItemGuard, Who: "A. N.", Date: "2026-05-01",
		Value: "probe of 900 mm does not reach the bore", Figures: []finding.Figure{{Value: 0.9, Unit: finding.InMetre}}}}
	shot := fault.Result{Part: "fire", Mode: fault.StuckOpen, State: "armed", Effect: fault.FiresUnasked, Energy: 0.1, Judged: 0.1,
		Status: finding.Pass}
	a := assessed.WithFaults(l, shot)
	a.Loading = vent.LoadingOf(l, 5000)
	a.Day = "2026-06-01"
	v := verdict.Of(a, finding.ShotUnasked)
	assert.Contains(t, v.Why.String(), finding.ItemTwoActions+", open")
	assert.Contains(t, v.Why.String(), finding.ItemGuard+", confirmed")
	assert.Contains(t, v.Advice.String(), "lips")
	short := *l
	short.Checklist = []finding.Confirmation{{Item: finding.ItemGuard, Who: "A. N.", Date: "2026-05-01", Value: "finger does not reach"}}
	b := *a
	b.Launcher = &short
	assert.Contains(t, verdict.Of(&b, finding.ShotUnasked).Why.String(), finding.ItemGuard+", open",
		"the verdict judges it as the item does")
	assessed.Item(t, FaultItems(a), finding.ItemTwoActions)
	a.Day = "2026-04-01"
	assert.Contains(t, verdict.Of(a, finding.ShotUnasked).Why.String(), finding.ItemGuard+", open",
		"a day that is still to come confirms nothing")
	a.Faults.Faults = nil
	for _, it := range FaultItems(a) {
		assert.NotEqual(t, finding.ItemGuard, it.ID, "nothing shoots")
	}
}

// What a hand could free from behind a projectile that jams is no pass: its row is
// open until the drill is confirmed, on a day that has come, and the item names the
// figure.
func TestAJammedProjectileIsOpenUntilTheDrillIsConfirmed(t *testing.T) {
	l := sample.Dumped()
	sample.Bled(l)
	jammed := func(day string) fault.Result {
		return assessed.Faults(t, l, day, func(id string) bool { return id == "projectile.jammed" })[0]
	}
	jam := jammed("")
	limits, err := launcher.LimitsOf(l.Limits, l.Projectile)
	require.NoError(t, err)
	assert.Greater(t, jam.Freed, limits.Total.Value)
	assert.Equal(t, finding.OpenItem, jam.Status)
	assert.Contains(t, jam.Reason.String(), "OPEN: only after it has been off for 60 s")
	assert.Contains(t, jam.Consequence.String(), "barrel.stalled", "why the two figures differ")
	a := &assessment.Assessment{Launcher: l, Loading: vent.LoadingOf(l, 5000), Faults: &fault.Report{Faults: []fault.Result{jam},
		Jam: &fault.Jam{AtOnce: jam.Freed, After: vent.Jam{Wait: 60}}}}
	item := assessed.Item(t, FaultItems(a), finding.ItemJamDrill)
	assert.Contains(t, item.Expect.String(), finding.WorstJoule(jam.Freed).String())
	assert.Contains(t, item.Why.String(), jam.Consequence.String())

	l.Checklist = []finding.Confirmation{{Item: finding.ItemJamDrill, Who: "A. N.", Date: "2026-05-01",
		Value:   "practised, waited 1 s, nobody in line",
		Figures: []finding.Figure{{Value: 1, Unit: finding.InSecond}}}}
	assert.Equal(t, finding.OpenItem, jammed("2026-05-01").Status, "its fault asks for the wait too")
	l.Checklist = []finding.Confirmation{{Item: finding.ItemJamDrill, Who: "A. N.", Date: "2026-05-01",
		Value:   "practised, nobody near for 60 s",
		Figures: []finding.Figure{{Value: 60, Unit: finding.InSecond}}}}
	for day, want := range map[string]finding.Status{"2026-05-01": finding.Pass, "2026-04-30": finding.OpenItem} {
		jam = jammed(day)
		assert.Equal(t, want, jam.Status, day)
		assert.Equal(t, finding.OnProcedure, jam.Basis)
	}
}

// relieved is a vented tank whose supply could push to 4 bar, with a switch that stops
// it early and a relief valve that carries it.
func relieved() *launcher.Launcher {
	l := sample.VentedTank()
	l.Supply.DeadHead = launcher.Exact("", 4e5)
	l.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: sample.Between("", 0.1e5, 0.12e5), CutIn: sample.Between("", 0.05e5, 0.06e5),
		Adjustable: launcher.No}
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief,
		Flow:        sample.Orifice(8e-3, 0.62),
		SetPressure: launcher.Exact("", 0.2e5), FullFlowPressure: launcher.Exact("", 0.25e5), ReseatPressure: launcher.Exact("", 0.15e5)})
	return l
}

// The force on an end cap counts the widest of the band: p A, 1 bar on 104 mm is 849 N
// (pi/4 0.104^2 1e5).
func TestTheWidestCapIsPushedHardest(t *testing.T) {
	l := sample.Plain()
	l.Volumes[0].InnerDiameter = sample.Between("", 0.100, 0.104)
	words, forces := capForces(l, []float64{1e5}, 1e5)
	assert.Equal(t, "tank 850 N", words[0].String())
	assert.InDelta(t, 849.5, forces[0], 0.1)
}
