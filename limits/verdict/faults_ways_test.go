package verdict

import (
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
	"slices"
	"strings"
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
		l := sample.Dumped()
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "extra", From: "tank", To: "barrel", Kind: kind, Flow: sample.Orifice(3e-3, 0.75)})
		r := faultsBy(t, l, "", func(id string) bool { return slices.Contains(ids, id) })
		require.Len(t, r, len(ids))
		for _, f := range r {
			assert.Equal(t, fault.FiresUnasked, f.Effect, f.ID)
			assert.Positive(t, f.Energy, f.ID)
		}
		v := ShotUnasked(judgedAlone(l, r...))
		assert.Equal(t, finding.Fail, v.Status, kind.String())
		assert.Contains(t, v.Why.String(), "hands are at the muzzle", kind.String())
	}
}

// Both verdicts on loading see the same air. A check valve that leads from the dose
// to the tank lets no air of the tank back; a supply that runs through an open feed
// keeps the dose up against its vent.
func TestTheVerdictsOnLoadingAgree(t *testing.T) {
	loop := sample.Dumped()
	loop.Paths = append(loop.Paths, launcher.PathSpec{Name: "back", From: "dose", To: "tank", Kind: pneumatics.Check, Flow: sample.Orifice(3e-3, 0.75),
		CrackingPressure: launcher.Exact("", 2e3)})
	fed := sample.Dumped()
	fed.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
	sample.PathNamed(fed, "feed").OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	for _, c := range []struct {
		l    *launcher.Launcher
		want finding.Status
	}{{sample.Dumped(), finding.Pass}, {loop, finding.Pass}, {fed, finding.Fail}} {
		r := faultsBy(t, c.l, "", func(id string) bool { return strings.HasSuffix(id, ".loading") })
		a := judgedAlone(c.l, r...)
		a.Loading = vent.LoadingOf(c.l, 5000)
		for _, v := range []finding.Verdict{loadingEmpty(a), ShotUnasked(a)} {
			assert.Equal(t, c.want, v.Status, "%s: %s", v.ID, v.Why.String())
		}
	}
}
