package fault

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// What is judged is the energy of the model times its factor: a limit between the two
// fails, and one above both does not.
func TestAFaultIsJudgedWithTheModelFactor(t *testing.T) {
	st := stageOf(t, sample.Plain())
	energy := runFault(t, st, "projectile.heavier").Energy
	for share, want := range map[float64]finding.Status{
		1.01: finding.Fail, 0.99 * worst.ModelFactor: finding.Fail, 1.01 * worst.ModelFactor: finding.Pass,
	} {
		st := stageOf(t, sample.Plain())
		st.Limits.Total.Value = share * energy
		r := runFault(t, st, "projectile.heavier")
		assert.Equal(t, energy, r.Energy, "the same search")
		assert.Equal(t, want, r.Status, "a limit of %g times the energy", share)
	}
}

// A fault that cannot change the shot has the energy of normal operation, with the same
// factor.
func TestAFaultThatChangesNothingHasTheNormalEnergy(t *testing.T) {
	st := stageOf(t, sample.Plain())
	st.Normal, st.NormalUnknown = &worst.Case{Value: 0.02}, nil
	r := runFault(t, st, "fire.stuck-shut")
	assert.Equal(t, NoEffect, r.Effect)
	assert.Equal(t, 0.02, r.Energy)
	assert.Equal(t, 0.02*worst.ModelFactor, r.Judged)
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

// A ball valve turned by hand is as wide as its own bore: nothing in it can be drilled
// out. A narrow hole beside a tap can.
func TestABallValvesBoreIsNoRestrictor(t *testing.T) {
	for bore, want := range map[float64]bool{20e-3: false, 1.2e-3: true} {
		l := sample.Plain()
		l.Paths[0].Kind, l.Paths[0].Flow = pneumatics.HandValve, sample.Orifice(bore, 0.75)
		got := false
		for _, f := range stageOf(t, l).singleFaults() {
			got = got || f.mode == BoreMissing
		}
		assert.Equal(t, want, got, "a bore of %g m", bore)
	}
	l := sample.Plain()
	l.Paths[0].Kind, l.Paths[0].Flow, l.Paths[0].OwnBore = pneumatics.HandValve, sample.Orifice(3e-3, 0.75), true
	assert.Empty(t, stageOf(t, l).boreFault(0), "the design says that the hand turns the bore itself")
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
		st.Plugged = &c.plugged
		r := runFault(t, st, PluggedID)
		assert.Equal(t, c.want, r.Status)
		assert.Equal(t, c.plugged.Why.String()+c.plugged.Unknown.String(), r.Reason.String())
		assert.GreaterOrEqual(t, r.WorstGauge, c.gauge)
		assert.Equal(t, "barrel", r.Where)
		assert.Zero(t, r.Judged)
	}
	assert.Equal(t, finding.Unknown, runFault(t, stageOf(t, sample.Plain()), PluggedID).Status, "not computed is not passed")
}
