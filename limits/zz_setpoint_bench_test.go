package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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
