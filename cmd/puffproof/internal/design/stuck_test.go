package design

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/worst"
	"puffproof/testdata/compare/random"
)

// A projectile that a running supply holds may stay further back from a lower start, with more to gain: random launcher 41, where
// single runs of the simulator, at a point that another search led to, gave 0.609 J from 0.192 of the highest start pressure and
// 0.496 J from 0.240, the highest from which it stays there.
func TestAStuckProjectileMayGainMoreFromALowerStart(t *testing.T) {
	l, problems := Read("random.toml", random.Design(41))
	require.Empty(t, problems)
	vary(l, rand.New(rand.NewPCG(41, 5)))
	a, err := assessment.Make(context.Background(), l, assessment.Options{Strength: 0.3, Day: "2026-01-01", Want: assessment.StuckStage})
	require.NoError(t, err)
	assert.Greater(t, a.Stuck.Freed, 0.6)
	high, _ := l.SoakedHigh()
	assert.Less(t, a.Stuck.Start, 0.15*high, "and it says from which")
}

// What keeps a limit narrowly is searched for longer: random launcher 53, of which a search of another kind found 0.757 J where the
// usual one ends at 0.682 J.
func TestAStuckProjectileNearItsLimitIsSearchedForLonger(t *testing.T) {
	l, problems := Read("random.toml", random.Design(53))
	require.Empty(t, problems)
	high, _ := l.SoakedHigh()
	for limit, freed := range map[float64]float64{2: 0.682, 0.8: 0.756} {
		s, err := worst.WorstStuck(context.Background(), l, worst.EnergyQuestion(l, high), limit)
		require.NoError(t, err)
		assert.InEpsilon(t, freed, s.Freed, 0.02, "of %g J; far from its limit it takes a brief look, to the width of a search's edge", limit)
	}
}
