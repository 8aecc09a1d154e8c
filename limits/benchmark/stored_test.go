package benchmark_test

import (
	"fmt"
	"math"
	"puffproof/limits/benchmark"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Joules per litre at 0.5 to 10 bar gauge, ambient 101325 Pa, gamma 1.4: own
// arithmetic (C), worked out apart from this code from the closed forms of Baker
// (also ASME PCC-2 501-II), Brode and the isothermal process. To the digits printed.
func TestStoredEnergyTable(t *testing.T) {
	bars := []float64{0.5, 1, 2, 3, 5, 7, 10}
	table := map[string][]string{
		"isentropic":   {"41.0", "89.7", "201.6", "326.2", "599.5", "893.8", "1360.8"},
		"Brode":        {"125.0", "250.0", "500.0", "750.0", "1250.0", "1750.0", "2500.0"},
		"isothermal":   {"60.7", "138.2", "328.4", "552.4", "1070.8", "1657.1", "2627.7"},
		"availability": {"10.7", "38.2", "128.4", "252.4", "570.8", "957.1", "1627.7"},
	}
	for i, bar := range bars {
		e := benchmark.Stored(1e-3, bar*1e5, 101325, 1.4)
		for name, v := range map[string]float64{
			"isentropic": e.Isentropic, "Brode": e.Brode, "isothermal": e.Isothermal, "availability": e.Availability,
		} {
			assert.Equal(t, table[name][i], fmt.Sprintf("%.1f", v), "%s at %g bar", name, bar)
		}
	}
}

// First terms of the closed forms' series in x = gauge/pa = 1e-6: isothermal
// gauge V, isentropic gauge V/gamma, availability gauge^2 V/(2 pa). The next term
// is smaller by about x: tolerance 2e-6.
func TestStoredEnergyAtLowPressure(t *testing.T) {
	const pa = 1e5
	e := benchmark.Stored(2, pa*1e-6, pa, 1.4)
	assert.InEpsilon(t, 2*pa*1e-6, e.Isothermal, 2e-6)
	assert.InEpsilon(t, 2*pa*1e-6/1.4, e.Isentropic, 2e-6)
	assert.InEpsilon(t, 2*pa*1e-12/2, e.Availability, 1e-3,
		"a difference of nearly equal numbers: rounding of 1e-16 in 1e-6 leaves 2e-10 over 5e-7, a few 1e-4")
	zero := benchmark.Stored(2, 0, pa, 1.4)
	assert.Zero(t, math.Abs(zero.Isentropic)+zero.Brode+zero.Isothermal+zero.Availability)
}

func TestStoredEnergyRefusesNonsense(t *testing.T) {
	for _, f := range []func(){
		func() { benchmark.Stored(-1, 1e5, 1e5, 1.4) },
		func() { benchmark.Stored(1, -1, 1e5, 1.4) },
		func() { benchmark.Stored(1, 1e5, 0, 1.4) },
		func() { benchmark.Stored(1, 1e5, 1e5, 1) },
		func() { benchmark.Stored(math.NaN(), 1e5, 1e5, 1.4) },
		func() { benchmark.Stored(1, math.Inf(1), 1e5, 1.4) },
	} {
		assert.Panics(t, f)
	}
}
