package worst

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/search"
)

// A shot that is stopped has no figure, and a search that is stopped gives none: the error
// is the context's.
func TestNoFigureComesOfAStoppedShot(t *testing.T) {
	l := sample.Plain()
	high, _ := l.SoakedHigh()
	ctx, cancel := context.WithCancel(search.WithStrength(t.Context(), 0.01)) // without what was computed before
	b := NewBox(l, EnergyQuestion(l, high))
	b.Until(ctx)
	u := make([]float64, b.Dim)
	for i := range u {
		u[i] = 0.5
	}
	assert.False(t, math.IsNaN(b.Evaluator().Value(u)))
	cancel()
	assert.True(t, math.IsNaN(b.Evaluator().Value(u)))
	_, err := Maximise(ctx, l, EnergyQuestion(l, high), search.Light())
	assert.ErrorIs(t, err, context.Canceled)
}
