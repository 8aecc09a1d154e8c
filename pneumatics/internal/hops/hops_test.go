package hops

import (
	"cmp"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rests are the fewest that a leap is foretold from: three hops.
const rests = 4

func always(int) bool { return true }

// TestCubic: where what a hop changes lies on a parabola, Newton's divided differences foretell it exactly, so the rests on a cubic.
// What bounds the leap then is the count, the way, the bend, or the caller.
func TestCubic(t *testing.T) {
	at := func(n int) float64 { x := float64(n); return 1000 + 0.3*x - 1e-3*x*x + 1e-6*x*x*x }
	var s Series
	for n := range rests {
		assert.Zero(t, s.Reach([]float64{1}, always), "%d rests are too few", n)
		s.Add([]float64{at(n)}, float64(2*n))
	}
	n := s.Reach([]float64{1}, always)
	require.Equal(t, most, n)
	// 1e-7: rounding of 1000 in three differences, times the cube of the hops.
	assert.InDelta(t, at(rests-1+n), s.At(0, n), 1e-7)
	assert.Equal(t, float64(2*(rests-1+n)), s.At(1, n), "what grows evenly")
	assert.Equal(t, []float64{s.At(0, n)}, s.State(1, n))
	assert.Equal(t, 9, s.Reach([]float64{1}, func(n int) bool { return n < 10 }))
	assert.Zero(t, s.Reach([]float64{1}, func(n int) bool { return n < least }), "fewer do not pay")

	// From where a leap came down it goes on over unequal distances.
	s.Leap(n)
	assert.Zero(t, s.Reach([]float64{1}, always), "before it has settled")
	here := rests - 1 + n
	s.Add([]float64{at(here + 1)}, 0)
	assert.Zero(t, s.Reach([]float64{1}, always), "before it has settled")
	s.Add([]float64{at(here + 2)}, 0)
	require.Positive(t, s.Reach([]float64{1}, always))
	assert.InDelta(t, at(here+2+50), s.At(0, 50), 1e-7)
	s.Clear()
	assert.Zero(t, s.Reach([]float64{1}, always))
}

// TestDecay: where each hop is shorter than the last by a part q, the rests are a geometric series, whose sum is known. Leaps keep within
// the error that is allowed each, and with a faster decay the first is shorter.
func TestDecay(t *testing.T) {
	before := most + 1
	for _, q := range []float64{0.002, 0.02} {
		at := func(n int) float64 { return (1 - math.Pow(1-q, float64(n))) / q * 1e-3 }
		var s Series
		n, first := 0, 0
		for ; n < 300; n++ {
			s.Add([]float64{at(n)})
			leap := s.Reach([]float64{0.1}, always)
			if leap == 0 {
				continue
			}
			first = cmp.Or(first, leap)
			assert.LessOrEqual(t, math.Abs(s.At(0, leap)-at(n+leap)), allowed*(0.1+at(n)), "q = %g, %d hops from %d", q, leap, n)
			s.Leap(leap)
			n += leap
		}
		assert.Less(t, first, before)
		before = first
	}
}

// TestToAndFro: a component that goes to and fro is not foretold, and one that turns round is followed on its way back.
func TestToAndFro(t *testing.T) {
	var s Series
	for _, y := range []float64{0, 1, 0, 1, 0, 1} {
		s.Add([]float64{y})
		assert.Zero(t, s.Reach([]float64{0.1}, always))
	}
}
