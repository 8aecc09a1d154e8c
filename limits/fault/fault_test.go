package fault

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// glance is a context for tests that ask for structure, not for figures: searches
// below it look at a fiftieth of the shots.
func glance() context.Context { return search.WithStrength(context.Background(), 0.02) }

// stageOf is a stage over the faults of a launcher of which normal operation was not
// searched: faults can be named, and run one by one.
func stageOf(t testing.TB, l *launcher.Launcher) *stage {
	t.Helper()
	limits, err := launcher.LimitsOf(l.Limits, l.Projectile)
	require.NoError(t, err)
	return newStage(glance(), Input{Launcher: l, Limits: limits, NormalUnknown: finding.Words("not asked"),
		Emptying: &vent.Report{Target: 5000}, Loading: vent.LoadingOf(l, 5000)})
}

// runFaults computes the faults that wanted picks.
func runFaults(t testing.TB, st *stage, wanted func(*fault) bool) []Result {
	t.Helper()
	var picked []fault
	for _, f := range st.singleFaults() {
		if wanted(&f) {
			picked = append(picked, f)
		}
	}
	out, err := st.run(picked)
	require.NoError(t, err)
	return out
}

// runFault computes the fault of one id.
func runFault(t testing.TB, st *stage, id string) Result {
	t.Helper()
	return faultNamed(t, runFaults(t, st, func(f *fault) bool { return f.id == id }), id)
}

// faultOf names one fault of a launcher.
func faultOf(t testing.TB, st *stage, id string) fault {
	t.Helper()
	for _, f := range st.singleFaults() {
		if f.id == id {
			return f
		}
	}
	require.Fail(t, "no fault "+id)
	return fault{}
}

func faultNamed(t testing.TB, all []Result, id string) Result {
	t.Helper()
	for _, f := range all {
		if f.ID == id {
			return f
		}
	}
	require.Fail(t, "no fault "+id)
	return Result{}
}

// mustVentTop is the highest pressure that the ladder allows in the sensed volume
// [Pa gauge].
func mustVentTop(t *testing.T, l *launcher.Launcher) float64 {
	t.Helper()
	top, _, ok := vent.HighestStart(l)
	require.True(t, ok)
	return top
}

// checkFault holds one fault of a whole report against what every fault has.
func checkFault(t *testing.T, l *launcher.Launcher, r *Report, f *Result) {
	t.Helper()
	assert.NotEmpty(t, f.Consequence.String(), f.ID)
	assert.NotContains(t, f.ID, " ")
	if f.Effect == NoEffect {
		assert.NotEmpty(t, f.Reason.String(), f.ID)
		assert.Zero(t, f.Shots, f.ID)
	} else if f.SameAs == "" && f.Status != finding.Unknown {
		assert.Positive(t, f.Shots, f.ID)
	}
	if f.SameAs != "" {
		assert.Equal(t, faultNamed(t, r.Faults, f.SameAs).Judged, f.Judged, f.ID)
	}
	if f.Status != finding.Unknown && f.Mode != Jammed {
		assert.Equal(t, worst.ModelFactor*f.Energy, f.Judged, f.ID+": no energy of the model is judged without its factor")
	}
	if f.Effect == ChangesShot && f.Status != finding.Unknown && f.Mode != TwoLoaded {
		assert.GreaterOrEqual(t, f.Energy, faultNamed(t, r.Faults, "fire.stuck-shut").Energy,
			f.ID+": never below normal operation, the part may also work")
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

// What is judged is the energy of the model times its factor: a limit between the two
// fails, and one above both does not.
func TestAFaultIsJudgedWithTheModelFactor(t *testing.T) {
	st := stageOf(t, sample.Plain())
	energy := runFault(t, st, "projectile.heavier").Energy
	for share, want := range map[float64]finding.Status{1.01: finding.Fail, 0.99 * worst.ModelFactor: finding.Fail, 1.01 * worst.ModelFactor: finding.Pass} {
		st := stageOf(t, sample.Plain())
		st.Limits.Total.Value = share * energy
		r := runFault(t, st, "projectile.heavier")
		assert.Equal(t, energy, r.Energy, "the same search")
		assert.Equal(t, want, r.Status, "a limit of %g times the energy", share)
	}
}

// A path more has its faults too, by its kind.
func TestAPathMoreHasItsFaults(t *testing.T) {
	flow := launcher.FlowSpec{Form: launcher.OrificeBore, Value: launcher.Exact("", 1e-3), DischargeCoefficient: launcher.Exact("", 0.75)}
	for kind, want := range map[pneumatics.PathKind][]Mode{
		pneumatics.Valve:     {StuckShut, StuckOpen, LeakingValve, Energised, BoreMissing},
		pneumatics.HandValve: {StuckShut, StuckOpen, LeakingValve, BoreMissing},
		pneumatics.Orifice:   {Blocked, BoreMissing},
		pneumatics.Check:     {PassesBack, StuckShut, BoreMissing},
		pneumatics.Regulator: {FailedOpen, Creeps, StuckShut, BoreMissing},
	} {
		l := sample.VentedTank()
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "side", Volume: launcher.Exact("", 1e-4)})
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "extra", From: "tank", To: "side", Kind: kind, Flow: flow,
			SetPressure: launcher.Exact("", 5e4), Droop: launcher.Exact("", 1e4)})
		var got []Mode
		for _, f := range stageOf(t, l).singleFaults() {
			if f.part == "extra" {
				got = append(got, f.mode)
			}
		}
		assert.ElementsMatch(t, want, got, kind.String())
	}
	l := sample.VentedTank()
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief, Flow: flow,
		SetPressure: launcher.Exact("", 6e4), FullFlowPressure: launcher.Exact("", 7e4), ReseatPressure: launcher.Exact("", 5e4)})
	var modes []Mode
	for _, f := range stageOf(t, l).singleFaults() {
		if f.part == "relief" {
			modes = append(modes, f.mode)
		}
	}
	assert.ElementsMatch(t, []Mode{ReliefStuckShut, SetTooHigh, ReseatsLate, LeakingValve}, modes)
}

// A welded switch: with a relief valve the pressure is its, without one the dead
// head; a wrong fault pressure was the gravest error of an early draft.
func TestWeldedSwitchGoesToTheReliefOrTheDeadHead(t *testing.T) {
	const id = "pressure-switch.welded-never-stops-the-supply"
	l := sample.Plain()
	welded := runFault(t, stageOf(t, l), id)
	assert.InDelta(t, 4*sample.Bars, welded.WorstGauge, 1, "no relief valve: the dead head")
	assert.Equal(t, finding.Fail, welded.Status)
	l.Supply.DeadHead = launcher.Band{}
	unknown := runFault(t, stageOf(t, l), id)
	assert.Equal(t, finding.Unknown, unknown.Status)
	assert.True(t, math.IsNaN(unknown.Judged))

	l = sample.Plain()
	sample.Weak(l) // its relief valve is full open by 0.6 bar and carries the supply
	welded = runFault(t, stageOf(t, l), id)
	assert.Greater(t, welded.WorstGauge, 0.5*sample.Bars)
	assert.Less(t, welded.WorstGauge, 0.7*sample.Bars, "at most the full flow, and its soak in the heat")
}

// Power that opens the firing valve when it is lost shoots from every state in
// which the tank is charged; a vent while loading takes that state out.
func TestPowerLossThatFires(t *testing.T) {
	lost := func(f *fault) bool { return f.mode == NoPower }
	l := sample.VentedTank()
	l.Paths[0].Unpowered = pneumatics.Open
	r := runFaults(t, stageOf(t, l), lost)
	for _, s := range []string{"charging", "armed", "loading"} {
		f := faultNamed(t, r, "power.lost."+s)
		assert.Equal(t, FiresUnasked, f.Effect, s)
		assert.Greater(t, f.Energy, 0.0, s)
	}
	assert.Equal(t, NoEffect, faultNamed(t, r, "power.lost.firing").Effect)

	l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	st := stageOf(t, l)
	r = runFaults(t, st, lost)
	assert.Equal(t, NoEffect, faultNamed(t, r, "power.lost.loading").Effect)
	assert.Equal(t, FiresUnasked, faultNamed(t, r, "power.lost.armed").Effect)
	assert.False(t, faultOf(t, st, "fire.stuck-open.loading").changes)
}

// With the barrel's muzzle plugged the fault is what the barrel takes against its
// rating; what is not known is unknown.
func TestAPluggedMuzzleIsJudgedByTheRating(t *testing.T) {
	for _, c := range []struct {
		plugged worst.Plugged
		want    finding.Status
		gauge   float64
	}{
		{worst.Plugged{Value: 6e5, Limit: 6e5, Why: finding.Words("why")}, finding.Pass, 6e5},
		{worst.Plugged{Value: math.Nextafter(6e5, 7e5), Limit: 6e5, Why: finding.Words("why")}, finding.Fail, math.Nextafter(6e5, 7e5)},
		{worst.Plugged{Unknown: finding.Words("missing: barrel.rated_pressure")}, finding.Unknown, 0.95e5},
	} {
		st := stageOf(t, sample.Plain())
		st.Plugged = c.plugged
		r := runFault(t, st, "muzzle.plugged")
		assert.Equal(t, c.want, r.Status)
		assert.Equal(t, c.plugged.Why.String()+c.plugged.Unknown.String(), r.Reason.String())
		assert.GreaterOrEqual(t, r.WorstGauge, c.gauge)
		assert.Equal(t, "barrel", r.Where)
		assert.Zero(t, r.Judged)
	}
}

// Thrust is the change of momentum: at a choked exit p* + rho v^2 = (1 + g) p*, with
// p*/p0 = 0.52828 for g = 1.4; at Mach 0.5 twice the dynamic pressure, with p/p0 =
// 0.84302 (NACA Report 1135, table I, from memory: five digits). Near zero gauge it
// tends to 2 p A, the momentum of an incompressible jet (Bernoulli).
func TestThrust(t *testing.T) {
	const pa, g = 101325.0, 1.4
	choked := 5 * sample.Bars
	assert.InEpsilon(t, (1+g)*0.52828*(pa+choked)-pa, Thrust(1, choked, pa, g), 2e-5, "five digits of the table")
	still := pa / 0.84302
	assert.InEpsilon(t, g*0.5*0.5*pa, Thrust(1, still-pa, pa, g), 1e-4, "five digits, of which the gauge pressure is a sixth")
	assert.InEpsilon(t, 2*10*1e-4, Thrust(1e-4, 10, pa, g), 1e-3)
	critical := pa * (math.Pow(1.2, 3.5) - 1)
	assert.InEpsilon(t, Thrust(1, critical*(1-1e-9), pa, g), Thrust(1, critical*(1+1e-9), pa, g), 1e-6, "the two forms meet")
}
