package fault

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// The sizes of faults are own rules of this project, which the program states with
// each fault: a valve opens in half its shortest time, a projectile is held up to
// three times as firmly or is up to twice as heavy, a restrictor is drilled out to
// twice its bore, a knocked gauge reads a tenth of its range low, a full cylinder has
// 200 bar.

// failedBy is a launcher with a fault.
func failedBy(t *testing.T, st *stage, id string) *launcher.Launcher {
	t.Helper()
	f := faultOf(t, st, id)
	return st.failed(&f)
}

func TestAFaultOfAValveAndItsHose(t *testing.T) {
	l := sample.Plain()
	assert.InDelta(t, 7.5e-3, failedBy(t, stageOf(t, l), "fire.opens-faster").Paths[0].OpeningTime.Low, 0)
	assert.Contains(t, faultOf(t, stageOf(t, l), "fire.opens-faster").consequence.String(), "7.5 ms")
	l.Paths[0].OpeningTime = sample.Between("", 0, 15e-3)
	assert.False(t, faultOf(t, stageOf(t, l), "fire.opens-faster").changes, "its band reaches zero already")

	l = sample.Plain()
	for _, f := range stageOf(t, l).singleFaults() {
		assert.NotEqual(t, PulseRunsOn, f.mode, "without a pulse no timer ends it")
	}
	l.Paths[0].Pulse = sample.Between("", 40e-3, 60e-3)
	assert.False(t, failedBy(t, stageOf(t, l), "fire.timer-does-not-end-its-pulse").Paths[0].Pulse.Set)

	l = sample.Plain()
	l.Paths[0].Flow = sample.Orifice(3e-3, 0.7)
	assert.InDelta(t, 8e-3, failedBy(t, stageOf(t, l), "fire.restrictor-missing-or-drilled-out").Paths[0].Flow.Value.High, 1e-12)
	l.Paths[0].Flow.Removable = launcher.No
	assert.InDelta(t, 6e-3, failedBy(t, stageOf(t, l), "fire.restrictor-drilled-out").Paths[0].Flow.Value.High, 1e-12)
	l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 4e-3), Length: launcher.Exact("", 0.5), Side: launcher.HoseBefore}
	wider := failedBy(t, stageOf(t, l), "fire.hose-missing-or-wider").Paths[0].Hose.Conductance
	assert.GreaterOrEqual(t, wider.High, 100.0, "so wide that it no longer holds the flow back")
	assert.InDelta(t, 1, wider.Low, 0, "or as it was")

	l.Paths[0].Kind = pneumatics.Hose
	assert.InDelta(t, 8e-3, failedBy(t, stageOf(t, l), "fire.hose-missing-or-wider").Paths[0].Hose.Bore.High, 1e-12,
		"a bare hose of twice the bore")
}

func TestAFaultOfTheProjectile(t *testing.T) {
	st := stageOf(t, sample.Plain(sample.Friction(2, 0.6)))
	for _, c := range []struct {
		id               string
		u                []float64
		mass, held, some float64 // as parts of the sound ones
	}{
		{"projectile.sticky", []float64{0, 1}, 1, 1, 1}, {"projectile.sticky", []float64{1, 0}, 1, 3, 1},
		{"projectile.heavier", []float64{0}, 1, 1, 1}, {"projectile.heavier", []float64{1}, 2, 1, 1},
		{"projectile.two-loaded", nil, 2, 1, 0.5},
	} {
		f := faultOf(t, st, c.id)
		var c0, c1 pneumatics.Circuit
		st.Launcher.Fill(&c0)
		st.Launcher.Fill(&c1)
		f.adjust(&c1, c.u)
		assert.InDelta(t, c.mass, c1.Barrel.Mass/c0.Barrel.Mass, 1e-12, c.id)
		assert.InDelta(t, c.held, c1.Barrel.Breakaway/c0.Barrel.Breakaway, 1e-12, c.id)
		assert.InDelta(t, c.held, c1.Barrel.Sliding/c0.Barrel.Sliding, 1e-12, c.id)
		if f.share != nil {
			assert.InDelta(t, c.some, f.share(c1.Barrel.Mass), 0, "of two that are alike one has half")
		}
	}
	// Two of half the mass each are one of the whole mass, and each has half its energy.
	whole := sample.Plain()
	half := sample.Plain()
	half.Projectile.Mass = launcher.Exact("", whole.Projectile.Mass.Nominal/2)
	normal, err := worst.Maximise(glance(), whole, worst.EnergyQuestion(whole, 0.95*sample.Bars), vent.Brief())
	require.NoError(t, err)
	two := runFault(t, stageOf(t, half), "projectile.two-loaded")
	assert.InEpsilon(t, normal.Value/2, two.Energy, 1e-4, "the tolerance of the integration")
}

// What a control does wrong shows in the highest start pressure.
func TestAFaultOfAControlRaisesTheStart(t *testing.T) {
	start := func(l *launcher.Launcher, id string) float64 {
		st := stageOf(t, l)
		f := faultOf(t, st, id)
		p, ok := st.faultStart(st.failed(&f), &f)
		require.True(t, ok)
		return p
	}
	l := sample.Plain()
	l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("", 4*sample.Bars)}}
	sound := start(l, "fire.stuck-shut")
	assert.InDelta(t, sound+0.4*sample.Bars, start(l, "gauge-on-tank.reads-low"), 1, "a tenth of its range above")
	assert.True(t, faultOf(t, stageOf(t, l), "gauge-on-tank.reads-low").latent)

	l.Switch.AdjustableTo = launcher.Exact("", 1.5*sample.Bars)
	assert.InDelta(t, sound+0.55*sample.Bars, start(l, "pressure-switch.turned-up-to-its-end-stop"), 1)
	l.Switch.AdjustableTo = launcher.Band{}
	assert.InDelta(t, 4*sample.Bars, start(l, "pressure-switch.turned-up-to-its-end-stop"), 1, "the end stop is not stated")

	l.Supply.Kind = launcher.RegulatedCylinder
	assert.InDelta(t, 200*sample.Bars, start(l, "supply.creeps-to-its-inlet-pressure"), 1)
}

// Without power each valve goes where it goes, or stays where it was in the state.
func TestPowerLossMovesEachValveItsOwnWay(t *testing.T) {
	armed := pneumatics.SetOf(pneumatics.Armed)
	for _, c := range []struct {
		name   string
		spec   launcher.PathSpec
		firing bool
	}{
		{"opens", launcher.PathSpec{Kind: pneumatics.Valve, Unpowered: pneumatics.Open}, true},
		{"closes", launcher.PathSpec{Kind: pneumatics.Valve, Unpowered: pneumatics.Closed, OpenIn: armed}, false},
		{"stays open", launcher.PathSpec{Kind: pneumatics.Valve, Unpowered: pneumatics.Stays, OpenIn: armed}, true},
		{"stays shut", launcher.PathSpec{Kind: pneumatics.Valve, Unpowered: pneumatics.Stays,
			OpenIn: pneumatics.SetOf(pneumatics.Firing)}, false},
		{"by hand", launcher.PathSpec{Kind: pneumatics.HandValve, Unpowered: pneumatics.Open}, false},
		{"open by hand", launcher.PathSpec{Kind: pneumatics.HandValve, OpenIn: armed}, true},
	} {
		w := &launcher.Launcher{Paths: []launcher.PathSpec{c.spec}}
		unpowered(w, pneumatics.Armed)
		assert.Equal(t, c.firing, w.Paths[0].OpenIn.Has(pneumatics.Firing), c.name)
	}
}

// A path that opens unasked opens from a leak to full, with the others where they
// are in the state.
func TestAnUnaskedShotStartsFromItsState(t *testing.T) {
	l := sample.VentedTank()
	l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Armed)
	st := stageOf(t, l)
	f := faultOf(t, st, "fire.stuck-open.armed")
	w := st.failed(&f)
	assert.True(t, w.Paths[0].OpenIn.Has(pneumatics.Firing))
	assert.True(t, w.Paths[1].OpenIn.Has(pneumatics.Firing), "the vent stays open")
	assert.Equal(t, []pneumatics.State{pneumatics.Armed}, st.faultQuestion(&f, w, 1e4).FromAll)
	for u, want := range map[float64]float64{0: 0.05, 1: 1} {
		var c0, c1 pneumatics.Circuit
		w.Fill(&c0)
		w.Fill(&c1)
		f.adjust(&c1, []float64{u})
		whole, _ := c0.Paths[0].Flow.Conductance(c0.Gas)
		part, _ := c1.Paths[0].Flow.Conductance(c1.Gas)
		assert.InDelta(t, want, part/whole, 1e-12)
	}
}

// With its relief valve stuck shut it is the switch that limits the pressure, and it
// has stopped the supply; while loading a volume that has emptied holds what is left.
func TestWhatAFaultSaysOfSupplyAndRest(t *testing.T) {
	l := relieved()
	l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	st := stageOf(t, l)
	scenario := func(id string) *pneumatics.Scenario {
		f := faultOf(t, st, id)
		var c pneumatics.Circuit
		l.Fill(&c)
		sc := &pneumatics.Scenario{SupplyRuns: true, Volumes: []pneumatics.Condition{{Pressure: 3e5, Temperature: 293}}}
		u := make([]float64, len(f.extra))
		st.faultQuestion(&f, l, 1e4).Adjust(&c, sc, u)
		return sc
	}
	assert.False(t, scenario("relief.stuck-shut").SupplyRuns)
	assert.True(t, scenario("projectile.heavier").SupplyRuns)
	assert.False(t, scenario("fire.stuck-open.armed").SupplyRuns, "it runs while charging")
	st.Loading = &vent.Loading{Rest: []float64{2e3}, Empty: []bool{true}}
	assert.InDelta(t, 101325+2e3, scenario("fire.stuck-open.loading").Volumes[0].Pressure, 1e-6)
	st.Loading.Empty[0] = false
	assert.InDelta(t, 3e5, scenario("fire.stuck-open.loading").Volumes[0].Pressure, 0, "nothing says that it has emptied")
	assert.InDelta(t, 3e5, scenario("fire.stuck-open.armed").Volumes[0].Pressure, 0)
}

// Faults with one question are searched once; those of other states have others.
func TestFaultsWithOneQuestionAreSearchedOnce(t *testing.T) {
	st := stageOf(t, sample.VentedTank())
	question := func(id string) string { f := faultOf(t, st, id); return f.question(1e4) }
	open := question("fire.stuck-open.armed")
	assert.Equal(t, open, question("fire.leaking.armed"))
	assert.Equal(t, open, question("fire.energised-unasked.armed"))
	assert.NotEqual(t, open, question("fire.stuck-open.charging"))
	assert.NotEqual(t, question("projectile.heavier"), question("projectile.sticky"))
	assert.NotEqual(t, question("fire.stuck-open.armed"), question("power.lost.armed"))
	f := faultOf(t, st, "projectile.heavier")
	assert.NotEqual(t, f.question(1e4), f.question(2e4), "from another pressure")
	r := runFaults(t, st, func(f *fault) bool { return f.unasked && f.state == pneumatics.Armed && f.part == "fire" })
	require.Len(t, r, 3)
	assert.Equal(t, r[0].ID, r[1].SameAs)
	assert.Equal(t, r[0].Judged, r[2].Judged)
	assert.Zero(t, r[1].Shots)
}

// What stays behind a check valve counts as trapped where it is more than counts as
// empty, 5000 Pa.
func TestABlockedVentLeavesWhatACheckValveHolds(t *testing.T) {
	for cracking, trapped := range map[float64]bool{4e3: false, 6e3: true} {
		l := sample.VentedTank()
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "other", From: "tank", To: "atmosphere", Kind: pneumatics.Check,
			Flow: sample.Orifice(2e-3, 0.75), CrackingPressure: launcher.Exact("", cracking)})
		said := faultOf(t, stageOf(t, l), "vent.stuck-shut").consequence.String()
		assert.Equal(t, trapped, strings.Contains(said, "trapped: tank"), said)
	}
}

// A regulator with the switch behind it: what stands before it was filled up to the dead head before it failed.
func TestAFailedRegulatorJoinsWhatStandsBeforeIt(t *testing.T) {
	l := sample.TwoTanks(sample.Regulator(0.3*sample.Bars, 0))
	l.Switch.Senses = "dose"
	high, ok := l.SoakedHigh()
	require.True(t, ok)
	before := l.HighStart(high)
	require.Equal(t, 4*sample.Bars, before[0])
	st := stageOf(t, l)
	r := runFault(t, st, "feed.failed-open")
	assert.GreaterOrEqual(t, r.WorstGauge, before[0])
	f := faultOf(t, st, "feed.failed-open")
	start, ok := st.faultStart(st.failed(&f), &f)
	require.True(t, ok)
	assert.GreaterOrEqual(t, start, before[0], "the dose gets the tank's pressure, whatever the switch says")
}

// A supply that runs in the state from which a shot goes off unasked runs during that
// shot, whatever it does in firing: its bands are coordinates then, and only then.
func TestTheSupplyOfAnUnaskedShotIsACoordinate(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Supply.FreeAir = sample.Between("supply.free_air", 1e-4, 2e-4) })
	st := stageOf(t, l)
	for state, runs := range map[string]bool{"charging": true, "armed": false} {
		f := faultOf(t, st, "fire.stuck-open."+state)
		w := st.failed(&f)
		assert.Equal(t, runs, slices.Contains(worst.NewBox(w, st.faultQuestion(&f, w, 1e5)).Labels, "supply.free_air"), state)
	}
}

// A bleed that is always open keeps the sun from raising the pressure. Blocked, the tank
// is sealed in it: (95000 + 101325) 318.15/293.15 - 101325 = 111743 Pa (Gay-Lussac), and
// the fault bears on the shot, whatever the bleed is on.
func TestABlockedBleedIsSealedInTheHeat(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+45)
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "bleed", From: "tank", To: "atmosphere", Kind: pneumatics.Orifice,
			Flow: sample.Orifice(0.5*sample.Millimetres, 0.75)})
	})
	st := stageOf(t, l)
	for id, want := range map[string]float64{"bleed.blocked": 111743, "fire.opens-faster": 95000} {
		f := faultOf(t, st, id)
		start, ok := st.faultStart(st.failed(&f), &f)
		require.True(t, ok)
		assert.InDelta(t, want, start, 1, id)
		assert.True(t, f.changes, id)
	}
	// On a tank that the shot does not reach it bears on it all the same: the dose is
	// filled from there.
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("", 0.5e-3)})
	feed, drain := sample.ValveIn(pneumatics.Charging), launcher.PathSpec{Name: "drain", From: "dose", To: "atmosphere"}
	feed.Name, feed.From, feed.To, feed.Flow = "feed", "tank", "dose", sample.Orifice(1e-3, 0.75)
	drain.Kind, drain.Flow = pneumatics.Orifice, sample.Orifice(0.5*sample.Millimetres, 0.75)
	l.Paths[0].From = "dose"
	l.Paths = append(l.Paths, feed, drain)
	require.False(t, launcher.ReachOf(l).Paths[1])
	f := faultOf(t, stageOf(t, l), "bleed.blocked")
	assert.True(t, f.changes)
}

// Where a restrictor is missing the bore of its hose is left, at the wide end of its band; without a hose that of a G 1/4 fitting
// (common practice, no source).
func TestAMissingRestrictorLeavesTheWidestBore(t *testing.T) {
	for _, hose := range []bool{false, true} {
		l := sample.Whale()
		p := sample.PathNamed(l, "feed")
		want := 8e-3
		if hose {
			want = 9e-3
			p.Hose = &launcher.HoseSpec{Bore: sample.Between("", 5e-3, want), Length: launcher.Exact("", 1)}
		}
		f := stageOf(t, l).boreFault(slices.IndexFunc(l.Paths, func(one launcher.PathSpec) bool { return one.Name == "feed" }))[0]
		w := l.Clone()
		f.apply(w)
		assert.InDelta(t, want, sample.PathNamed(w, "feed").Flow.Value.High, 1e-12)
		assert.InDelta(t, p.Flow.Value.Low, sample.PathNamed(w, "feed").Flow.Value.Low, 0, "it may as well be there")
	}
}

// Two searches whose sketches agree in all digits ask the same and are searched once; where place, energy or coordinates differ
// they are two.
func TestTwinsAreSearchedOnce(t *testing.T) {
	sketched := func(unasked bool, energy float64, labels ...string) *faultSearch {
		w := &worst.Case{Box: &worst.Box{Labels: labels}}
		w.Result.Evaluations, w.Result.Best.Point = 223, []float64{0.25, 1}
		return &faultSearch{f: &fault{unasked: unasked}, sketch: w, result: &Result{Energy: energy, Judged: 1.25 * energy}}
	}
	a, b := sketched(false, 0.31, "a", "b"), sketched(false, 0.31, "a", "b")
	others := []*faultSearch{sketched(false, math.Nextafter(0.31, 1), "a", "b"), sketched(true, 0.31, "a", "b"),
		sketched(false, 0.31, "a", "c")}
	first, twins := twinsApart(append([]*faultSearch{a, b}, others...))
	assert.Equal(t, append([]*faultSearch{a}, others...), first)
	assert.Equal(t, map[*faultSearch]*faultSearch{b: a}, twins)
}
