package benchmark_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/benchmark"
)

// Yield stress of polycarbonate by handbooks of plastics [N/mm2] (from memory): 62 at 23 degC, 55 at 40, 49 at 60, 45 at 70. The factor is
// never above what they leave, and at most a tenth below it.
func TestPolycarbonateLosesAsMuchAsHandbooksSay(t *testing.T) {
	for at, stress := range map[float64]float64{23: 62, 40: 55.5, 60: 48.5, 70: 45} {
		f := benchmark.PolycarbonateFactor(kelvins(at))
		assert.LessOrEqual(t, f, stress/62, "%g degC", at)
		assert.Greater(t, f, 0.9*stress/62, "%g degC", at)
	}
	assert.Equal(t, 1.0, benchmark.PolycarbonateFactor(kelvins(-20)))
	assert.Zero(t, benchmark.PolycarbonateFactor(kelvins(70.1)))
	assert.InDelta(t, 0.7, benchmark.PolycarbonateFactor(kelvins(70)), 1e-12, "rounding")
	assert.Panics(t, func() { benchmark.PolycarbonateFactor(math.NaN()) })
}

func kelvins(celsius float64) float64 { return celsius + 273.15 }
