package ode

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type problem struct {
	f func(t float64, y, d []float64)
}

func (p problem) Derivatives(t float64, y, d []float64) { p.f(t, y, d) }

func solve(t *testing.T, f func(t float64, y, d []float64), from, to float64, y []float64, tol float64) *Solver {
	t.Helper()
	s := New(len(y), 0)
	scale := make([]float64, len(y))
	for i := range scale {
		scale[i] = 1e-3
	}
	s.Start(problem{f}, from, y, nil, Settings{Tolerance: tol, Scale: scale, MaxSteps: 1e6})
	require.Equal(t, Reached, s.Advance(to))
	return s
}

// The order conditions that a pair of order 8 must meet (Hairer, Nørsett,
// Wanner, section II.2: quadrature conditions, row sums).
func TestTableauIdentities(t *testing.T) {
	for p := 1; p <= 8; p++ {
		var sum float64
		for i, b := range weights {
			sum += b * math.Pow(nodes[i], float64(p-1))
		}
		assert.InDelta(t, 1/float64(p), sum, 4e-16*16, "sum b c^%d; rounding of 12 terms", p-1)
	}
	for i, row := range matrix {
		var sum float64
		for _, a := range row {
			sum += a
		}
		// The rows' terms reach 70, so rounding is 70 times the unit.
		assert.InDelta(t, nodes[i], sum, 2e-13, "row %d sums to its node", i)
	}
	var e5, e3 float64
	for i := range errors5 {
		e5 += errors5[i]
		e3 += errors3[i]
	}
	assert.InDelta(t, 0, e5, 1e-15, "an error estimate does not see a constant")
	assert.InDelta(t, 0, e3, 1e-15, "an error estimate does not see a constant")
}

// The written-out stages are the tableau's: one step of y' = f by both.
func TestStagesMatchTableau(t *testing.T) {
	f := func(t float64, y, d []float64) {
		d[0] = math.Sin(3*t) * y[1]
		d[1] = math.Cos(y[0]) - t
	}
	const h = 0.37
	y0 := []float64{0.4, 1.3}
	s := New(2, 0)
	s.Start(problem{f}, 0.2, y0, nil, Settings{Tolerance: 0.1})
	s.evaluate()
	s.stagesOf(h)
	var k [stages][2]float64
	for i := range stages {
		y := []float64{y0[0], y0[1]}
		for j := range i {
			y[0] += h * matrix[i][j] * k[j][0]
			y[1] += h * matrix[i][j] * k[j][1]
		}
		f(0.2+nodes[i]*h, y, k[i][:])
	}
	for c := range 2 {
		want := y0[c]
		for j, b := range weights {
			want += h * b * k[j][c]
		}
		assert.InDelta(t, want, s.next[c], 1e-15*40, "component %d; rounding", c)
	}
}

// Published end values. Source: T. E. Hull et al., Comparing numerical methods
// for ordinary differential equations (DETEST), SIAM J. Numer. Anal. 9 (1972);
// Arenstorf's orbit from Hairer, Nørsett, Wanner, section II.0.
func TestPublishedProblems(t *testing.T) {
	arenstorf := func(_ float64, y, d []float64) {
		const mu = 0.012277471
		const nu = 1 - mu
		d1 := math.Pow((y[0]+mu)*(y[0]+mu)+y[1]*y[1], 1.5)
		d2 := math.Pow((y[0]-nu)*(y[0]-nu)+y[1]*y[1], 1.5)
		d[0], d[1] = y[2], y[3]
		d[2] = y[0] + 2*y[3] - nu*(y[0]+mu)/d1 - mu*(y[0]-nu)/d2
		d[3] = y[1] - 2*y[2] - nu*y[1]/d1 - mu*y[1]/d2
	}
	kepler := func(_ float64, y, d []float64) {
		r := math.Pow(y[0]*y[0]+y[1]*y[1], 1.5)
		d[0], d[1], d[2], d[3] = y[2], y[3], -y[0]/r, -y[1]/r
	}
	const e = 0.9
	cases := []struct {
		name string
		f    func(t float64, y, d []float64)
		end  float64
		y    []float64
		want []float64
		tol  float64 // allowed error, from the problem's own growth of errors at 1e-13 a step
	}{
		{"A1 y' = -y", func(_ float64, y, d []float64) { d[0] = -y[0] }, 20, []float64{1}, []float64{math.Exp(-20)}, 1e-15},
		{"A3 y' = y cos t", func(t float64, y, d []float64) { d[0] = y[0] * math.Cos(t) }, 20, []float64{1}, []float64{2.491650271850414},
			1e-11},
		{"A4 logistic", func(_ float64, y, d []float64) { d[0] = y[0] / 4 * (1 - y[0]/20) }, 20, []float64{1},
			[]float64{17.73016648131483}, 1e-10},
		{"B1 predator and prey", func(_ float64, y, d []float64) {
			d[0] = 2 * (y[0] - y[0]*y[1])
			d[1] = -(y[1] - y[0]*y[1])
		}, 20, []float64{1, 3}, []float64{0.6761876008576667, 0.1860816099640036}, 1e-10},
		{"D5 Kepler, e = 0.9", kepler, 20, []float64{1 - e, 0, 0, math.Sqrt((1 + e) / (1 - e))},
			[]float64{-1.295266250987574, 0.4003938963792321}, 1e-8},
		{"E2 van der Pol", func(_ float64, y, d []float64) {
			d[0], d[1] = y[1], (1-y[0]*y[0])*y[1]-y[0]
		}, 20, []float64{2, 0}, []float64{2.008149762174948, -0.04250887527320057}, 1e-10},
		{"Arenstorf's orbit closes", arenstorf, 17.06521656015796, []float64{0.994, 0, 0, -2.00158510637908252240537862224},
			[]float64{0.994, 0}, 1e-6},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := solve(t, c.f, 0, c.end, c.y, 1e-13)
			for i, w := range c.want {
				assert.InDelta(t, w, s.State()[i], c.tol*max(1, math.Abs(w)))
			}
		})
	}
}

// DETEST F2: a forcing that jumps at every whole time; each jump ends a step.
// Source: Hull et al. (1972), problem F2. Between the jumps the equation is linear, so
// the end is a closed form: 20 times y to 55/k + (y - 55/k) exp(-k), k = 1.5 and 0.5
// in turn, from 110.
func TestForcingThatJumps(t *testing.T) {
	f := func(even bool) func(float64, []float64, []float64) {
		return func(_ float64, y, d []float64) {
			if even {
				d[0] = 55 - 1.5*y[0]
			} else {
				d[0] = 55 - 0.5*y[0]
			}
		}
	}
	y, exact := []float64{110}, 110.0
	for i := range 20 {
		s := solve(t, f(i%2 == 0), float64(i), float64(i+1), y, 1e-13)
		copy(y, s.State())
		k := []float64{1.5, 0.5}[i%2]
		exact = 55/k + (exact-55/k)*math.Exp(-k)
	}
	assert.InDelta(t, 70.03731057008607, exact, 1e-13, "rounding")
	assert.InDelta(t, exact, y[0], 1e-10)
}

// The global error falls with the tolerance, near to proportionally. It is the
// largest over the run: at a single time the error of either sign may pass zero.
func TestErrorFollowsTolerance(t *testing.T) {
	f := func(t float64, y, d []float64) { d[0] = y[0] * math.Cos(t) }
	last := math.Inf(1)
	for _, tol := range []float64{1e-4, 1e-6, 1e-8, 1e-10, 1e-12} {
		worst := 0.0
		for end := 1.0; end <= 20; end++ {
			got := solve(t, f, 0, end, []float64{1}, tol).State()[0]
			worst = max(worst, math.Abs(got-math.Exp(math.Sin(end))))
		}
		assert.Less(t, worst, last/5, "tolerance %g: a hundredth of the tolerance gives at most a fifth of the error", tol)
		assert.Less(t, worst, 50*tol, "tolerance %g: 50 steps at most add up", tol)
		last = worst
	}
}

type watched struct {
	problem
	events func(t float64, y, d, g []float64)
}

func (w watched) EventValues(t float64, y, d, g []float64) { w.events(t, y, d, g) }
func (w watched) Accepted(float64, []float64)              {}

// A ball that bounces without loss: y” = -1 from height 1/2 meets the ground
// at t = 1, 3, 5, ... The closed form is the reference.
func TestEventsWithDirection(t *testing.T) {
	w := watched{
		problem{func(_ float64, y, d []float64) { d[0], d[1] = y[1], -1 }},
		func(_ float64, y, _, g []float64) { g[0], g[1] = y[0], y[1] },
	}
	s := New(2, 2)
	s.Start(w, 0, []float64{0.5, 0}, []Direction{Falling, Falling}, Settings{Tolerance: 1e-10})
	var ground, top []float64
	for s.Time() < 9.5 {
		switch o := s.Advance(9.5); o {
		case Reached:
		case Happened:
			if s.Event == 0 {
				ground = append(ground, s.Time())
				s.State()[0], s.State()[1] = 0, -s.State()[1]
				s.Restart()
			} else {
				top = append(top, s.Time())
			}
		default:
			t.Fatal(o)
		}
	}
	require.Len(t, ground, 5)
	require.Len(t, top, 4)
	for i := range ground {
		// The state is a polynomial of degree 2, exact up to rounding over five bounces.
		assert.InDelta(t, float64(2*i+1), ground[i], 1e-12)
	}
	for i := range top {
		assert.InDelta(t, float64(2*i+2), top[i], 1e-12)
	}
}

type single struct {
	watched
	sees, asked *int
	matters     bool
}

func (w single) Sees(int) (from, to int) { *w.sees++; return 1, 2 }
func (w single) EventValue(_ int, _ float64, y []float64) float64 {
	*w.asked++
	return y[1] - 0.5
}
func (w single) Matters(int, float64, []float64, []float64, []float64, []float64) bool {
	return w.matters
}

// An event is located to its share of the tolerance in few questions, of the components it sees
// alone; one that does not matter is passed over. sin t passes 1/2 at pi/6.
func TestEventIsFoundQuickly(t *testing.T) {
	sees, asked := 0, 0
	w := single{watched{
		problem{func(t float64, y, d []float64) { d[0], d[1] = -1e3*y[0], math.Cos(t) }},
		func(_ float64, y, _, g []float64) { g[0] = y[1] - 0.5 },
	}, &sees, &asked, true}
	s := New(2, 1)
	start := func() {
		s.Start(w, 0, []float64{0, 0}, []Direction{Rising}, Settings{Tolerance: 1e-9, FirstStep: 1})
	}
	start()
	require.Equal(t, Happened, s.Advance(1))
	assert.InDelta(t, math.Pi/6, s.Time(), 1e-9, "the tolerance")
	assert.GreaterOrEqual(t, s.State()[1], 0.5, "on the far side")
	assert.LessOrEqual(t, asked, 10, "order 1.44 from a step of 1 to 1e-13 of it: seven, and two that close the bracket")
	assert.Equal(t, asked, sees)
	w.matters = false
	start()
	assert.Equal(t, Reached, s.Advance(1), "passed over")
}

// The dense output has order 7: halving the step divides its error by 2^8 in
// the middle of a step (it is one order above, locally).
func TestDenseOutputOrder(t *testing.T) {
	f := func(t float64, y, d []float64) { d[0] = y[0] * math.Cos(t) }
	errAt := func(h float64) float64 {
		s := New(1, 0)
		s.Start(problem{f}, 0, []float64{1}, nil, Settings{Tolerance: 0.1, Scale: []float64{1e6}, FirstStep: h})
		require.Equal(t, Reached, s.Advance(h))
		var out [1]float64
		worst := 0.0
		for u := 0.1; u < 1; u += 0.1 {
			s.At(u*h, out[:])
			worst = max(worst, math.Abs(out[0]-math.Exp(math.Sin(u*h))))
		}
		return worst
	}
	ratio := errAt(0.8) / errAt(0.4)
	assert.Greater(t, ratio, 128.0, "at least order 7")
	assert.Less(t, errAt(0.4), 1e-8)
}

func TestOutcomes(t *testing.T) {
	s := New(1, 0)
	s.Start(problem{func(t float64, y, d []float64) { d[0] = y[0] * y[0] }}, 0, []float64{1}, nil,
		Settings{Tolerance: 1e-8, MaxSteps: 5000})
	o := s.Advance(2) // blows up at t = 1
	assert.Contains(t, []Outcome{StepTooSmall, TooManySteps, NotFinite}, o)
	assert.InDelta(t, 1, s.Time(), 1e-6, "stops at the pole, not beyond")
	s.Start(problem{func(t float64, y, d []float64) { d[0] = math.NaN() }}, 0, []float64{1}, nil,
		Settings{Tolerance: 1e-8, MaxSteps: 500})
	assert.NotEqual(t, Reached, s.Advance(2))
	assert.Panics(t, func() { s.Start(problem{nil}, 0, nil, nil, Settings{Tolerance: 2}) })
}

func TestNoAllocationInARun(t *testing.T) {
	p := problem{func(t float64, y, d []float64) { d[0], d[1] = y[1], -y[0] }}
	s := New(2, 0)
	y, sc := []float64{1, 0}, []float64{1, 1}
	var sys System = p
	assert.Zero(t, testing.AllocsPerRun(20, func() {
		s.Start(sys, 0, y, nil, Settings{Tolerance: 1e-9, Scale: sc})
		s.Advance(10)
	}))
}

// TestEachKindOfStretchHasItsStep: a fast oscillator and a slow decay by turns. Told which kind begins, the solver starts each with
// the step that the last of its kind began with, and next to none is made in vain; what comes out is the closed form either way.
func TestEachKindOfStretchHasItsStep(t *testing.T) {
	run := func(told bool) *Solver {
		fast := false
		s := New(2, 0)
		s.Start(problem{func(_ float64, y, d []float64) {
			if fast {
				d[0], d[1] = 2000*math.Pi*y[1], -2000*math.Pi*y[0]
			} else {
				d[0], d[1] = -y[0], -y[1]
			}
		}}, 0, []float64{1, 0}, nil, Settings{Tolerance: 1e-8, Scale: []float64{1e-3, 1e-3}})
		end := 0.0
		for range 20 {
			for _, stretch := range [...]struct {
				fast bool
				kind int
				long float64
			}{{false, 0, 0.1}, {true, 1, 0.01}} { // ten whole turns
				fast = stretch.fast
				if told {
					s.Phase(stretch.kind)
				}
				s.Restart()
				end += stretch.long
				require.Equal(t, Reached, s.Advance(end))
			}
		}
		// 400 turns, each with the tolerance at some ten steps.
		assert.InDelta(t, math.Exp(-2), s.State()[0], 1e-4)
		return s
	}
	told, untold := run(true), run(false)
	assert.Less(t, 3*told.Rejected(), untold.Rejected(), "three in vain for each of the twenty fast stretches, and the first")
}
