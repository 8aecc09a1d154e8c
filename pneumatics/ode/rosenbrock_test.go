package ode

import (
	"math"
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
