package setpoint

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
)

func BenchmarkSetpoint(b *testing.B) {
	for name, l := range map[string]*launcher.Launcher{"whale": sample.Whale(), "rocket": sample.Rocket()} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				_, err := Find(context.Background(), l, Options{})
				require.NoError(b, err)
			}
		})
	}
}

// The measured steady pressure takes the place of the full-flow pressure at the
// top of its tolerance, at the setting it was read at and at no other.
func TestBenchSteadyPressureIsTheOvercharge(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	i := l.ReliefOnSupply()
	require.InDelta(t, 0.75*sample.Bars, l.Overcharge().Pressure, 1e-6*sample.Bars)
	lower := l.Clone()
	MoveRelief(&lower.Paths[i], 0.5*sample.Bars)
	measure.ApplyBench(l, launcher.BenchSpec{GaugeError: launcher.Exact("bench.gauge_error", 0.01*sample.Bars),
		ReliefSteady: []float64{0.61 * sample.Bars, 0.62 * sample.Bars, 0.61 * sample.Bars}})
	assert.InDelta(t, 0.64*sample.Bars, l.Overcharge().Pressure, 1e-6*sample.Bars) // 0.62 + 0.01 + half of 0.02
	MoveRelief(&l.Paths[i], 0.5*sample.Bars)
	assert.Equal(t, lower.Overcharge().Pressure, l.Overcharge().Pressure, "moved, it counts as if nothing had been read")
	assert.Equal(t, 4*sample.Bars, l.OverchargeWith("relief").Pressure, "stuck shut, the test shows nothing")
}

// A narrower switch lets the cut-out rise, by what the bands gave up.
func TestBenchTellsHowFarItMovedTheAnswer(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	caps := pressureCaps{energy: 2 * sample.Bars, rating: 5 * sample.Bars, blocked: 5 * sample.Bars}
	before := solveChain(l, caps).cutOut
	measure.ApplyBench(l, launcher.BenchSpec{GaugeError: launcher.Exact("e", 0.002*sample.Bars), CutOuts: cycles(0.40*sample.Bars, 0, 0, 0, 0,
		0, 0, 0, 0, 0)})
	after := solveChain(l, caps).cutOut
	s := &solver{l: l, caps: caps, chain: solveChain(l, caps), out: Answer{Works: true}}
	s.bench()
	require.NotNil(t, s.out.BenchMoved)
	assert.InDelta(t, after-before, *s.out.BenchMoved, 1e-6*sample.Bars)
	// The readings scatter by nothing, the gauge errs by 0.002 bar and shows half a mark, 0.01 bar: that is all
	// the band has left below the low end of the relief valve.
	assert.InEpsilon(t, 0.55*sample.Bars/(1+0.012/0.40), after, 1e-5)
	assert.Greater(t, after, before)
}

func cycles(first float64, steps ...float64) []float64 {
	out := []float64{first}
	for _, s := range steps {
		out = append(out, first+s)
	}
	return out
}
