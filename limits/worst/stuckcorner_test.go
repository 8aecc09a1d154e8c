package worst

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
)

// The corner of a light search lies in the box, has air behind the projectile, and no more than a full search finds: a bound from below.
func TestAStuckCornerIsNoMoreThanTheWorst(t *testing.T) {
	l := sample.Plain(sample.Friction(3, 3))
	q := EnergyQuestion(l, 0.5e5)
	b := NewBox(l, q)
	at, found, err := b.StuckCorner(t.Context())
	require.NoError(t, err)
	require.True(t, found)
	require.Len(t, at, b.Dim)
	freed := b.StuckProbe().Freed(slices.Clone(at))
	assert.Positive(t, freed)
	worst, err := WorstStuck(t.Context(), l, q, 0.5)
	require.NoError(t, err)
	assert.LessOrEqual(t, freed, 1.02*worst.Freed, "the edge of a search is found within 2 % of the start pressure")
	assert.Greater(t, freed, 0.5*worst.Freed)
}

// Where no pressure is known nothing is stuck, and nobody is asked.
func TestNoStartNoStuckCorner(t *testing.T) {
	l := sample.Plain()
	b := NewBox(l, WeakestQuestion(l))
	require.Negative(t, b.Start)
	_, found, err := b.StuckCorner(t.Context())
	require.NoError(t, err)
	assert.False(t, found)
	assert.Zero(t, b.StuckProbe().Freed(nil))
}
