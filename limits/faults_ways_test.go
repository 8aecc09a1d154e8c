package limits

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
		l.Paths = append(l.Paths, PathSpec{Name: "dump_" + v, From: v, To: "atmosphere", Kind: pneumatics.Valve, Flow: orifice(1.1e-3, 0.6),
			OpenIn: off, Unpowered: pneumatics.Open, Points: "away"})
	}
	l.pathNamed("dump_dose").OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	l.Venting = &VentingSpec{Target: Exact("venting.target", 5000), Within: Exact("venting.within", 60)}
	return l
}

// Whatever part opens a way from a charged volume into the barrel can shoot, not
// only the valve that is meant to. The dose is vented while loading here; the way
// past it from the charged tank is what counts.
func TestAnyWayIntoTheBarrelCanShoot(t *testing.T) {
	for kind, ids := range map[pneumatics.PathKind][]string{
		pneumatics.Valve:     {"extra.stuck-open.loading", "extra.leaking.armed", "extra.energised-unasked.loading"},
		pneumatics.HandValve: {"extra.stuck-open.loading"},
	} {
		l := dumped()
		l.Paths = append(l.Paths, PathSpec{Name: "extra", From: "tank", To: "barrel", Kind: kind, Flow: orifice(3e-3, 0.75)})
		r := runFaults(t, stageOf(t, l), func(f *fault) bool { return slices.Contains(ids, f.id) })
		require.Len(t, r, len(ids))
		for _, f := range r {
			assert.Equal(t, FiresUnasked, f.Effect, f.ID)
			assert.Positive(t, f.Energy, f.ID)
		}
		v := shotUnasked(judgedAlone(l, r...))
		assert.Equal(t, Fail, v.Status, kind.String())
		assert.Contains(t, v.Why, "hands are at the muzzle", kind.String())
	}
}

// A check valve that passes backwards, a regulator that fails open and a relief
// valve that leaks open such a way too, each where its place lets it.
func TestPartsWithoutACoilCanShootToo(t *testing.T) {
	for kind, mode := range map[pneumatics.PathKind]FaultMode{
		pneumatics.Check: PassesBack, pneumatics.Regulator: FailedOpen, pneumatics.Relief: LeakingValve,
	} {
		l := ventedTank()
		l.Paths = append(l.Paths, PathSpec{Name: "extra", From: "barrel", To: "tank", Kind: kind, Flow: orifice(3e-3, 0.75),
			SetPressure: Exact("", 5e4), Droop: Exact("", 1e4), FullFlowPressure: Exact("", 7e4), ReseatPressure: Exact("", 4e4)})
		states := map[pneumatics.State]bool{}
		for _, f := range stageOf(t, l).singleFaults() {
			if f.part == "extra" && f.mode == mode && f.unasked {
				states[f.state] = f.changes
			}
		}
		want := map[pneumatics.State]bool{pneumatics.Charging: true, pneumatics.Armed: true, pneumatics.Loading: true}
		assert.Equal(t, want, states, kind.String())
	}
}

// A valve that feeds the dose opens nothing into the barrel while the firing valve
// is shut.
func TestAFeedDoesNotShoot(t *testing.T) {
	for _, f := range stageOf(t, dumped()).singleFaults() {
		assert.False(t, f.unasked && f.part == "feed", f.id)
	}
}

// A supply that runs while loading feeds the barrel through an open valve, though what
// it feeds is empty.
func TestASupplyThatRunsWhileLoadingCanShoot(t *testing.T) {
	l := ventedTank()
	l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	l.Paths[1].Flow = orifice(4e-3, 0.75) // wide enough to keep the tank empty
	assert.False(t, faultOf(t, stageOf(t, l), "fire.stuck-open.loading").changes)
	l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
	require.True(t, loadingOf(l, 5000).empty[0])
	assert.True(t, faultOf(t, stageOf(t, l), "fire.stuck-open.loading").changes)
}

// Both verdicts on loading see the same air. A check valve that leads from the dose
// to the tank lets no air of the tank back; a supply that runs through an open feed
// keeps the dose up against its vent.
func TestTheVerdictsOnLoadingAgree(t *testing.T) {
	loop := dumped()
	loop.Paths = append(loop.Paths, PathSpec{Name: "back", From: "dose", To: "tank", Kind: pneumatics.Check, Flow: orifice(3e-3, 0.75),
		CrackingPressure: Exact("", 2e3)})
	fed := dumped()
	fed.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
	fed.pathNamed("feed").OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	for _, c := range []struct {
		l    *Launcher
		want Status
	}{{dumped(), Pass}, {loop, Pass}, {fed, Fail}} {
		r := runFaults(t, stageOf(t, c.l), func(f *fault) bool { return f.unasked && f.state == pneumatics.Loading })
		a := judgedAlone(c.l, r...)
		a.Loading = loadingOf(c.l, 5000)
		for _, v := range []Verdict{loadingEmpty(a), shotUnasked(a)} {
			assert.Equal(t, c.want, v.Status, "%s: %s", v.ID, v.Why)
		}
	}
}
