package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// A vent that points at the barrel is judged as one that leads into it: the push is
// that of the same design with the path turned there.
func TestAnOutletAtTheBarrelPushesLikeAPathIntoIt(t *testing.T) {
	aimed, v := pointsOfTank(t, func(l *launcher.Launcher) { l.Paths[1].Points = "barrel" })
	require.NotEmpty(t, aimed.Aimed)
	led := sample.VentedTank()
	led.Paths[1].To = "barrel"
	r := assessed.Emptying(t, led, vent.SlowEndOnly).Emptying
	hardest := hardestPush(r, vent.PowerLost)
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
	assert.Equal(t, finding.Fail, v.Status, v.Why.String())
	assert.Contains(t, v.Why.String(), "pushes a loaded projectile out")
}

func TestWhereAnOutletPoints(t *testing.T) {
	guarded := func(l *launcher.Launcher) { l.Barrel.SealGuard = "slots" }
	charged := func(l *launcher.Launcher) { // the projectile cannot be loaded while it empties
		l.Paths[1].OpenIn = pneumatics.SetOf(pneumatics.Off, pneumatics.Loading)
	}
	weak := func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Exact("", 6000) }
	relief := func(points string) func(l *launcher.Launcher) {
		return func(l *launcher.Launcher) {
			l.Paths[1].Points = "away"
			l.Supply.DeadHead = launcher.Exact("", 2e5)
			l.Paths = append(l.Paths, launcher.PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief,
				Flow:        sample.Orifice(8e-3, 0.62),
				Points:      points,
				SetPressure: launcher.Exact("", 0.9e5), FullFlowPressure: launcher.Exact("", 1e5), ReseatPressure: launcher.Exact("", 0.8e5)})
		}
	}
	points := func(to string, more ...func(l *launcher.Launcher)) func(l *launcher.Launcher) {
		return func(l *launcher.Launcher) {
			l.Paths[1].Points = to
			for _, m := range more {
				m(l)
			}
		}
	}
	for _, c := range []struct {
		name   string
		change func(l *launcher.Launcher)
		want   finding.Status
		says   string
	}{
		{"away", points("away"), finding.NotApplicable, "points away"},
		{"at the barrel, no guard", points("barrel"), finding.Fail, "shutdown from loading"},
		{"not stated, no guard", points(""), finding.Unknown, "where paths.vent blows is not known"},
		{"unknown, no guard", points("unknown"), finding.Unknown, "where paths.vent blows is not known"},
		{"at the barrel, opens while loading", points("barrel", guarded, charged), finding.Fail, "hands are at the muzzle"},
		{"not stated, opens while loading", points("", guarded, charged), finding.Unknown, "hands are at the muzzle"},
		{"at the barrel, shut while loading, weak, guarded", points("barrel", guarded, weak, func(l *launcher.Launcher) {
			l.Paths[1].Unpowered = pneumatics.Closed
			l.Projectile.Breakaway, l.Projectile.Restart = sample.Between("", 20, 30), sample.Between("", 20, 30)
		}), finding.Pass, "does not push"},
		{"a relief valve at the barrel", relief("barrel"), finding.Fail, "paths.relief, the supply runs on"},
		{"and no guard before it", relief("barrel"), finding.Fail, "no guard keeps"},
		{"a relief valve, not stated", relief(""), finding.Unknown, "paths.relief"},
		{"a relief valve, away", relief("away"), finding.NotApplicable, "points away"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, v := pointsOfTank(t, c.change)
			assert.Equal(t, c.want, v.Status, v.Why.String())
			assert.Contains(t, v.Why.String(), c.says)
			if c.want == finding.Unknown {
				assert.Contains(t, v.Advice.String(), `points = "away"`)
			}
		})
	}
}

// The verdict on hand-made pushes: what is certain goes before what is not stated, the guard makes the limit of a relief valve that lifts,
// hands at the muzzle take it away; a vent that opens as it is switched off, or as the power goes, is a shot that nobody asked for, as in
// vent.shutdown.
func TestOutletsAreJudged(t *testing.T) {
	push := func(points string, from pneumatics.State, energy float64) vent.BarrelPush {
		return vent.BarrelPush{Path: "vent", Points: points, Scenario: "emptying", Kind: vent.PowerLost, From: from, Speed: 2,
			Energy: energy / worst.ModelFactor, Judged: energy, RunsOn: from == pneumatics.Charging}
	}
	off := push("barrel", pneumatics.Armed, 0.001)
	off.Kind = vent.Shutdown
	for _, c := range []struct {
		name  string
		guard string
		aimed []vent.BarrelPush
		want  finding.Status
		limit float64
		says  string
	}{
		{"none ever opens", "slots", nil, finding.Pass, 0.5, "ever opens"},
		{"just within", "slots", []vent.BarrelPush{push("barrel", pneumatics.Charging, 0.5)}, finding.Pass, 0.5,
			"pushes a loaded projectile out at 2.0 m/s"},
		{"just beyond", "slots", []vent.BarrelPush{push("barrel", pneumatics.Charging, 0.501)}, finding.Fail, 0.5,
			"pushes a loaded projectile out at 2.0 m/s"},
		{"no guard", "", []vent.BarrelPush{push("barrel", pneumatics.Charging, 0.001)}, finding.Fail, 0, "no guard keeps"},
		{"hands", "slots", []vent.BarrelPush{push("barrel", pneumatics.Loading, 0.001)}, finding.Fail, 0, "hands are at the muzzle"},
		{"power lost", "slots", []vent.BarrelPush{push("barrel", pneumatics.Armed, 0.001)}, finding.Fail, 0, "takes no action at all"},
		{"switched off", "slots", []vent.BarrelPush{off}, finding.Fail, 0, "switching it off is the shot"},
		{"power lost, not stated where", "slots", []vent.BarrelPush{push("unknown", pneumatics.Armed, 0.001)}, finding.Unknown, 0,
			"takes no action at all"},
		{"nothing moves", "", []vent.BarrelPush{push("barrel", pneumatics.Loading, 0)}, finding.Pass, 0, "does not push"},
		{"not stated, within", "slots", []vent.BarrelPush{push("unknown", pneumatics.Charging, 0.5)}, finding.Pass, 0.5,
			"pushes a loaded projectile out"},
		{"not stated, beyond", "slots", []vent.BarrelPush{push("unknown", pneumatics.Charging, 0.501)}, finding.Unknown, 0, "0.51 J (emptying"},
		{"one stated to fail before one unknown", "slots", []vent.BarrelPush{push("unknown", pneumatics.Charging, 9),
			push("barrel", pneumatics.Charging, 0.6)}, finding.Fail, 0.5, ""},
		{"one unknown before one stated to pass", "slots", []vent.BarrelPush{push("unknown", pneumatics.Charging, 9),
			push("barrel", pneumatics.Charging, 0.4)}, finding.Unknown, 0, ""},
		{"hands before a harder one", "slots", []vent.BarrelPush{push("barrel", pneumatics.Charging, 0.4),
			push("barrel", pneumatics.Loading, 0.45)},
			finding.Fail, 0, "hands"},
	} {
		a := emptying(func(l *launcher.Launcher, e *vent.Report) {
			l.Barrel.SealGuard, l.Paths[1].Points, e.Aimed = c.guard, "barrel", c.aimed
		})
		v := Of(a, finding.VentPoints)
		assert.Equal(t, c.want, v.Status, "%s: %s", c.name, v.Why.String())
		assert.Contains(t, v.Why.String(), c.says, c.name)
		if c.want == finding.Unknown {
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
	a := emptying(func(l *launcher.Launcher, e *vent.Report) {
		l.Paths[1].Points, e.Trouble = "barrel", finding.Words("no dead head")
	})
	assert.Equal(t, finding.Unknown, Of(a, finding.VentPoints).Status)
}

// pointsOfTank empties the tank with its vent pointing somewhere.
func pointsOfTank(t *testing.T, change func(l *launcher.Launcher)) (*vent.Report, finding.Verdict) {
	t.Helper()
	l := sample.VentedTank()
	change(l)
	a := assessed.Emptying(t, l, vent.SlowEndOnly)
	return a.Emptying, Of(a, finding.VentPoints)
}
