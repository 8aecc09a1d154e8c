package ode

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Both halves of the additive method have one set of nodes and weights, and meet the
// conditions of order 4, of every coupling of the two, and the embedded weights those of
// order 3 (Hairer, Nørsett and Wanner, II.2; for pairs of methods II.15). 1e-14: digits.
func TestAdditiveConditions(t *testing.T) {
	implicit := additiveImplicit
	for i := 1; i < additiveStages; i++ {
		implicit[i][i] = additiveGamma
	}
	halves := [][additiveStages][additiveStages]float64{additiveExplicit, implicit}
	nodes := additiveNodes[:]
	powers := func(n int) []float64 {
		p := make([]float64, additiveStages)
		for i, c := range nodes {
			p[i] = math.Pow(c, float64(n))
		}
		return p
	}
	through := func(a [additiveStages][additiveStages]float64, v []float64) []float64 {
		out := make([]float64, additiveStages)
		for i := range out {
			out[i] = dot(a[i][:], v)
		}
		return out
	}
	for _, w := range [][]float64{additiveWeights[:], additiveEmbedded[:]} {
		for n, want := range []float64{1, 1.0 / 2, 1.0 / 3} {
			assert.InDelta(t, want, dot(w, powers(n)), 1e-14)
		}
		for _, a := range halves {
			assert.InDelta(t, 1.0/6, dot(w, through(a, nodes)), 1e-14)
		}
	}
	w := additiveWeights[:]
	assert.InDelta(t, 1.0/4, dot(w, powers(3)), 1e-14)
	for _, a := range halves {
		for i, sum := range through(a, powers(0)) {
			assert.InDelta(t, nodes[i], sum, 1e-14)
		}
		once := through(a, nodes)
		assert.InDelta(t, 1.0/12, dot(w, through(a, powers(2))), 1e-14)
		for i := range once {
			once[i] *= nodes[i]
		}
		assert.InDelta(t, 1.0/8, dot(w, once), 1e-14)
		for _, b := range halves {
			assert.InDelta(t, 1.0/24, dot(w, through(b, through(a, nodes))), 1e-14)
		}
	}
}

// The additive method has order 4 with any matrix, here that of the second component, and a
// third of it: the error falls by 16 when the step is halved. Closed form: y = exp(sin t),
// z = 1/(1+t).
func TestAdditiveOrder(t *testing.T) {
	miss := func(share float64, steps int) float64 {
		s := New(2, 0)
		h := 1 / float64(steps)
		s.Start(problem{func(t float64, y, d []float64) {
			d[0] = y[0] * math.Cos(t)
			d[1] = -y[1] * y[1]
		}}, 0, []float64{1, 1}, nil, Settings{Tolerance: 0.1})
		s.add.rows, s.add.columns, s.add.matrix = []int{1}, []int{1}, []float64{0}
		for range steps {
			s.evaluate()
			s.add.matrix[0] = -2 * s.y[1] * share
			s.additiveTrial(h)
			s.t += h
			copy(s.y, s.next)
			s.derivative = false
		}
		return max(math.Abs(s.y[0]-math.Exp(math.Sin(1))), math.Abs(s.y[1]-0.5))
	}
	for _, share := range []float64{1, 1.0 / 3} {
		assert.InDelta(t, 16, miss(share, 20)/miss(share, 40), 3) // what the next order adds at these steps
		assert.Less(t, miss(share, 40), 1e-6)
	}
}

// Beside undamped waves two components follow them 1000 times as fast: they, and no more
// than two others, are taken alone implicitly, in steps several times as long as the explicit method's, and
// the result is that of the standing wave, cos(omega t), omega = 2 sqrt(k) sin(pi/13). 2e-5: twice
// the tolerance, over one radian. A sum that the system keeps stays to rounding.
func TestFewFastComponents(t *testing.T) {
	const to, fast = 0.02, 1e5
	f := chain(fast)
	s := New(26, 0)
	s.Start(problem{func(t float64, y, d []float64) {
		f(t, y, d)
		d[25] = -d[24] // what one has the other has not
	}}, 0, append(standing(), 1), nil, Settings{Tolerance: 1e-5, Scale: slices.Repeat([]float64{1}, 26), Waves: true})
	s.StiffSoon()
	require.Equal(t, Reached, s.Advance(to))
	omega := 2 * 100 * math.Sin(math.Pi/13)
	assert.InDelta(t, math.Sin(2*math.Pi/13)*math.Cos(omega*to), s.State()[0], 2e-5)
	assert.InDelta(t, s.State()[0], s.State()[24], 1e-3) // it lags by a speed of at most 50 over fast
	assert.InDelta(t, 1, s.State()[24]+s.State()[25], 1e-14)
	assert.True(t, s.add.on)
	assert.Subset(t, s.add.rows, []int{24, 25})
	assert.LessOrEqual(t, len(s.add.rows), 4)
	assert.Less(t, float64(s.Steps()), to*fast/stabilityLimit/4)
}

// Undamped waves do not die down: each time the implicit method is tried, its steps are not as much longer as they cost more, the
// additive one goes on soon, and less is tried. So a step takes little more than the additive method's six evaluations and its matrix,
// where those of the implicit method take 32, and the result is as in TestFewFastComponents; 2e-4: the tolerance over 20 radians.
func TestTrialsThatDoNotPayGetRare(t *testing.T) {
	const to, fast = 0.4, 1e5
	f := chain(fast)
	s := New(25, 0)
	s.Start(problem{f}, 0, standing(), nil, Settings{Tolerance: 1e-5, Scale: slices.Repeat([]float64{1}, 25), Waves: true})
	s.StiffSoon()
	require.Equal(t, Reached, s.Advance(to))
	omega := 2 * 100 * math.Sin(math.Pi/13)
	assert.InDelta(t, math.Sin(2*math.Pi/13)*math.Cos(omega*to), s.State()[0], 2e-4)
	t.Logf("%d steps, %d rejected, %d evaluations", s.Steps(), s.Rejected(), s.Evaluations())
	assert.Less(t, s.Evaluations(), 14*(s.Steps()+s.Rejected()))
}

// More components than the additive method takes are left to the implicit one.
func TestManyFastComponents(t *testing.T) {
	s := New(40, 0)
	s.Start(problem{func(t float64, y, d []float64) {
		for i := range y {
			rate := 1.0
			if i < 12 {
				rate = 1e5
			}
			d[i] = -rate * (y[i] - math.Cos(t))
		}
	}}, 0, make([]float64, 40), nil, Settings{Tolerance: 1e-5, Scale: slices.Repeat([]float64{1}, 40), Waves: true})
	s.StiffSoon()
	require.Equal(t, Reached, s.Advance(2))
	assert.False(t, s.add.on)
	assert.True(t, s.stiff.implicit)
	assert.InDelta(t, math.Cos(2), s.State()[0], 1e-4) // it lags by 1e-5
}

// Loosely the rest of a run takes fewer steps and is off by more, by no more than ten times the tolerance; the next run is exact again.
func TestTheRestOfARunMayBeLoose(t *testing.T) {
	s := New(2, 0)
	run := func(looseness float64) (steps int, miss float64) {
		s.Start(problem{func(_ float64, y, d []float64) { d[0], d[1] = y[1], -y[0] }}, 0, []float64{0, 1}, nil,
			Settings{Tolerance: 1e-6, Scale: []float64{1, 1}, Waves: true})
		s.Loosen(looseness)
		require.Equal(t, Reached, s.Advance(20*math.Pi))
		return s.Steps(), math.Hypot(s.State()[0], s.State()[1]-1)
	}
	steps, miss := run(1)
	loosely, missed := run(10)
	assert.Less(t, loosely, steps*4/5) // of order 8: 10 to the eighth root is 1.33
	assert.Greater(t, missed, 2*miss)
	assert.Less(t, missed, 20*math.Pi*1e-5, "a tolerance a radian")
	again, _ := run(1)
	assert.Equal(t, steps, again)
}
