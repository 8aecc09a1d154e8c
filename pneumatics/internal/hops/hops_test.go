package hops

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestParabola: backward differences of the second order foretell a parabola exactly (Newton's formula), so nothing but the count, the
// way and the caller bounds the leap.
func TestParabola(t *testing.T) {
	at := func(n int) float64 { x := float64(n); return 1000 + 0.3*x - 1e-3*x*x }
	var s Series
	any := func(int) bool { return true }
	for n := range kept {
		assert.Zero(t, s.Reach([]float64{1}, any), "%d rests are too few", n)
		s.Add([]float64{at(n)}, float64(2*n))
	}
	n := s.Reach([]float64{1}, any)
	require.Equal(t, most, n)
	assert.InDelta(t, at(kept-1+n), s.At(0, n), 1e-9, "rounding of 1000, times the square of the hops")
	assert.Equal(t, float64(2*(kept-1+n)), s.At(1, n), "what grows evenly")
	assert.Equal(t, []float64{s.At(0, n)}, s.State(1, n))
	assert.Equal(t, 9, s.Reach([]float64{1}, func(n int) bool { return n < 10 }))
	assert.Zero(t, s.Reach([]float64{1}, func(n int) bool { return n < least }), "fewer do not pay")
	s.Clear()
	assert.Zero(t, s.Reach([]float64{1}, any))
}

// TestDecay: where each hop is shorter than the last by a part q, the rests are a geometric series, whose sum is known. A leap keeps
// within the error that is allowed, and with a faster decay is shorter.
func TestDecay(t *testing.T) {
	last := most
	for _, q := range []float64{0.002, 0.02, 0.2} {
		at := func(n int) float64 { return (1 - math.Pow(1-q, float64(n))) / q * 0.01 }
		var s Series
		for n := range kept {
			s.Add([]float64{at(n)})
		}
		n := s.Reach([]float64{0.1}, func(int) bool { return true })
		require.LessOrEqual(t, n, last)
		last = n
		if n == 0 {
			continue
		}
		// The error of the formula is n(n+1)(n+2)/6 times a third difference between here and there (Newton's remainder); here they fall.
		assert.LessOrEqual(t, math.Abs(s.At(0, n)-at(kept-1+n)), allowed*(0.1+at(kept-1)), "q = %g, %d hops", q, n)
	}
	assert.Less(t, last, most, "the fastest decay shortens the leap")
}

// TestToAndFro: a component that goes to and fro is not foretold.
func TestToAndFro(t *testing.T) {
	var s Series
	for _, y := range []float64{0, 1, 0, 1} {
		s.Add([]float64{y})
	}
	assert.Zero(t, s.Reach([]float64{0.1}, func(int) bool { return true }))
}
