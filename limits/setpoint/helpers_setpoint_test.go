package setpoint

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/verdict"
)

// ladderOf gives a verdict on the ladder.
func ladderOf(t *testing.T, id string, l *launcher.Launcher) finding.Verdict {
	t.Helper()
	limits, err := l.EnergyLimits("")
	require.NoError(t, err)
	return verdict.Of(&assessment.Assessment{Launcher: l, Stated: l, Limits: limits}, id)
}

// synthetic makes shots of a launcher whose true values differ from the design.
func synthetic(t *testing.T, truth *launcher.Launcher, r *rand.Rand, scatter float64, n int, gauges ...float64) []measure.Shot {
	t.Helper()
	m := measure.NewShotModel(truth)
	var out []measure.Shot
	for _, g := range gauges {
		v, _ := m.Shot(g, 293.15)
		require.Positive(t, v)
		for i := range n {
			out = append(out, measure.Shot{Line: len(out) + 2, Gauge: g, Method: measure.Chronograph, SpeedError: 1e-4,
				Speed:       v * (1 + scatter*r.NormFloat64()),
				Temperature: 293.15, Projectile: string(rune('A' + i%2))})
		}
	}
	return out
}

// withEnergies is the assessment of a launcher with the energies of normal operation
// alone, and what measurements do to them.
func withEnergies(t testing.TB, l *launcher.Launcher, o assessment.Options) *assessment.Assessment {
	t.Helper()
	o.Want = assessment.EnergyStage
	a, err := assessment.Make(context.Background(), l, o)
	require.NoError(t, err)
	return a
}

func cycles(first float64, steps ...float64) []float64 {
	out := []float64{first}
	for _, s := range steps {
		out = append(out, first+s)
	}
	return out
}
