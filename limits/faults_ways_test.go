package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics"
)

// pathNamed finds a path by its name.
func (l *Launcher) pathNamed(name string) *PathSpec {
	for i := range l.Paths {
		if l.Paths[i].Name == name {
			return &l.Paths[i]
		}
	}
	panic("no path " + name)
}

// dumped is the float with dumps on both volumes, that of the dose open while
// loading, and a guard.
func dumped() *Launcher {
	l := whale()
	l.Barrel.SealGuard = "ring with slots"
	off := pneumatics.SetOf(pneumatics.Off)
	for _, v := range []string{"tank", "dose"} {
		l.Paths = append(l.Paths, PathSpec{Name: "dump_" + v, From: v, To: "atmosphere", Kind: pneumatics.Valve, Flow: orifice(1.1e-3, 0.6), OpenIn: off, Unpowered: pneumatics.Open, Points: "away"})
	}
	l.pathNamed("dump_dose").OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	l.Venting = &VentingSpec{Target: Exact("venting.target", 5000), Within: Exact("venting.within", 60)}
	return l
}

// Whatever part opens a way from a charged volume into the barrel can shoot, not
// only the valve that is meant to. The dose is vented while loading here; the way
// past it from the charged tank is what counts.
func TestAnyWayIntoTheBarrelCanShoot(t *testing.T) {
	flow := orifice(3e-3, 0.75)
	for _, c := range []struct {
		kind pneumatics.PathKind
		id   string
	}{
		{pneumatics.Valve, "extra.stuck-open.loading"},
		{pneumatics.Valve, "extra.leaking.armed"},
		{pneumatics.Valve, "extra.energised-unasked.loading"},
		{pneumatics.HandValve, "extra.stuck-open.loading"},
	} {
		l := dumped()
		l.Paths = append(l.Paths, PathSpec{Name: "extra", From: "tank", To: "barrel", Kind: c.kind, Flow: flow})
		r := faultsOf(t, l, FaultOptions{})
		f := faultNamed(t, r.Faults, c.id)
		assert.Equal(t, FiresUnasked, f.Effect, c.id)
		assert.Positive(t, f.Energy, c.id)
		v := verdictIn(t, r.Verdicts, "shot.unasked")
		assert.Equal(t, Fail, v.Status, c.id)
		assert.Contains(t, v.Why, "hands are at the muzzle", c.id)
	}
}

// A check valve that passes backwards, a regulator that fails open and a relief
// valve that leaks open such a way too, each where its place lets it.
func TestPartsWithoutACoilCanShootToo(t *testing.T) {
	for kind, mode := range map[pneumatics.PathKind]FaultMode{pneumatics.Check: PassesBack, pneumatics.Regulator: FailedOpen, pneumatics.Relief: LeakingValve} {
		l := ventedTank()
		l.Paths = append(l.Paths, PathSpec{Name: "extra", From: "barrel", To: "tank", Kind: kind, Flow: orifice(3e-3, 0.75), SetPressure: Exact("", 5e4), Droop: Exact("", 1e4),
			FullFlowPressure: Exact("", 7e4), ReseatPressure: Exact("", 4e4)})
		states := map[pneumatics.State]bool{}
		for _, f := range stageOf(l).singleFaults() {
			if f.part == "extra" && f.mode == mode && f.unasked {
				states[f.state] = f.changes
			}
		}
		assert.Equal(t, map[pneumatics.State]bool{pneumatics.Charging: true, pneumatics.Armed: true, pneumatics.Loading: true}, states, kind.String())
	}
}

// A valve that feeds the dose opens nothing into the barrel while the firing valve
// is shut.
func TestAFeedDoesNotShoot(t *testing.T) {
	for _, f := range stageOf(dumped()).singleFaults() {
		assert.False(t, f.unasked && f.part == "feed", f.id)
	}
}

// Both verdicts on loading see the same air. A check valve that leads from the dose
// to the tank lets no air of the tank back; a supply that runs through an open feed
// keeps the dose up against its vent.
func TestTheVerdictsOnLoadingAgree(t *testing.T) {
	guarded := func() *Launcher {
		l := dumped()
		return l
	}
	loop := guarded()
	loop.Paths = append(loop.Paths, PathSpec{Name: "back", From: "dose", To: "tank", Kind: pneumatics.Check, Flow: orifice(3e-3, 0.75), CrackingPressure: Exact("", 2e3)})
	fed := dumped()
	fed.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
	fed.pathNamed("feed").OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	for _, c := range []struct {
		l    *Launcher
		want Status
	}{{dumped(), Pass}, {loop, Pass}, {fed, Fail}} {
		r := faultsOf(t, c.l, FaultOptions{})
		for _, id := range []string{"loading.empty", "shot.unasked"} {
			v := verdictIn(t, r.Verdicts, id)
			assert.Equal(t, c.want, v.Status, "%s: %s", id, v.Why)
		}
	}
}
