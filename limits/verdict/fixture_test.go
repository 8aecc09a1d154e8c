package verdict

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/launcher"
)

// asked gives one verdict on a launcher for which nothing needs to be searched.
func asked(t testing.TB, l *launcher.Launcher, id string) finding.Verdict {
	t.Helper()
	return Of(assessed.Stated(t, l), id)
}

// assertFigure compares a figure of a verdict; NaN: it has none.
func assertFigure(t *testing.T, want float64, got *float64, name string) {
	t.Helper()
	if math.IsNaN(want) {
		assert.Nil(t, got, name)
	} else if assert.NotNil(t, got, name) {
		assert.InDelta(t, want, *got, 1e-12, name)
	}
}

// above is the next figure above another.
func above(v float64) float64 { return math.Nextafter(v, math.Inf(1)) }
