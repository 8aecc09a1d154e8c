package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Readings that lie outside of what the design states, even with the gauge's error,
// contradict it: both count, and nothing that rests on them is known.
func TestBenchThatContradictsTheDesign(t *testing.T) {
	at := func(p float64) []float64 { return cycles(p, 0, 0, 0, 0, 0, 0, 0, 0, 0) }
	stated := func(l *Launcher) { l.Switch.CutOut = between("pressure_switch.cut_out", 0.38*bars, 0.42*bars) }
	low := plain(orderly, stated)
	low.ApplyBench(BenchSpec{GaugeError: Exact("e", 0), CutOuts: at(0.30 * bars)})
	require.Len(t, low.Bench.Clashes, 1)
	assert.InDelta(t, 0.42*bars, low.Switch.CutOut.High, 1, "the stated end stays")
	assert.Less(t, low.Switch.CutOut.Low, 0.30*bars)
	assert.Contains(t, setpoint(t, low).Unknown, "one of the two is wrong")
	v := verdictOf(t, check(t, low), "ladder.order")
	assert.NotEqual(t, Pass, v.Status)

	// One reading far outside is no outlier to be left out, and readings too wide or a
	// gauge too coarse teach nothing: the band stays, and so does the gauge's error.
	one := plain(orderly, stated)
	one.ApplyBench(BenchSpec{GaugeError: Exact("e", 0), CutOuts: cycles(0.40*bars, 0, 0, 0, 0, 0, 0, 0, 0, 1.1*bars)})
	require.Len(t, one.Bench.Clashes, 1)
	assert.GreaterOrEqual(t, one.Switch.CutOut.High, 1.5*bars)
	coarse := plain(orderly, stated, func(l *Launcher) { l.Switch.GaugeError = between("gauge_error", -0.02*bars, 0.02*bars) })
	coarse.ApplyBench(BenchSpec{GaugeError: Exact("e", 0.2*bars), CutOuts: at(0.40 * bars)})
	assert.Empty(t, coarse.Bench.Clashes)
	assert.Empty(t, coarse.Bench.Replaced)
	assert.Equal(t, 0.02*bars, coarse.Switch.GaugeError.High)

	steady := plain(orderly)
	before := steady.Overcharge().Pressure
	steady.ApplyBench(BenchSpec{GaugeError: Exact("e", 0), ReliefSteady: []float64{0.1 * bars, 0.1 * bars, 0.1 * bars}})
	require.Len(t, steady.Bench.Clashes, 1, "below the set pressure no relief valve opens")
	assert.Equal(t, before, steady.Overcharge().Pressure)

	slow := plain(orderly)
	slow.Supply.FreeAir = between("supply.free_air", 9*litreMinute, 11*litreMinute)
	slow.ApplyBench(BenchSpec{GaugeError: Exact("e", 0), FillVolume: Exact("v", 2e-3), FillTo: Exact("to", 0.4*bars), FillTimes: []float64{60, 60, 60}})
	require.Len(t, slow.Bench.Clashes, 1)
	assert.GreaterOrEqual(t, slow.Supply.FreeAir.High, 11*litreMinute, "the stronger one still counts")
}
