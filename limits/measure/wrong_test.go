package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/worst"
)

// A shot just above what the launcher can do from the top of the reading's error, times
// the model factor, contradicts it, one just below does not: the launcher has no
// tolerance, so its nominal shot is its worst. 2 % each way: the search is weak.
func TestAShotContradictsAboveTheFactor(t *testing.T) {
	l := tight()
	const gauge = 0.6 * sample.Bars
	allowed := worst.ModelFactor * energyAt(l, gauge+l.SensedGaugeError(), 0)
	for share, wrong := range map[float64]bool{0.98: false, 1.02: true} {
		g := SpeedGroup{Gauge: gauge, Shots: 1, Fastest: math.Sqrt(2 * share * allowed / l.Projectile.Mass.Nominal)}
		c, err := contradiction(sample.Weakly(), l, []SpeedGroup{g})
		require.NoError(t, err)
		assert.Equal(t, wrong, c != nil, "%v of what is allowed", share)
		if c != nil {
			assert.InEpsilon(t, allowed, c.Allowed, 0.02)
			assert.InEpsilon(t, share*allowed, c.Energy, sample.Rounding)
		}
	}
}
