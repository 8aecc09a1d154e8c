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

// What keeps a limit narrowly is searched for longer: random launcher 280, of which a search three times as long (TestAdversary) found
// 0.0370 J where the usual one ends at 0.0294 J.
func TestAStuckProjectileNearItsLimitIsSearchedForLonger(t *testing.T) {
	l, problems := Read("random.toml", random.Design(280))
	require.Empty(t, problems)
	if said := l.Projectile.MassSaid; said.High > 0 { // it is no foam; what is asked here is how long its own shots are searched
		l.Projectile.Mass.Low, l.Projectile.Mass.High = said.Low, said.High
	}
	vary(l, rand.New(rand.NewPCG(280, 5)))
	high, _ := l.SoakedHigh()
	for _, limit := range [...]float64{0.08, 0.035} {
		s, err := worst.WorstStuck(context.Background(), l, worst.EnergyQuestion(l, high), limit)
		require.NoError(t, err)
		if limit == 0.035 {
			assert.Greater(t, s.Freed, 0.0365)
		} else {
			assert.InDelta(t, 0.0294, s.Freed, 0.0005, "far from its limit it takes a brief look")
		}
	}
}
