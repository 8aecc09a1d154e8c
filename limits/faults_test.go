package limits

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
)

func faultsOf(t *testing.T, l *Launcher, o FaultOptions) *FaultReport {
	t.Helper()
	r, err := Faults(context.Background(), l, o)
	require.NoError(t, err)
	return r
}

func faultNamed(t *testing.T, all []FaultResult, id string) FaultResult {
	t.Helper()
	for _, f := range all {
		if f.ID == id {
			return f
		}
	}
	require.Fail(t, "no fault "+id)
	return FaultResult{}
}

// mustVentTop is the highest pressure that the ladder allows in the sensed volume
// [Pa gauge].
func mustVentTop(t *testing.T, l *Launcher) float64 {
	t.Helper()
	top, _, ok := l.ventStart()
	require.True(t, ok)
	return top
}

// Every fault is named once, says what it does and, where no shot was computed
// for it, why it cannot change the shot.
func TestEveryFaultIsRunOrSaysWhyNot(t *testing.T) {
	for name, l := range map[string]*Launcher{"whale": whale(), "rocket": rocket(), "plain": plain()} {
		t.Run(name, func(t *testing.T) {
			r := faultsOf(t, l, FaultOptions{})
			seen := map[string]bool{}
			for _, f := range r.Faults {
				assert.False(t, seen[f.ID], f.ID)
				seen[f.ID] = true
				assert.NotEmpty(t, f.Consequence, f.ID)
				assert.NotContains(t, f.ID, " ")
				if f.Effect == NoEffect {
					assert.NotEmpty(t, f.Reason, f.ID)
					assert.Zero(t, f.Shots, f.ID)
				} else if f.SameAs == "" && f.Status != Unknown {
					assert.Positive(t, f.Shots, f.ID)
				}
				if f.SameAs != "" {
					assert.Equal(t, faultNamed(t, r.Faults, f.SameAs).Judged, f.Judged, f.ID)
				}
				if f.Effect == ChangesShot && f.Status != Unknown && f.Mode != TwoLoaded {
					assert.GreaterOrEqual(t, f.Energy, faultNamed(t, r.Faults, "fire.stuck-shut").Energy, f.ID+": never below normal operation, the part may also work")
				}
				if f.Latent {
					assert.NotEmpty(t, f.RevealedBy, f.ID)
				}
				if f.Mode == Jammed { // it does not leave: no energy of a shot, but what a hand could free
					assert.True(t, math.IsNaN(f.Judged), "a figure of zero would be read as harmless")
					assert.Positive(t, f.Freed)
					assert.GreaterOrEqual(t, f.WorstGauge, 0.99*mustVentTop(t, l))
				}
				assert.NotContains(t, f.Name(), "power power")
				assert.NotContains(t, f.Name(), "relief relief")
			}
			assert.Equal(t, len(r.Faults), r.Searched+r.Unsearched)
			for i := range l.Paths {
				found := false
				for id := range seen {
					found = found || strings.HasPrefix(id, strings.ToLower(l.Paths[i].Name)+".")
				}
				assert.True(t, found, "no fault of path "+l.Paths[i].Name)
			}
			for _, s := range []string{"charging", "armed", "loading", "firing"} {
				assert.True(t, seen["power.lost."+s])
			}
		})
	}
}

// A path more has its faults too, by its kind.
func TestAPathMoreHasItsFaults(t *testing.T) {
	flow := FlowSpec{Form: OrificeBore, Value: Exact("", 1e-3), DischargeCoefficient: Exact("", 0.75)}
	for kind, want := range map[pneumatics.PathKind][]FaultMode{
		pneumatics.Valve:     {StuckShut, StuckOpen, LeakingValve, Energised, BoreMissing},
		pneumatics.HandValve: {StuckShut, StuckOpen, LeakingValve, BoreMissing},
		pneumatics.Orifice:   {Blocked, BoreMissing},
		pneumatics.Check:     {PassesBack, StuckShut, BoreMissing},
		pneumatics.Regulator: {FailedOpen, Creeps, StuckShut, BoreMissing},
	} {
		l := ventedTank()
		l.Volumes = append(l.Volumes, VolumeSpec{Name: "side", Volume: Exact("", 1e-4)})
		l.Paths = append(l.Paths, PathSpec{Name: "extra", From: "tank", To: "side", Kind: kind, Flow: flow, SetPressure: Exact("", 5e4), Droop: Exact("", 1e4)})
		j := &judge{ctx: context.Background(), l: l, emptying: &VentReport{Target: 5000}}
		var got []FaultMode
		for _, f := range j.singleFaults() {
			if f.part == "extra" {
				got = append(got, f.mode)
			}
		}
		assert.ElementsMatch(t, want, got, kind.String())
	}
	l := ventedTank()
	l.Paths = append(l.Paths, PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief, Flow: flow,
		SetPressure: Exact("", 6e4), FullFlowPressure: Exact("", 7e4), ReseatPressure: Exact("", 5e4)})
	j := &judge{ctx: context.Background(), l: l, emptying: &VentReport{Target: 5000}}
	var modes []FaultMode
	for _, f := range j.singleFaults() {
		if f.part == "relief" {
			modes = append(modes, f.mode)
		}
	}
	assert.ElementsMatch(t, []FaultMode{ReliefStuckShut, SetTooHigh, ReseatsLate, LeakingValve}, modes)
}

// A welded switch: with a relief valve the pressure is its, without one the dead
// head; a wrong fault pressure was the gravest error of an early draft.
func TestWeldedSwitchGoesToTheReliefOrTheDeadHead(t *testing.T) {
	l := plain()
	welded := faultNamed(t, faultsOf(t, l, FaultOptions{}).Faults, "pressure-switch.welded-never-stops-the-supply")
	assert.InDelta(t, 4*bars, welded.WorstGauge, 1, "no relief valve: the dead head")
	assert.Equal(t, Fail, welded.Status)
	l.Supply.DeadHead = Band{}
	r := faultsOf(t, l, FaultOptions{})
	assert.Equal(t, Unknown, faultNamed(t, r.Faults, "pressure-switch.welded-never-stops-the-supply").Status)
	v := verdictIn(t, r.Verdicts, "energy.fault")
	assert.Equal(t, Fail, v.Status, "another fault is above the limit whatever the dead head")
	assert.Contains(t, v.Why, "others are unknown")

	weak := plain()
	weak.Supply.DeadHead = Band{}
	weak.Switch.CutOut = between("", 0.02e5, 0.03e5)
	weak.Switch.CutOut.Nominal, weak.Switch.CutIn = 0.025e5, Exact("", 0.01e5)
	assert.Equal(t, Unknown, verdictIn(t, faultsOf(t, weak, FaultOptions{}).Verdicts, "energy.fault").Status, "dead head missing")
}

// Power that opens the firing valve when it is lost shoots from every state in
// which the tank is charged; a vent while loading takes that state out.
func TestPowerLossThatFires(t *testing.T) {
	l := ventedTank()
	l.Paths[0].Unpowered = pneumatics.Open
	r := faultsOf(t, l, FaultOptions{})
	for _, s := range []string{"charging", "armed", "loading"} {
		f := faultNamed(t, r.Faults, "power.lost."+s)
		assert.Equal(t, FiresUnasked, f.Effect, s)
		assert.Greater(t, f.Energy, 0.0, s)
	}
	unasked := verdictIn(t, r.Verdicts, "shot.unasked")
	assert.Equal(t, Fail, unasked.Status)
	assert.Contains(t, unasked.Why, "while hands are at the muzzle")

	l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	r = faultsOf(t, l, FaultOptions{})
	assert.Equal(t, NoEffect, faultNamed(t, r.Faults, "power.lost.loading").Effect)
	assert.Equal(t, NoEffect, faultNamed(t, r.Faults, "fire.stuck-open.loading").Effect)
	assert.Equal(t, FiresUnasked, faultNamed(t, r.Faults, "power.lost.armed").Effect)
}

// Unasked shots pass only on procedure, and only with a guard.
func TestUnaskedShotNeedsAGuard(t *testing.T) {
	l := ventedTank()
	l.Supply.DeadHead = Exact("", 5000) // so weak that the energy is no question
	l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	v := verdictIn(t, faultsOf(t, l, FaultOptions{}).Verdicts, "shot.unasked")
	assert.Equal(t, Fail, v.Status, v.Why)
	l.Barrel.SealGuard = "ring with slots"
	v = verdictIn(t, faultsOf(t, l, FaultOptions{}).Verdicts, "shot.unasked")
	assert.Equal(t, Pass, v.Status, v.Why)
	assert.Equal(t, OnProcedure, v.Basis)
}

func TestBarriersWhileLoading(t *testing.T) {
	second := PathSpec{Name: "shut-off", From: "tank", To: "dose", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Charging, pneumatics.Armed),
		Flow: FlowSpec{Form: SonicConductance, Value: Exact("", 1e-8), CriticalRatio: Exact("", 0.3)}}
	twoValves := func(l *Launcher) {
		l.Volumes = append(l.Volumes, VolumeSpec{Name: "dose", Volume: Exact("", 1e-3)})
		l.Paths[0].From = "dose"
		l.Paths = append(l.Paths, second)
	}
	for _, c := range []struct {
		name   string
		change func(l *Launcher)
		value  float64
		want   Status
	}{
		{"one valve, tank charged", func(*Launcher) {}, 1, Fail},
		{"one valve, tank vented", func(l *Launcher) { l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading) }, 2, Pass},
		{"two valves, no vent: the dose may hold air", twoValves, 1, Fail},
		{"two valves and a vent on the dose", func(l *Launcher) {
			twoValves(l)
			vent := l.Paths[1]
			vent.Name, vent.From, vent.OpenIn = "dose vent", "dose", pneumatics.SetOf(pneumatics.Off, pneumatics.Loading)
			l.Paths = append(l.Paths, vent)
		}, 3, Pass},
		{"a check valve towards the dose is no barrier", func(l *Launcher) {
			twoValves(l)
			l.Paths[2].Kind = pneumatics.Check
		}, 1, Fail},
		{"firing valve open while loading", func(l *Launcher) { l.Paths[0].OpenIn |= pneumatics.SetOf(pneumatics.Loading) }, 0, Fail},
		// 12 L/min through a hole of 1.2 mm: the vent does not keep it empty (orifice
		// flow: about 0.4 bar).
		{"the supply runs while loading", func(l *Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
		}, 1, Fail},
		{"the supply runs while loading against a wide vent", func(l *Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].Flow = orifice(4e-3, 0.75)
			l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
		}, 2, Pass},
		{"a vent that a piloted valve keeps shut", func(l *Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].MinDifferential = Exact("", 0.2e5)
		}, 1, Fail},
		{"a vent too narrow for an hour", func(l *Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].Flow = orifice(0.05e-3, 0.75)
		}, 1, Fail},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := ventedTank()
			c.change(l)
			j := &judge{ctx: context.Background(), l: l}
			j.loadingVerdict()
			v := j.report.Verdicts[0]
			assert.Equal(t, c.want, v.Status, v.Why)
			require.NotNil(t, v.Value)
			assert.InDelta(t, c.value, *v.Value, 0, v.Why)
		})
	}
}

// Pairs: a relief valve that sticks is there when the switch welds. It passes only
// on the test that reveals it.
func TestPairsOfALatentFault(t *testing.T) {
	l := ventedTank()
	l.Supply.DeadHead = Exact("", 4e5)
	l.Switch = &SwitchSpec{Senses: "tank", CutOut: between("", 0.1e5, 0.12e5), CutIn: between("", 0.05e5, 0.06e5), Adjustable: No}
	l.Paths = append(l.Paths, PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief, Flow: orifice(8e-3, 0.62),
		SetPressure: Exact("", 0.2e5), FullFlowPressure: Exact("", 0.25e5), ReseatPressure: Exact("", 0.15e5)})
	j := &judge{ctx: context.Background(), l: l, stated: l}
	require.NoError(t, j.energies())
	require.NoError(t, j.vents(slowEndOnly))
	require.NoError(t, j.faultVerdicts(LatentPairs))
	single := faultNamed(t, j.faults.Faults, "pressure-switch.welded-never-stops-the-supply")
	require.NotEmpty(t, j.faults.Pairs)
	for _, p := range j.faults.Pairs {
		assert.NotEmpty(t, p.With)
		assert.NotEmpty(t, p.Reason)
	}
	var relief, welded *fault
	all := j.singleFaults()
	for i := range all {
		switch all[i].mode {
		case ReliefStuckShut:
			relief = &all[i]
		case SwitchWelded:
			welded = &all[i]
		}
	}
	j.faults.Pairs = nil
	require.NoError(t, j.runPairs([][2]*fault{{relief, welded}}, map[string]*FaultResult{}))
	pair := j.faults.Pairs[0]
	assert.Equal(t, "pressure-switch.welded-never-stops-the-supply", pair.ID)
	assert.Equal(t, "relief.stuck-shut", pair.With)
	assert.InDelta(t, 4e5, pair.WorstGauge, 1, "nothing but the dead head is left")
	assert.Greater(t, pair.Energy, single.Energy)
	assert.Equal(t, Pass, pair.Status)
	assert.Equal(t, Basis("test: relief.test"), pair.Basis)
}

// Thrust of a loose hose end: 12 N at 0.95 bar through 10 mm, 37 N at 10 bar
// through 6 mm. By hand, from the momentum of choked flow, A (1.26788 p - pa):
// 78.540 mm2 (248917 - 101325) Pa = 11.59 N, 28.274 mm2 (1396349 - 101325) Pa = 36.62 N.
// Near zero gauge it tends to 2 p A, the momentum of an incompressible jet
// (Bernoulli).
func TestThrust(t *testing.T) {
	assert.InDelta(t, 12, Thrust(circle(10e-3), 0.95*bars, 101325, 1.4), 0.5, "printed to two digits")
	assert.InDelta(t, 37, Thrust(circle(6e-3), 10*bars, 101325, 1.4), 0.5)
	assert.InEpsilon(t, 2*10*1e-4, Thrust(1e-4, 10, 101325, 1.4), 1e-3)
	critical := 101325 * (math.Pow(1.2, 3.5) - 1)
	assert.InEpsilon(t, Thrust(1, critical*(1-1e-9), 101325, 1.4), Thrust(1, critical*(1+1e-9), 101325, 1.4), 1e-6, "the two forms meet")
}

// Every item of the checklist has one name, says why and how, and belongs to a
// verdict that exists.
func TestChecklistIsWhole(t *testing.T) {
	rep, err := Check(context.Background(), whale(), Options{})
	require.NoError(t, err)
	ids := map[string]bool{}
	for _, v := range rep.Verdicts {
		ids[v.ID] = true
	}
	seen := map[string]bool{}
	for _, it := range rep.Items {
		assert.False(t, seen[it.ID], it.ID)
		seen[it.ID] = true
		assert.NotEmpty(t, it.Title, it.ID)
		assert.NotEmpty(t, it.Why, it.ID)
		assert.NotEmpty(t, it.How, it.ID)
		assert.NotEmpty(t, it.Source, it.ID)
		if it.Verdict != "" {
			assert.True(t, ids[it.Verdict], it.ID+" rests on "+it.Verdict)
		}
	}
	for _, id := range []string{itemVentTest, itemLeakDown, itemReliefTest, itemBore, itemSwitchTest, "relief.no-shut-off", "control.key-and-stop",
		"mount.elevation", "electric.fuses", "landing.clear", "drill.jam", "loading.wait", "open.tag", "cold.drain", "age.retire", "clear.round"} {
		assert.True(t, seen[id], id)
	}
}
