package limits

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
)

// pointsOfTank empties the tank with its vent pointing somewhere.
func pointsOfTank(t *testing.T, change func(l *Launcher)) (*VentReport, Verdict) {
	t.Helper()
	l := ventedTank()
	change(l)
	r, err := Empty(context.Background(), l)
	require.NoError(t, err)
	return r, verdictIn(t, r.Verdicts, "vent.points")
}

// A vent that points at the barrel is judged as one that leads into it: the push is
// that of the same design with the path turned there.
func TestAnOutletAtTheBarrelPushesLikeAPathIntoIt(t *testing.T) {
	aimed, v := pointsOfTank(t, func(l *Launcher) { l.Paths[1].Points = "barrel" })
	require.NotEmpty(t, aimed.Aimed)
	led := ventedTank()
	led.Paths[1].To = "barrel"
	r, err := Empty(context.Background(), led)
	require.NoError(t, err)
	hardest := r.hardestPush(PowerLost)
	require.NotNil(t, hardest)
	worst := 0.0
	for _, p := range aimed.Aimed {
		if p.From != pneumatics.Loading {
			worst = max(worst, p.Energy)
		}
	}
	all := 0.0
	for _, p := range r.Pushes {
		all = max(all, p.Energy)
	}
	assert.InEpsilon(t, all, worst, 1e-9, "the same run")
	assert.Equal(t, Fail, v.Status, v.Why)
	assert.Contains(t, v.Why, "pushes a loaded projectile out")
}

func TestWhereAnOutletPoints(t *testing.T) {
	guarded := func(l *Launcher) { l.Barrel.SealGuard = "slots" }
	charged := func(l *Launcher) { // the projectile cannot be loaded while it empties
		l.Paths[1].OpenIn = pneumatics.SetOf(pneumatics.Off, pneumatics.Loading)
	}
	weak := func(l *Launcher) { l.Supply.DeadHead = Exact("", 6000) }
	relief := func(points string) func(l *Launcher) {
		return func(l *Launcher) {
			l.Paths[1].Points = "away"
			l.Supply.DeadHead = Exact("", 2e5)
			l.Paths = append(l.Paths, PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief, Flow: orifice(8e-3, 0.62), Points: points,
				SetPressure: Exact("", 0.9e5), FullFlowPressure: Exact("", 1e5), ReseatPressure: Exact("", 0.8e5)})
		}
	}
	points := func(to string, more ...func(l *Launcher)) func(l *Launcher) {
		return func(l *Launcher) {
			l.Paths[1].Points = to
			for _, m := range more {
				m(l)
			}
		}
	}
	for _, c := range []struct {
		name   string
		change func(l *Launcher)
		want   Status
		says   string
	}{
		{"away", points("away"), NotApplicable, "points away"},
		{"at the barrel, no guard", points("barrel"), Fail, "shutdown from loading"},
		{"not stated, no guard", points(""), Unknown, "where paths.vent blows is not known"},
		{"unknown, no guard", points("unknown"), Unknown, "where paths.vent blows is not known"},
		{"at the barrel, opens while loading", points("barrel", guarded, charged), Fail, "hands are at the muzzle"},
		{"not stated, opens while loading", points("", guarded, charged), Unknown, "hands are at the muzzle"},
		{"at the barrel, shut while loading, weak, guarded", points("barrel", guarded, weak, func(l *Launcher) {
			l.Paths[1].Unpowered = pneumatics.Closed
			l.Projectile.Breakaway, l.Projectile.Restart = between("", 20, 30), between("", 20, 30)
		}), Pass, "does not push"},
		{"a relief valve at the barrel", relief("barrel"), Fail, "paths.relief, the supply runs on"},
		{"and no guard before it", relief("barrel"), Fail, "no guard keeps"},
		{"a relief valve, not stated", relief(""), Unknown, "paths.relief"},
		{"a relief valve, away", relief("away"), NotApplicable, "points away"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, v := pointsOfTank(t, c.change)
			assert.Equal(t, c.want, v.Status, v.Why)
			assert.Contains(t, v.Why, c.says)
			if c.want == Unknown {
				assert.Contains(t, v.Advice, `points = "away"`)
			}
		})
	}
}

// A push whose end was not settled counts with what the air could still do, and
// that makes a verdict unknown, never a pass and never a figure of a shot.
func TestAPushThatWasNotSettledIsUnknown(t *testing.T) {
	l := ventedTank()
	l.Barrel.SealGuard = "slots"
	l.Paths[1].Points = "barrel"
	bound := BarrelPush{Path: "vent", Points: "barrel", Scenario: "power lost from armed", Kind: PowerLost, From: pneumatics.Armed, Speed: 300, Energy: 200, Bound: true}
	j := &judge{Assessment: &Assessment{Launcher: l, Emptying: &VentReport{LeftLimit: 0.5, Pushes: []BarrelPush{bound}, Aimed: []BarrelPush{bound}}}}
	v := &Verdict{Status: Pass}
	j.harmless(v, PowerLost)
	assert.Equal(t, Unknown, v.Status)
	assert.Contains(t, v.Why, "could not be settled")
	j.pointsVerdict()
	assert.Equal(t, Unknown, j.report.Verdicts[0].Status)
	assert.Nil(t, j.report.Verdicts[0].Value)
}
