package limits

import (
	"puffproof/pneumatics"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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
