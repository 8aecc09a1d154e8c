package limits

import (
	"context"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/measure"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// One shot much faster than eleven others makes the scatter not normal. The
// group still counts, its bound holds the fast shot, and more shots that leave the
// fast one in never take a contradiction away.
func TestFastOutlierIsNeverThrownAway(t *testing.T) {
	l := sample.Gentle()
	v, _ := measure.NewShotModel(l.Clone()).Shot(0.30*sample.Bars, 0)
	speeds := []float64{v, 0.98 * v, 1.02 * v, 1.01 * v, 0.99 * v, v, 1.005 * v, 0.995 * v, 0.98 * v, 1.02 * v, v, 2.2 * v}
	for _, from := range []int{0, 4, 8} { // 12, 8 and 4 shots
		found, err := measure.Evaluate(context.Background(), l, &measure.ShotLog{Shots: shotsAt(0.30*sample.Bars, 2, speeds[from:]...)})
		require.NoError(t, err)
		g := found.Groups[0]
		assert.GreaterOrEqual(t, g.UpperSpeed, g.Fastest, "%d shots", g.Shots)
		require.NotNil(t, found.Wrong, "%d shots", g.Shots)
		assert.Greater(t, found.Wrong.Energy, found.Wrong.Allowed)
		assert.False(t, found.Agrees())
		if g.Shots == 12 {
			assert.True(t, g.NotNormal())
			assert.True(t, g.Admissible(), "a series may not lose its bound because it holds a fast shot")
		}
	}
	r, _ := judged(t, l, shotsAt(0.30*sample.Bars, 2, speeds...))
	total := verdictOf(t, r, "energy.total")
	assert.Equal(t, finding.Fail, total.Status)
	assert.Greater(t, *total.Value, *total.Limit, "no failure beside a figure that would pass")
	assert.Negative(t, *total.Margin)
}
