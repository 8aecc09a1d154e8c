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

// The band of readings is reckoned by hand: the mean, plus and minus the one-sided
// factor for ten readings at 95 % confidence and 99 % coverage, 3.981 (Montgomery and
// Runger, table XII), times the standard deviation, widened by the gauge's error and half of
// what it resolves (the launcher has no gauge: 0.02 bar counts).
func TestBenchCyclesReplaceTheSwitchBands(t *testing.T) {
	l := plain(orderly, func(l *Launcher) {
		l.Switch.GaugeError = between("gauge_error", -0.02*bars, 0.02*bars)
		l.Switch.CutOut = between("pressure_switch.cut_out", 0.30*bars, 0.50*bars)
	})
	// Mean 0.4030 bar, standard deviation 421.637 Pa.
	l.ApplyBench(BenchSpec{GaugeError: Exact("bench.gauge_error", 0.005*bars),
		CutOuts: cycles(0.40*bars, 1000, 0, 500, 0, 1000, 0, 0, 500, 0),
		CutIns:  cycles(0.30*bars, 0, 500)}) // three are too few
	const spread = 3.981 * 421.637
	assert.InDelta(t, 40300-spread-1500, l.Switch.CutOut.Low, 0.5) // the digits of factor and deviation
	assert.InDelta(t, 40300+spread+1500, l.Switch.CutOut.High, 0.5)
	assert.Equal(t, Measured, l.Switch.CutOut.Origin)
	assert.InDelta(t, 0.32*bars, l.Switch.CutIn.High, 1e-6*bars, "too few readings leave the band")
	assert.Zero(t, l.Switch.GaugeError.High, "the gauge it was set by no longer counts")
	require.Len(t, l.Bench.Replaced, 2)
	assert.InDelta(t, 0.50*bars, l.Bench.Replaced[0].Before.High, 1e-6*bars)
	assert.Empty(t, l.Bench.Clashes)
}

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
	v := verdict(t, check(t, low), "ladder.order")
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

// The measured steady pressure takes the place of the full-flow pressure at the
// top of its tolerance, at the setting it was read at and at no other.
func TestBenchSteadyPressureIsTheOvercharge(t *testing.T) {
	l := plain(orderly)
	i := l.reliefOnSupply()
	require.InDelta(t, 0.75*bars, l.Overcharge().Pressure, 1e-6*bars)
	lower := l.Clone()
	lower.Paths[i].moveRelief(0.5 * bars)
	l.ApplyBench(BenchSpec{GaugeError: Exact("bench.gauge_error", 0.01*bars), ReliefSteady: []float64{0.61 * bars, 0.62 * bars, 0.61 * bars}})
	assert.InDelta(t, 0.64*bars, l.Overcharge().Pressure, 1e-6*bars) // 0.62 + 0.01 + half of 0.02
	l.Paths[i].moveRelief(0.5 * bars)
	assert.Equal(t, lower.Overcharge().Pressure, l.Overcharge().Pressure, "moved, it counts as if nothing had been read")
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
	assert.Less(t, l.Supply.FreeAir.Width(), 0.08*q, "half a mark of 0.02 bar at both ends of 0.40 bar is 5 %, and counts for more as the delivery falls")
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
	// The readings scatter by nothing, the gauge shows half a mark, 0.01 bar: that is all
	// the band has left below the low end of the relief valve.
	assert.InEpsilon(t, 0.55*bars/(1+0.01/0.40), after, 1e-5)
	assert.Greater(t, after, before)
}
