package stopwatch

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/catalogue"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
)

// The readings of a log may lie as high as the slowest heat allows, and no higher: at the target
// when the slowest time is up. The time of an exact tank through an ideal nozzle, over the time
// constant, from a gauge pressure to 5000 Pa (testdata/reference/wall_heat.csv, set slowest,
// n = k = 0; vent holds the emptying itself to it). The rates that are tried miss less than 0.2 %
// of it.
func TestTheLimitOfALogTakesTheSlowestHeat(t *testing.T) {
	const misses = 2e-3
	psi := math.Sqrt(1.4) * math.Pow(2/2.4, 3)
	tau := 2e-3 / (0.75 * launcher.Circle(1.2e-3) * psi * math.Sqrt(287.05*293.15)) // V/(Cd A psi sqrt(R T)) [s]
	for gauge, want := range map[float64]float64{1e5: 0.7628570928, 3e5: 1.4892008728, 7e5: 2.2725244021, 10e5: 2.6571930176} {
		l := sample.VentedTank()
		for _, b := range catalogue.Machine(l) {
			b.Low, b.High = b.Nominal, b.Nominal
		}
		l.Ambient.Temperature = launcher.Exact("", 293.15)
		l.Ambient.Coldest, l.Ambient.Hottest = l.Ambient.Temperature, l.Ambient.Temperature
		l.Supply.DeadHead = launcher.Exact("", gauge)
		f := &logFit{l: l, a: &Answer{Target: 5000}, start: gauge, length: want * tau,
			runs: [][]vent.LogReading{{{Time: 0, Gauge: 0}, {Time: (1 - misses) * want * tau, Gauge: 1e9}}}}
		require.NoError(t, f.above())
		assert.GreaterOrEqual(t, f.overBy, 5000*(1-1e-3), "from %g Pa", gauge)
	}
}
