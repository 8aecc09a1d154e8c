package worst

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
)

// What a launcher with a band gives is no less than what one gives whose band is that end
// of it: the same shot is asked for twice, so the two agree to the integration's 1e-5 and
// the search's last step.
func noLessThanAtAnEnd(t *testing.T, banded, atEnd *launcher.Launcher) {
	t.Helper()
	whole, end := worstOf(t, banded, search.Options{}).Value, worstOf(t, atEnd, search.Options{}).Value
	assert.Greater(t, end, 0.02)
	assert.GreaterOrEqual(t, whole, end*(1-1e-3))
}

// fedShot is a launcher whose pump goes on through the shot and has no switch: most of
// what drives a heavy ball comes while it is under way.
func fedShot(changes ...func(*launcher.Launcher)) *launcher.Launcher {
	return sample.Plain(append([]func(*launcher.Launcher){sample.Friction(0.2, 0.1), func(l *launcher.Launcher) {
		l.Switch = nil
		l.Volumes[0].Volume = launcher.Exact("", 0.2e-3)
		l.Projectile.Mass = launcher.Exact("", 60*sample.Grams)
		l.Barrel.Travel = launcher.Exact("", 1)
		l.Supply = &launcher.SupplySpec{Feeds: "tank", FreeAir: launcher.Exact("supply.free_air", 300*sample.LitreMinute),
			DeadHead: launcher.Exact("supply.dead_head", 0.1*sample.Bars)}
	}}, changes...)...)
}

// The dead head of a supply that feeds the shot sets what it delivers during the shot too.
func TestTheDeadHeadCountsDuringTheShot(t *testing.T) {
	noLessThanAtAnEnd(t,
		fedShot(func(l *launcher.Launcher) {
			l.Supply.DeadHead = sample.Between("supply.dead_head", 0.03*sample.Bars, 0.14*sample.Bars)
		}),
		fedShot(func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Exact("", 0.14*sample.Bars) }))
}

// A relief valve takes air from a shot that starts above its set pressure, or from the
// barrel: it counts at its weakest.
func TestAReliefValveCountsAtItsWeakest(t *testing.T) {
	for _, on := range []string{"tank", "barrel"} {
		relieved := func(set, bore launcher.Band) *launcher.Launcher {
			return sample.Plain(sample.Friction(0.2, 0.1), sample.WithRelief(set, launcher.Exact("full", 0.9*sample.Bars), 12e-3, 0.62),
				func(l *launcher.Launcher) {
					l.Paths[1].From, l.Paths[1].Flow.Value = on, bore
					l.Paths[1].ReseatPressure = launcher.Exact("reseat", 0.05*sample.Bars)
					l.Projectile.Mass = launcher.Exact("", 40*sample.Grams)
				})
		}
		noLessThanAtAnEnd(t, relieved(sample.Between("set", 0.1*sample.Bars, 0.8*sample.Bars), sample.Between("bore", 6e-3, 20e-3)),
			relieved(launcher.Exact("", 0.8*sample.Bars), launcher.Exact("", 6e-3)))
	}
}
