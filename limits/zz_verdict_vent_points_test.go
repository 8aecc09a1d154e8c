package limits

import (
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A vent that points at the barrel is judged as one that leads into it: the push is
// that of the same design with the path turned there.
func TestAnOutletAtTheBarrelPushesLikeAPathIntoIt(t *testing.T) {
	aimed, v := pointsOfTank(t, func(l *Launcher) { l.Paths[1].Points = "barrel" })
	require.NotEmpty(t, aimed.Aimed)
	led := ventedTank()
	led.Paths[1].To = "barrel"
	r := judgedOnly(t, led)
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
			l.Paths = append(l.Paths, PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief, Flow: orifice(8e-3, 0.62),
				Points:      points,
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

// The verdict on hand-made pushes: what is certain goes before what is not stated, the
// guard makes the limit, hands at the muzzle take it away.
func TestOutletsAreJudged(t *testing.T) {
	push := func(points string, from pneumatics.State, energy float64) BarrelPush {
		return BarrelPush{Path: "vent", Points: points, Scenario: "emptying", Kind: PowerLost, From: from, Speed: 2,
			Energy: energy / ModelFactor, Judged: energy}
	}
	for _, c := range []struct {
		name  string
		guard string
		aimed []BarrelPush
		want  Status
		limit float64
		says  string
	}{
		{"none ever opens", "slots", nil, Pass, 0.5, "ever opens"},
		{"just within", "slots", []BarrelPush{push("barrel", pneumatics.Armed, 0.5)}, Pass, 0.5, "pushes a loaded projectile out at 2.0 m/s"},
		{"just beyond", "slots", []BarrelPush{push("barrel", pneumatics.Armed, 0.501)}, Fail, 0.5, "pushes a loaded projectile out at 2.0 m/s"},
		{"no guard", "", []BarrelPush{push("barrel", pneumatics.Armed, 0.001)}, Fail, 0, "no guard keeps"},
		{"hands", "slots", []BarrelPush{push("barrel", pneumatics.Loading, 0.001)}, Fail, 0, "hands are at the muzzle"},
		{"nothing moves", "", []BarrelPush{push("barrel", pneumatics.Loading, 0)}, Pass, 0, "does not push"},
		{"not stated, within", "slots", []BarrelPush{push("unknown", pneumatics.Armed, 0.5)}, Pass, 0.5, "pushes a loaded projectile out"},
		{"not stated, beyond", "slots", []BarrelPush{push("unknown", pneumatics.Armed, 0.501)}, Unknown, 0, "0.50 J (emptying"},
		{"one stated to fail before one unknown", "slots", []BarrelPush{push("unknown", pneumatics.Armed, 9),
			push("barrel", pneumatics.Armed, 0.6)}, Fail, 0.5, ""},
		{"one unknown before one stated to pass", "slots", []BarrelPush{push("unknown", pneumatics.Armed, 9),
			push("barrel", pneumatics.Armed, 0.4)}, Unknown, 0, ""},
		{"hands before a harder one", "slots", []BarrelPush{push("barrel", pneumatics.Armed, 0.4), push("barrel", pneumatics.Loading, 0.45)},
			Fail, 0, "hands"},
	} {
		a := emptiesInTime(func(l *Launcher, e *VentReport) {
			l.Barrel.SealGuard, l.Paths[1].Points, e.Aimed = c.guard, "barrel", c.aimed
		})
		v := ventPoints(a)
		assert.Equal(t, c.want, v.Status, "%s: %s", c.name, v.Why)
		assert.Contains(t, v.Why, c.says, c.name)
		if c.want == Unknown {
			assert.Nil(t, v.Value, c.name)
			continue
		}
		assertFigure(t, c.limit, v.Limit, c.name)
		worst := 0.0
		for _, p := range c.aimed {
			if p.Points == "barrel" || len(c.aimed) == 1 {
				worst = max(worst, p.Judged)
			}
		}
		assertFigure(t, worst, v.Value, c.name)
	}
	a := emptiesInTime(func(l *Launcher, e *VentReport) { l.Paths[1].Points, e.Trouble = "barrel", "no dead head" })
	assert.Equal(t, Unknown, ventPoints(a).Status)
}

// pointsOfTank empties the tank with its vent pointing somewhere.
func pointsOfTank(t *testing.T, change func(l *Launcher)) (*VentReport, Verdict) {
	t.Helper()
	l := ventedTank()
	change(l)
	a := assessedVent(t, l)
	return a.Emptying, ventPoints(a)
}
