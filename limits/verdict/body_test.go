package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// muzzle.sealed: p V/(V + dead volume + 1 L) against 0.1 bar (limits, body and
// mouth). By hand: 0.95 bar 0.25 L/(0.25 + 0.04 + 1) L = 0.184 bar, 0.18 in two
// digits.
func TestMuzzleSealed(t *testing.T) {
	sealed := func(changes ...func(*launcher.Launcher)) finding.Verdict {
		return asked(t, sample.Plain(changes...), finding.MuzzleSealed)
	}
	dose := func(v float64) func(*launcher.Launcher) {
		return func(l *launcher.Launcher) { l.Volumes[0].Volume = launcher.Exact("", v*1e-3) }
	}
	v := sealed(dose(0.25))
	assert.Equal(t, finding.Fail, v.Status)
	assert.InEpsilon(t, 0.95*sample.Bars*0.25/(0.25+0.04+1), *v.Value, sample.Rounding)
	assert.InDelta(t, 0.18*sample.Bars, *v.Value, 0.005*sample.Bars)
	assert.Equal(t, 0.1*sample.Bars, *v.Limit)
	assert.Equal(t, finding.Pass, sealed(dose(0.1)).Status)
	assert.Equal(t, finding.Pass, sealed(dose(0.1), func(l *launcher.Launcher) { l.Barrel.SealGuard = "slots" }).Status, "no guard is needed")
	v = sealed(dose(0.25), func(l *launcher.Launcher) { l.Barrel.SealGuard = "slots" })
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Equal(t, finding.OnProcedure, v.Basis)
	assert.Equal(t, []string{finding.ItemSealGuard}, v.Items)
	assert.Contains(t, v.Condition.String(), "slots")
	assert.Negative(t, *v.Margin, "the figure stays that of a failure")
	assert.Equal(t, finding.Fail, sealed(dose(0.25), func(l *launcher.Launcher) { l.Barrel.SealGuard = "  " }).Status)
	assert.Equal(t, finding.Unknown, sealed(func(l *launcher.Launcher) { l.Switch, l.Supply = nil, nil }).Status)
}

// projectile.choking: a ball that passes 44.45 mm is a small ball (16 CFR 1117), a
// part that fits 31.7 mm a small part (16 CFR 1501.4).
func TestProjectileChoking(t *testing.T) {
	const year = 365.25 * 86400
	ball := func(d, age float64) finding.Verdict {
		return asked(t, sample.Plain(func(l *launcher.Launcher) {
			l.Projectile.Diameter = launcher.Exact("", d*sample.Millimetres)
			if age > 0 {
				l.Event = &launcher.EventSpec{Youngest: launcher.Exact("", age*year)}
			}
		}), finding.ProjectileChoking)
	}
	assert.Equal(t, finding.Pass, ball(45, 1).Status)
	assert.Equal(t, finding.OnData, ball(45, 1).Basis)
	assert.Equal(t, finding.Fail, ball(44, 2).Status)
	assert.Negative(t, *ball(44, 2).Margin)
	four := ball(44, 4)
	assert.Equal(t, finding.Conditional, four.Status)
	assert.Equal(t, finding.OnProcedure, four.Basis)
	assert.Contains(t, four.Condition.String(), "under three")
	assert.Equal(t, []string{finding.ItemTugAndBite}, four.Items)
	assert.InDelta(t, 44*sample.Millimetres, *four.Value, 1e-12)
	assert.Negative(t, *four.Margin)
	assert.Equal(t, finding.Unknown, ball(44, 0).Status)
	rocket := asked(t, sample.Plain(sample.OverTube), finding.ProjectileChoking)
	assert.Equal(t, finding.Pass, rocket.Status, "40 mm do not fit the cylinder of 31.7 mm")
	none := asked(t, sample.Plain(func(l *launcher.Launcher) { l.Projectile.Diameter = launcher.Band{} }), finding.ProjectileChoking)
	assert.Equal(t, finding.Unknown, none.Status)
}
