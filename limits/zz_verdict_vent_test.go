package limits

import (
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestEmptyingThatFails(t *testing.T) {
	for _, c := range []struct {
		name                         string
		change                       func(l *Launcher)
		shutdown, powerLoss, trapped Status
		says                         string
	}{
		{"no vent", func(l *Launcher) { l.Paths = l.Paths[:1] }, Fail, Fail, Fail, "a path from tank to the atmosphere"},
		{"shut without power", func(l *Launcher) { l.Paths[1].Unpowered = pneumatics.Closed }, Pass, Fail, Fail, `unpowered = "open"`},
		{"keeps its place without power", func(l *Launcher) { l.Paths[1].Unpowered = pneumatics.Stays }, Pass, Fail, Fail, `unpowered = "open"`},
		{"shut when off", func(l *Launcher) { l.Paths[1].OpenIn = 0 }, Fail, Pass, Fail, "open in state off"},
		{"opens for a moment", func(l *Launcher) { l.Paths[1].Pulse = Exact("", 0.5) }, Fail, Fail, Fail, "paths.vent"},
		{"piloted: keeps its least differential", func(l *Launcher) { l.Paths[1].MinDifferential = Exact("", 3e4) }, Fail, Fail, Fail,
			"paths.vent"},
		{"check valve that cracks too high", func(l *Launcher) {
			l.Paths[1].Kind, l.Paths[1].CrackingPressure = pneumatics.Check, Exact("", 8000)
		}, Fail, Fail, Fail, "paths.vent"},
		{"only a relief valve", func(l *Launcher) {
			p := &l.Paths[1]
			p.Kind, p.SetPressure, p.FullFlowPressure, p.ReseatPressure = pneumatics.Relief, Exact("", 2e4), Exact("", 3e4), Exact("", 1e4)
		}, Fail, Fail, Fail, "a path from tank"},
		{"too narrow", func(l *Launcher) { l.Paths[1].Flow.Value = Exact("", 0.3e-3) }, Fail, Fail, Pass, ""},
		{"no time asked", func(l *Launcher) { l.Venting = nil }, Unknown, Unknown, Pass, ""},
		{"no highest pressure", func(l *Launcher) { l.Supply = nil }, Unknown, Unknown, Unknown, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := ventedTank()
			c.change(l)
			a := assessedVent(t, l)
			trapped := ventTrapped(a)
			for _, v := range []struct {
				Verdict
				want Status
			}{{ventShutdown(a), c.shutdown}, {ventPowerLoss(a), c.powerLoss}, {trapped, c.trapped}} {
				assert.Equal(t, v.want, v.Status, v.ID+": "+v.Why)
				if v.Status == Fail {
					assert.NotEmpty(t, v.Advice, v.ID)
				}
			}
			assert.Contains(t, trapped.Advice, c.says)
		})
	}
}

// What is left at the target counts too: a target at which a shot is still too
// hard is no empty launcher.
func TestATargetThatStillShootsFails(t *testing.T) {
	l := ventedTank()
	l.Projectile.TipStated = false // rigid: 0.08 J
	l.Paths[0].Flow.Value = Exact("", 8e-7)
	l.Volumes[0].Volume = Exact("", 20e-3)
	l.Paths[1].Flow.Value = Exact("", 6e-3)
	l.Projectile.Breakaway, l.Projectile.Sliding = Exact("", 0), Exact("", 0)
	l.Barrel.Travel, l.Barrel.Bore, l.Projectile.Diameter = Exact("", 1), Exact("", 41e-3), Exact("", 41e-3)
	a := assessedVent(t, l)
	assert.Greater(t, a.Emptying.LeftShot, a.Emptying.LeftLimit)
	v := ventShutdown(a)
	assert.Equal(t, Fail, v.Status)
	assert.Contains(t, v.Why, "still has")
	// Not stated, the target is one at which all the air can do no more than the limit.
	l.Venting.Target = Band{}
	l.Paths[1].Flow.Value = Exact("", 12e-3) // to so little takes longer
	a = assessedVent(t, l)
	assert.Less(t, a.Emptying.Target, DefaultTarget)
	assert.Equal(t, Pass, ventShutdown(a).Status)
}

// However high the stated target, 0.05 bar is the most that counts as empty: the
// verdicts say so, and the times are those to 0.05 bar. A tolerance of the target
// counts at its low end, as that of the time does.
func TestAStatedTargetIsNoLicence(t *testing.T) {
	for _, stated := range []float64{0.06e5, 0.6e5, 1.04e5} {
		l := ventedTank()
		l.Venting.Target = Exact("venting.target", stated)
		a := assessedVent(t, l)
		assert.InDelta(t, DefaultTarget, a.Emptying.Target, 0)
		for _, v := range []Verdict{ventShutdown(a), ventPowerLoss(a)} {
			assert.Equal(t, Fail, v.Status, v.ID)
			assert.Contains(t, v.Why, "does not count as empty")
		}
	}
	l := ventedTank()
	l.Venting.Target, l.Venting.Within = between("", 0.01e5, 0.09e5), between("", 4, 24)
	a := assessedVent(t, l)
	assert.InDelta(t, 0.01e5, a.Emptying.Target, 1e-6)
	assert.InDelta(t, 4, a.Emptying.Within, 1e-12)
	assert.Equal(t, Fail, ventShutdown(a).Status, "it takes some ten seconds")
}
