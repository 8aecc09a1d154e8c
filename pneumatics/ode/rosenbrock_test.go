package ode

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rodasError integrates y' = f to 1 with equal implicit steps.
func rodasError(t *testing.T, f func(t float64, y, d []float64), y0, want []float64, steps int) float64 {
	t.Helper()
	s := New(len(y0), 0)
	s.Start(problem{f}, 0, y0, nil, Settings{Tolerance: 0.1, FirstStep: 1 / float64(steps)})
	h := 1 / float64(steps)
	for range steps {
		s.h = h
		s.evaluate()
		s.jacobian()
		require.True(t, s.factorise(h))
		s.rodas(h)
		s.t += h
		copy(s.y, s.next)
		s.derivative = false
	}
	worst := 0.0
	for i, w := range want {
		worst = max(worst, math.Abs(s.y[i]-w))
	}
	return worst
}

// RODAS has order 4 on a problem that depends on time, nonlinearly: the error
// falls by 16 when the step is halved. Closed form: y = exp(sin t), z = 1/(1+t).
func TestRodasOrder(t *testing.T) {
	f := func(t float64, y, d []float64) {
		d[0] = y[0] * math.Cos(t)
		d[1] = -y[1] * y[1]
	}
	want := []float64{math.Exp(math.Sin(1)), 0.5}
	ratio := rodasError(t, f, []float64{1, 1}, want, 20) / rodasError(t, f, []float64{1, 1}, want, 40)
	// The coefficients' digits and the difference Jacobian leave the ratio near 16.
	assert.InDelta(t, 16, ratio, 3)
	assert.Less(t, rodasError(t, f, []float64{1, 1}, want, 40), 1e-7)
}

// Robertson's chemical kinetics, stiff. Source: Hairer and Wanner, section
// IV.10; the values at t = 40 from memory, to be had from any stiff solver
// (SciPy's Radau at 1e-12 gives the same digits).
func TestRobertson(t *testing.T) {
	f := func(_ float64, y, d []float64) {
		d[0] = -0.04*y[0] + 1e4*y[1]*y[2]
		d[2] = 3e7 * y[1] * y[1]
		d[1] = -d[0] - d[2]
	}
	s := New(3, 0)
	s.Start(problem{f}, 0, []float64{1, 0, 0}, nil, Settings{Tolerance: 1e-7, Scale: []float64{1e-3, 1e-6, 1e-3}})
	require.Equal(t, Reached, s.Advance(40))
	for i, want := range []float64{0.7158270687, 9.185534765e-6, 0.2841637457} {
		assert.InEpsilon(t, want, s.State()[i], 1e-6, "component %d: ten times the tolerance per step", i)
	}
	assert.Less(t, s.Evaluations(), 10000, "the implicit method has taken over: the explicit one needs more than 50000")
}

// A stiff stretch inside a run keeps quadratures and events: y relaxes to
// cos(t) at rate 1e5; the quadrature of y and the first zero follow.
func TestStiffStretchWithEventAndQuadrature(t *testing.T) {
	w := watched{
		problem{func(t float64, y, d []float64) {
			d[0] = -1e5*(y[0]-math.Cos(t)) - math.Sin(t)
			d[1] = y[0]
		}},
		func(_ float64, y, _, g []float64) { g[0] = y[0] },
	}
	s := New(2, 1)
	s.Start(w, 0, []float64{1, 0}, []Direction{Falling}, Settings{Tolerance: 1e-8, Scale: []float64{1, 1}, Controlled: 1})
	require.Equal(t, Happened, s.Advance(10))
	assert.True(t, s.stiff.implicit)
	assert.InDelta(t, math.Pi/2, s.Time(), 1e-6, "cubic dense output over steps of a few hundredths")
	assert.InDelta(t, 1, s.State()[1], 1e-6, "the integral of cos to pi/2")
}

// chain is a row of masses between springs, without damping, whose first one also drives a
// component that decays fast.
func chain(stiff float64) func(t float64, y, d []float64) {
	const n, spring = 12, 1e4
	return func(_ float64, y, d []float64) {
		for i := range n {
			force := -2 * y[2*i]
			if i > 0 {
				force += y[2*i-2]
			}
			if i < n-1 {
				force += y[2*i+2]
			}
			d[2*i], d[2*i+1] = y[2*i+1], spring*force
		}
		d[2*n] = -stiff * (y[2*n] - y[0])
	}
}

// standing is the chain's second mode at time 0, at rest.
func standing() []float64 {
	y := make([]float64, 25)
	for i := range 12 {
		y[2*i] = math.Sin(2 * math.Pi * float64(i+1) / 13)
	}
	return y
}

// runChain integrates to a time and gives the first mass's place and the calls.
func runChain(t *testing.T, stiff float64, set Settings, to float64) (*Solver, float64) {
	t.Helper()
	set.Tolerance = 1e-7
	set.Scale = slices.Repeat([]float64{1}, 25)
	s := New(25, 0)
	s.Start(problem{chain(stiff)}, 0, standing(), nil, set)
	require.Equal(t, Reached, s.Advance(to))
	return s, s.State()[0]
}

// In any order of elimination the implicit method gives the same, up to rounding, which
// may change a step: 1e-9 at a tolerance of 1e-7.
func TestOrderOfEliminationDoesNotMatter(t *testing.T) {
	plain, want := runChain(t, 2e4, Settings{}, 0.05)
	assert.True(t, plain.stiff.implicit)
	backwards := make([]int, 25)
	for i := range backwards {
		backwards[i] = 24 - i
	}
	for _, order := range [][]int{backwards, {24, 0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23}} {
		sparse, got := runChain(t, 2e4, Settings{Order: order}, 0.05)
		assert.InDelta(t, want, got, 1e-9)
		assert.InDelta(t, plain.Evaluations(), sparse.Evaluations(), 0.02*float64(plain.Evaluations()))
	}
}

// Where waves bound the implicit method's steps to little more than the explicit one's, a
// system that says it has waves is integrated explicitly: half of the calls at most, and the same
// result, which is that of a standing wave: cos(omega t), omega = 2 sqrt(k) sin(pi/13). 1e-5: the
// tolerance over 30 radians.
func TestWavesAreIntegratedExplicitly(t *testing.T) {
	const to = 0.6
	omega := 2 * 100 * math.Sin(math.Pi/13)
	plain, a := runChain(t, 3e3, Settings{}, to)
	waves, b := runChain(t, 3e3, Settings{Waves: true}, to)
	for _, got := range []float64{a, b} {
		assert.InDelta(t, math.Sin(2*math.Pi/13)*math.Cos(omega*to), got, 1e-5)
	}
	t.Logf("calls: %d, with waves %d", plain.Evaluations(), waves.Evaluations())
	assert.Less(t, 2*waves.Evaluations(), plain.Evaluations())
}

// Waves that die down to nothing leave steps bound by what is slow. Three oscillators, as a hose's pressure and flow have them, follow a
// slow pressure: closed forms y = exp(-t/100), and each a = y but for what damping and drift over frequency are, 2e-7 at most.
func TestWavesThatDieDownBindNoSteps(t *testing.T) {
	omega := []float64{500, 900, 1500}
	f := func(_ float64, y, d []float64) {
		d[0] = -y[0] / 100
		for i, w := range omega {
			a, b := 1+2*i, 2+2*i
			d[a] = w * y[b]
			d[b] = -w*(y[a]-y[0]) - 20*y[b]
		}
	}
	s := New(7, 0)
	s.Start(problem{f}, 0, []float64{1, 0.9, 0, 1.1, 0, 1, 0.1}, nil, Settings{Tolerance: 1e-6, Scale: slices.Repeat([]float64{1e-2}, 7),
		Waves: true})
	require.Equal(t, Reached, s.Advance(60))
	y := s.State()
	// Each of some thousand steps may miss by the tolerance, the first explicit ones alone by much less.
	assert.InDelta(t, math.Exp(-0.6), y[0], 1e-5)
	for i := range omega {
		assert.InDelta(t, y[0], y[1+2*i], 1e-5)
	}
	// Bound by its stability for the whole minute the explicit method took 12 evaluations for each 6 of 90,000 radians.
	assert.Less(t, s.Evaluations(), 180000/5)
}
