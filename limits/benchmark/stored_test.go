package benchmark_test

import (
	"fmt"
	"math"
	"puffproof/limits/benchmark"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Joules per litre at 0.5 to 10 bar gauge, ambient 101325 Pa, gamma 1.4: own
// arithmetic (C), worked out apart from this code from the closed form of Baker
// (also ASME PCC-2 501-II). To the digits printed.
func TestStoredEnergyTable(t *testing.T) {
	bars := []float64{0.5, 1, 2, 3, 5, 7, 10}
	for i, want := range []string{"41.0", "89.7", "201.6", "326.2", "599.5", "893.8", "1360.8"} {
		assert.Equal(t, want, fmt.Sprintf("%.1f", benchmark.StoredEnergy(1e-3, bars[i]*1e5, 101325, 1.4)), "at %g bar", bars[i])
	}
}

// First term of the closed form's series in x = gauge/pa = 1e-6: gauge V/gamma. The
// next term is smaller by about x: tolerance 2e-6.
func TestStoredEnergyAtLowPressure(t *testing.T) {
	const pa = 1e5
	assert.InEpsilon(t, 2*pa*1e-6/1.4, benchmark.StoredEnergy(2, pa*1e-6, pa, 1.4), 2e-6)
	assert.Zero(t, math.Abs(benchmark.StoredEnergy(2, 0, pa, 1.4)))
}

func TestStoredEnergyRefusesNonsense(t *testing.T) {
	for _, f := range []func(){
		func() { benchmark.StoredEnergy(-1, 1e5, 1e5, 1.4) },
		func() { benchmark.StoredEnergy(1, -1, 1e5, 1.4) },
		func() { benchmark.StoredEnergy(1, 1e5, 0, 1.4) },
		func() { benchmark.StoredEnergy(1, 1e5, 1e5, 1) },
		func() { benchmark.StoredEnergy(math.NaN(), 1e5, 1e5, 1.4) },
		func() { benchmark.StoredEnergy(1, math.Inf(1), 1e5, 1.4) },
	} {
		assert.Panics(t, f)
	}
}
