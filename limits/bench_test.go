package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func cycles(first float64, steps ...float64) []float64 {
	out := []float64{first}
	for _, s := range steps {
		out = append(out, first+s)
	}
	return out
}

// The band of readings is reckoned by hand: lowest less the gauge's error to
// highest plus it.
func TestBenchCyclesReplaceTheSwitchBands(t *testing.T) {
	l := plain(orderly, func(l *Launcher) { l.Switch.GaugeError = between("gauge_error", -0.02*bars, 0.02*bars) })
	l.ApplyBench(BenchSpec{GaugeError: Exact("bench.gauge_error", 0.005*bars),
		CutOuts: cycles(0.40*bars, 1000, 0, 500, 0, 1000, 0, 0, 500, 0),
		CutIns:  cycles(0.30*bars, 0, 500)}) // three are too few
	assert.InDelta(t, 0.395*bars, l.Switch.CutOut.Low, 1e-6*bars) // rounding of decimal fractions
	assert.InDelta(t, 0.415*bars, l.Switch.CutOut.High, 1e-6*bars)
	assert.Equal(t, Measured, l.Switch.CutOut.Origin)
	assert.InDelta(t, 0.32*bars, l.Switch.CutIn.High, 1e-6*bars, "too few readings leave the band")
	assert.Zero(t, l.Switch.GaugeError.High, "the gauge it was set by no longer counts")
	require.Len(t, l.Bench.Replaced, 2)
	assert.InDelta(t, 0.42*bars, l.Bench.Replaced[0].Before.High, 1e-6*bars)
}

// The measured steady pressure takes the place of the full-flow pressure at the
// top of its tolerance, and moves with the valve.
func TestBenchSteadyPressureIsTheOvercharge(t *testing.T) {
	l := plain(orderly)
	require.InDelta(t, 0.75*bars, l.Overcharge().Pressure, 1e-6*bars)
	l.ApplyBench(BenchSpec{GaugeError: Exact("bench.gauge_error", 0.01*bars), ReliefSteady: []float64{0.61 * bars, 0.62 * bars, 0.61 * bars}})
	assert.InDelta(t, 0.63*bars, l.Overcharge().Pressure, 1e-6*bars)
	i := l.reliefOnSupply()
	l.Paths[i].moveRelief(0.5 * bars) // 0.1 bar lower
	assert.InDelta(t, 0.53*bars, l.Overcharge().Pressure, 1e-6*bars)
	assert.Equal(t, 4*bars, l.overcharge("relief").Pressure, "stuck shut, the test shows nothing")
}

// Fill times computed with a known delivery give it back: FillTime is checked
// against the closed form in supply_test.go. 1e-3: times are read off a trace.
func TestBenchFillGivesTheDeliveryBack(t *testing.T) {
	l := plain(orderly)
	const q = 9 * litreMinute
	l.Supply.FreeAir = between("supply.free_air", 6*litreMinute, 14*litreMinute)
	truth := l.Clone()
	truth.Supply.FreeAir = Exact("supply.free_air", q)
	c := circuitOf(truth)
	time := FillTime(c, 0, []float64{0}, 0.4*bars)
	l.ApplyBench(BenchSpec{GaugeError: Exact("e", 0), FillVolume: Exact("v", 2e-3), FillTo: Exact("to", 0.4*bars), FillTimes: []float64{time, time, time}})
	assert.InEpsilon(t, q, l.Supply.FreeAir.Nominal, 1e-3)
	assert.Less(t, l.Supply.FreeAir.Width(), 1e-9)
	// Readings with errors give a band that has the truth inside.
	l.ApplyBench(BenchSpec{GaugeError: Exact("e", 0.01*bars), FillVolume: between("v", 1.96e-3, 2.04e-3), FillTo: Exact("to", 0.4*bars),
		FillTimes: []float64{0.98 * time, time, 1.02 * time}})
	assert.Less(t, l.Supply.FreeAir.Low, q)
	assert.Greater(t, l.Supply.FreeAir.High, q)
}

// A narrower switch lets the cut-out rise, by what the bands gave up.
func TestBenchTellsHowFarItMovedTheAnswer(t *testing.T) {
	l := plain(orderly)
	caps := pressureCaps{energy: 2 * bars, rating: 5 * bars, blocked: 5 * bars}
	before := l.solveChain(caps).cutOut
	l.ApplyBench(BenchSpec{GaugeError: Exact("e", 0), CutOuts: cycles(0.40*bars, 0, 0, 0, 0, 0, 0, 0, 0, 0)})
	after := l.solveChain(caps).cutOut
	s := &solver{l: l, caps: caps, chain: l.solveChain(caps), out: Setpoint{Works: true}}
	s.bench()
	require.NotNil(t, s.out.BenchMoved)
	assert.InDelta(t, after-before, *s.out.BenchMoved, 1e-6*bars)
	assert.InEpsilon(t, 0.55*bars, after, 1e-5, "the low end of the relief valve is all that is left")
	assert.Greater(t, after, before)
}
