package assessed

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
)

// ShotsAt makes shots of so many projectiles from one pressure [Pa gauge], at speeds
// [m/s], whose chronograph stands at the muzzle.
func ShotsAt(gauge float64, projectiles int, speeds ...float64) []measure.Shot {
	var out []measure.Shot
	for i, v := range speeds {
		out = append(out, measure.Shot{Line: i + 2, Gauge: gauge, Method: measure.Chronograph, Speed: v, Temperature: 293.15,
			Projectile: projectile(i % projectiles), Mass: 4 * sample.Grams})
	}
	return out
}

// Scattered makes n shots at each pressure [Pa gauge] of a launcher whose true values
// differ from the design; scatter is the relative deviation of their speeds [-].
func Scattered(t testing.TB, truth *launcher.Launcher, r *rand.Rand, scatter float64, n int, gauges ...float64) []measure.Shot {
	t.Helper()
	m := measure.NewShotModel(truth)
	var out []measure.Shot
	for _, g := range gauges {
		v, _ := m.Shot(g, 293.15)
		require.Positive(t, v)
		for i := range n {
			out = append(out, measure.Shot{Line: len(out) + 2, Gauge: g, Method: measure.Chronograph, SpeedError: 1e-4,
				Speed: v * (1 + scatter*r.NormFloat64()), Temperature: 293.15, Projectile: projectile(i % 2),
				Mass: truth.Projectile.Mass.Nominal})
		}
	}
	return out
}

// projectile names the i-th of a set.
func projectile(i int) string { return string(rune('A' + i)) }
