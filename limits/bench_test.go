package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/setpoint"
	"puffproof/limits/verdict"
)

// Readings that lie outside of what the design states, even with the gauge's error,
// contradict it: both count, and nothing that rests on them is known.
func TestBenchThatContradictsTheDesign(t *testing.T) {
	at := func(p float64) []float64 { return cycles(p, 0, 0, 0, 0, 0, 0, 0, 0, 0) }
	stated := func(l *launcher.Launcher) {
		l.Switch.CutOut = sample.Between("pressure_switch.cut_out", 0.38*sample.Bars, 0.42*sample.Bars)
	}
	low := sample.Plain(sample.Orderly, stated)
	measure.ApplyBench(low, launcher.BenchSpec{GaugeError: launcher.Exact("e", 0), CutOuts: at(0.30 * sample.Bars)})
	require.Len(t, low.Bench.Clashes, 1)
	assert.InDelta(t, 0.42*sample.Bars, low.Switch.CutOut.High, 1, "the stated end stays")
	assert.Less(t, low.Switch.CutOut.Low, 0.30*sample.Bars)
	s, err := setpoint.Find(assessed.Glimpse(), low, setpoint.Options{})
	require.NoError(t, err)
	assert.Contains(t, s.Unknown.String(), "one of the two is wrong")
	assert.Equal(t, finding.Fail, verdict.Of(assessed.Stated(t, low), finding.LadderOrder).Status, "the cut-out may now lie below the cut-in")

	// One reading far outside is no outlier to be left out, and readings too wide or a
	// gauge too coarse teach nothing: the band stays, and so does the gauge's error.
	one := sample.Plain(sample.Orderly, stated)
	measure.ApplyBench(one, launcher.BenchSpec{GaugeError: launcher.Exact("e", 0), CutOuts: cycles(0.40*sample.Bars, 0, 0, 0, 0, 0, 0, 0, 0,
		1.1*sample.Bars)})
	require.Len(t, one.Bench.Clashes, 1)
	assert.GreaterOrEqual(t, one.Switch.CutOut.High, 1.5*sample.Bars)
	coarse := sample.Plain(sample.Orderly, stated, func(l *launcher.Launcher) {
		l.Switch.GaugeError = sample.Between("gauge_error", -0.02*sample.Bars, 0.02*sample.Bars)
	})
	measure.ApplyBench(coarse, launcher.BenchSpec{GaugeError: launcher.Exact("e", 0.2*sample.Bars), CutOuts: at(0.40 * sample.Bars)})
	assert.Empty(t, coarse.Bench.Clashes)
	assert.Empty(t, coarse.Bench.Replaced)
	assert.Equal(t, 0.02*sample.Bars, coarse.Switch.GaugeError.High)

	steady := sample.Plain(sample.Orderly)
	before := steady.Overcharge().Pressure
	measure.ApplyBench(steady, launcher.BenchSpec{GaugeError: launcher.Exact("e", 0), ReliefSteady: []float64{0.1 * sample.Bars,
		0.1 * sample.Bars,
		0.1 * sample.Bars}})
	require.Len(t, steady.Bench.Clashes, 1, "below the set pressure no relief valve opens")
	assert.Equal(t, before, steady.Overcharge().Pressure)

	slow := sample.Plain(sample.Orderly)
	slow.Supply.FreeAir = sample.Between("supply.free_air", 9*sample.LitreMinute, 11*sample.LitreMinute)
	measure.ApplyBench(slow, launcher.BenchSpec{GaugeError: launcher.Exact("e", 0), FillVolume: launcher.Exact("v", 2e-3),
		FillTo: launcher.Exact("to", 0.4*sample.Bars), FillTimes: []float64{60, 60, 60}})
	require.Len(t, slow.Bench.Clashes, 1)
	assert.GreaterOrEqual(t, slow.Supply.FreeAir.High, 11*sample.LitreMinute, "the stronger one still counts")
}
