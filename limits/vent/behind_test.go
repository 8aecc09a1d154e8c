package vent

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Behind a projectile that stuck after a shot there is no more than it holds, its firmest
// friction over its section, nor than the shot that left it: by hand 20 N over
// 13.1 cm2, at the least bore. Where its gap lets air past, that bleeds off; where it is tight, it
// is trapped.
func TestTheAirBehindAStuckProjectile(t *testing.T) {
	behind := func(stuck float64, fit func(l *launcher.Launcher)) Case { return behindStuck(t, stuck, fit) }
	held := 20 / launcher.Circle(40.8e-3)
	clearance := func(low, high float64) func(l *launcher.Launcher) {
		return func(l *launcher.Launcher) { l.Projectile.Clearance = sample.Between("", low, high) }
	}
	tight, gap := clearance(0, 0), clearance(1e-7, 1e-7) // so narrow that a course read by the second shows it
	assert.InEpsilon(t, held, behind(5e4, tight).Start, 1e-9)
	assert.InEpsilon(t, 8000, behind(8000, tight).Start, 1e-9)
	assert.Equal(t, Trapped, behind(5e4, tight).Status)
	assert.Equal(t, Trapped, behind(5e4, clearance(0, 1e-4)).Status, "the closest fit counts")
	assert.Equal(t, Trapped, behind(5e4, func(l *launcher.Launcher) {
		l.Projectile.Diameter = sample.Between("", 40e-3, 40.9e-3) // in a bore of 40.8 to 41.2 mm
	}).Status, "the widest projectile in the narrowest bore")
	assert.Equal(t, Vented, behind(4000, tight).Status, "below the target from the start")
	c := behind(5e4, gap)
	assert.Equal(t, Vented, c.Status)
	// Isothermal, below the choking ratio: no faster than all of the air of the largest
	// barrel and dead volume at the flow of the start, no slower than at the flow of the target
	// (m = Cd A sqrt(2 rho dp), at most; incompressible, which is within 10 % here).
	volume := launcher.Circle(41.2e-3)*0.063 + 45e-6
	area := 0.6 * math.Pi * 40.8e-3 * 0.5e-7
	at := func(gauge float64) float64 {
		rho := (101325 + gauge) / (287.05 * 278.15)
		return (held - 5000) * volume / (287.05 * 278.15) / (area * math.Sqrt(2*rho*gauge))
	}
	assert.Greater(t, c.Slowest, 0.9*at(held))
	assert.Less(t, c.Slowest, 1.1*at(5000))
}

// behindStuck is the air behind a projectile that stuck after a shot, from a pressure [Pa
// gauge], in the vented tank with a fit of its own.
func behindStuck(t *testing.T, stuck float64, fit func(l *launcher.Launcher)) Case {
	t.Helper()
	l := sample.VentedTank()
	l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Firing)
	l.Projectile.Breakaway, l.Projectile.Restart = sample.Between("", 5, 10), sample.Between("", 5, 20)
	fit(l)
	v := newVenter(Input{Launcher: l, Stuck: worst.Stuck{Freed: 1, Start: stuck}}, 1e5, 5000)
	c, there, err := v.behindProjectile(Scenario{Shutdown, pneumatics.Firing})
	require.NoError(t, err)
	require.True(t, there)
	return c
}

// The most air behind a stuck projectile is that of the tops of the bands: dead volume,
// travel, section, hose into the barrel. The time of air at one temperature goes as the
// space (first law and the flow law: V in front of dp/dt); between the ends of the heat
// the slowest differs from that by less than 1 %.
func TestTheMostAirBehindAStuckProjectile(t *testing.T) {
	spread := func(b *launcher.Band, by float64) { b.Low, b.High = b.Nominal*(1-by), b.Nominal*(1+by) }
	for name, c := range map[string]struct {
		fit   func(l *launcher.Launcher)
		bands func(l *launcher.Launcher) []*launcher.Band // each by a tenth
		ratio float64                                     // of the space at their tops over the stated one
	}{
		"in bore": {
			func(l *launcher.Launcher) { l.Barrel.Bore = launcher.Exact("", 40e-3) },
			func(l *launcher.Launcher) []*launcher.Band {
				return []*launcher.Band{&l.Barrel.Travel, &l.Barrel.DeadVolume}
			}, 1.1,
		},
		"over tube": {
			sample.OverTube,
			func(l *launcher.Launcher) []*launcher.Band {
				return []*launcher.Band{&l.Barrel.Engagement, &l.Barrel.DeadVolume}
			}, 1.1,
		},
		"with a hose": { // 40 mL, 12.57 cm2 of 60 mm and 50.3 mL of hose: a tenth on the hose's length
			func(l *launcher.Launcher) {
				l.Barrel.Bore = launcher.Exact("", 40e-3)
				l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 8e-3), Length: launcher.Exact("", 1), Side: launcher.HoseAfter}
			},
			func(l *launcher.Launcher) []*launcher.Band { return []*launcher.Band{&l.Paths[0].Hose.Length} },
			1 + 0.1*50.265e-6/(40e-6+75.398e-6+50.265e-6),
		},
	} {
		slowest := func(by float64) float64 {
			return behindStuck(t, 1e4, func(l *launcher.Launcher) {
				l.Barrel.DeadVolume, l.Barrel.Travel = launcher.Exact("", 40e-6), launcher.Exact("", 60e-3)
				c.fit(l)
				l.Projectile.Clearance = launcher.Exact("", 1e-6)
				for _, b := range c.bands(l) {
					spread(b, by)
				}
			}).Slowest
		}
		assert.InEpsilon(t, c.ratio, slowest(0.1)/slowest(0), 0.01*(c.ratio-1)+1e-3, name)
	}
}
