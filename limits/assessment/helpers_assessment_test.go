package assessment

import (
	"context"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/vent"
	"testing"

	"github.com/stretchr/testify/require"
)

// withEnergies is the assessment of a launcher with the energies of normal operation
// alone, and what measurements do to them.
func withEnergies(t testing.TB, l *launcher.Launcher, o Options) *Assessment {
	t.Helper()
	o.Want = EnergyStage
	a, err := Make(context.Background(), l, o)
	require.NoError(t, err)
	return a
}

// ventInputOf is what the emptying of a launcher is computed from, without the
// energies of the shots before.
func ventInputOf(t *testing.T, l *launcher.Launcher) vent.Input {
	t.Helper()
	limits, err := launcher.LimitsOf(l.Limits, l.Projectile)
	require.NoError(t, err)
	target, _ := vent.Target(l, limits.Total.Value)
	return vent.Input{Launcher: l, Limits: limits, Loading: vent.LoadingOf(l, target)}
}

// weakly is for questions of structure: how figures go together, not how large they are.
func weakly() context.Context { return search.WithStrength(context.Background(), 0.05) }
