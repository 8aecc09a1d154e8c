package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

func TestEmptyingThatFails(t *testing.T) {
	for _, c := range []struct {
		name                         string
		change                       func(l *launcher.Launcher)
		shutdown, powerLoss, trapped finding.Status
		says                         string
	}{
		{"no vent", func(l *launcher.Launcher) { l.Paths = l.Paths[:1] }, finding.Fail, finding.Fail, finding.Fail,
			"a path from tank to the atmosphere"},
		// Switched off it empties while its supply stands still.
		{"shut without power", func(l *launcher.Launcher) { l.Paths[1].Unpowered = pneumatics.Closed }, finding.Conditional, finding.Fail,
			finding.Fail, `unpowered = "open"`},
		{"keeps its place without power", func(l *launcher.Launcher) { l.Paths[1].Unpowered = pneumatics.Stays }, finding.Conditional,
			finding.Fail, finding.Fail, `unpowered = "open"`},
		{"shut when off", func(l *launcher.Launcher) { l.Paths[1].OpenIn = 0 }, finding.Fail, finding.Pass, finding.Fail, "open in state off"},
		{"opens for a moment", func(l *launcher.Launcher) { l.Paths[1].Pulse = launcher.Exact("", 0.5) }, finding.Fail, finding.Fail,
			finding.Fail, "paths.vent"},
		{"piloted: keeps its least differential", func(l *launcher.Launcher) { l.Paths[1].MinDifferential = launcher.Exact("", 3e4) },
			finding.Fail, finding.Fail, finding.Fail,
			"paths.vent"},
		{"check valve that cracks too high", func(l *launcher.Launcher) {
			l.Paths[1].Kind, l.Paths[1].CrackingPressure = pneumatics.Check, launcher.Exact("", 8000)
		}, finding.Fail, finding.Fail, finding.Fail, "paths.vent"},
		{"only a relief valve", func(l *launcher.Launcher) {
			p := &l.Paths[1]
			p.Kind, p.SetPressure, p.FullFlowPressure, p.ReseatPressure = pneumatics.Relief, launcher.Exact("", 2e4),
				launcher.Exact("", 3e4), launcher.Exact("", 1e4)
		}, finding.Fail, finding.Fail, finding.Fail, "a path from tank"},
		{"too narrow", func(l *launcher.Launcher) { l.Paths[1].Flow.Value = launcher.Exact("", 0.3e-3) }, finding.Fail, finding.Fail,
			finding.Pass, ""},
		{"no time asked", func(l *launcher.Launcher) { l.Venting = nil }, finding.Unknown, finding.Unknown, finding.Pass, ""},
		{"no highest pressure", func(l *launcher.Launcher) { l.Supply = nil }, finding.Unknown, finding.Unknown, finding.Unknown, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := sample.VentedTank()
			c.change(l)
			a := assessed.Emptying(t, l, vent.SlowEndOnly)
			trapped := Of(a, finding.VentTrapped)
			for _, v := range []struct {
				finding.Verdict
				want finding.Status
			}{{Of(a, finding.VentShutdown), c.shutdown}, {Of(a, finding.VentPowerLoss), c.powerLoss}, {trapped, c.trapped}} {
				assert.Equal(t, v.want, v.Status, v.ID+": "+v.Why.String())
				if v.Status == finding.Fail {
					assert.NotEmpty(t, v.Advice.String(), v.ID)
				}
			}
			assert.Contains(t, trapped.Advice.String(), c.says)
		})
	}
}

// What is left at the target counts too: a target at which a shot is still too
// hard is no empty launcher.
func TestATargetThatStillShootsFails(t *testing.T) {
	l := sample.VentedTank()
	l.Projectile.TipStated = false // rigid: 0.08 J
	l.Paths[0].Flow.Value = launcher.Exact("", 8e-7)
	l.Volumes[0].Volume = launcher.Exact("", 20e-3)
	l.Paths[1].Flow.Value = launcher.Exact("", 6e-3)
	l.Projectile.Breakaway, l.Projectile.Sliding = launcher.Exact("", 0), launcher.Exact("", 0)
	l.Barrel.Travel, l.Barrel.Bore, l.Projectile.Diameter = launcher.Exact("", 1), launcher.Exact("", 41e-3), launcher.Exact("", 41e-3)
	a := assessed.Emptying(t, l, vent.SlowEndOnly)
	assert.Greater(t, a.Emptying.LeftShot, a.Emptying.LeftLimit)
	v := Of(a, finding.VentShutdown)
	assert.Equal(t, finding.Fail, v.Status)
	assert.Contains(t, v.Why.String(), "still has")
	// Not stated, the target is one at which all the air can do no more than the limit.
	l.Venting.Target = launcher.Band{}
	l.Paths[1].Flow.Value = launcher.Exact("", 12e-3) // to so little takes longer
	a = assessed.Emptying(t, l, vent.SlowEndOnly)
	assert.Less(t, a.Emptying.Target, vent.DefaultTarget)
	assert.Equal(t, finding.Pass, Of(a, finding.VentShutdown).Status)
}

// However high the stated target, 0.05 bar is the most that counts as empty: the
// verdicts say so, and the times are those to 0.05 bar. A tolerance of the target
// counts at its low end, as that of the time does.
func TestAStatedTargetIsNoLicence(t *testing.T) {
	for _, stated := range []float64{0.06e5, 0.6e5, 1.04e5} {
		l := sample.VentedTank()
		l.Venting.Target = launcher.Exact("venting.target", stated)
		a := assessed.Emptying(t, l, vent.SlowEndOnly)
		assert.InDelta(t, vent.DefaultTarget, a.Emptying.Target, 0)
		for _, v := range []finding.Verdict{Of(a, finding.VentShutdown), Of(a, finding.VentPowerLoss)} {
			assert.Equal(t, finding.Fail, v.Status, v.ID)
			assert.Contains(t, v.Why.String(), "does not count as empty")
		}
	}
	l := sample.VentedTank()
	l.Venting.Target, l.Venting.Within = sample.Between("", 0.01e5, 0.09e5), sample.Between("", 4, 24)
	a := assessed.Emptying(t, l, vent.SlowEndOnly)
	assert.InDelta(t, 0.01e5, a.Emptying.Target, 1e-6)
	assert.InDelta(t, 4, a.Emptying.Within, 1e-12)
	assert.Equal(t, finding.Fail, Of(a, finding.VentShutdown).Status, "it takes some ten seconds")
}

// A firing valve that opens without power shoots when the plug is pulled: no action,
// no guard makes that clean, however small the energy.
func TestPowerLossThatShootsIsNoCleanVent(t *testing.T) {
	l := sample.Dumped()
	sample.PathNamed(l, "fire").Unpowered = pneumatics.Open
	a := assessed.Emptying(t, l, vent.SlowEndOnly)
	e, v := a.Emptying, Of(a, finding.VentPowerLoss)
	assert.Equal(t, finding.Fail, v.Status)
	assert.Contains(t, v.Why.String(), "shot.unasked")
	for _, p := range e.Pushes {
		assert.InDelta(t, p.Energy*worst.ModelFactor, p.Judged, 1e-12, "one figure in verdict and screen")
	}
}
