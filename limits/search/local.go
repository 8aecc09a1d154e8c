package search

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/optimize"
)

// undefinedValue stands for "no value yet" and for an undefined value: any
// value is better.
var undefinedValue = math.Inf(-1)

// The steps of the compass searches: the first, the first of a refinement, the
// last of a climb, the last of the winner unless Options say otherwise.
const (
	firstStep   = 1.0 / 8
	refineStep  = 1.0 / 16
	maximumStep = 1.0 / 1024
	winnerStep  = 1.0 / (1 << 24)
)

// climber is one local search: a point that only ever moves to a better one,
// and a budget of its own.
type climber struct {
	objective Objective
	at        []float64
	value     float64
	left      int // evaluations left
	reserve   int // of them, kept for a later phase
	stop      func() bool
	random    *rand.Rand
	undef     int
	undefAt   []float64
}

func newClimber(r *run, from Maximum, budget int, stream uint64) *climber {
	return &climber{
		at:     slices.Clone(from.Point),
		value:  from.Value,
		left:   budget,
		stop:   func() bool { return r.ctx.Err() != nil },
		random: rand.New(rand.NewPCG(r.o.Scramble, 100+stream)),
	}
}

// more tells whether the phase under way may evaluate another point.
func (c *climber) more() bool { return c.left > c.reserve && !c.stop() }

// valued gives the starting point a value if it has none yet, and tells whether it has
// one now.
func (c *climber) valued() bool {
	if math.IsInf(c.value, -1) && c.more() {
		c.value = c.valueAt(c.at)
	}
	return !math.IsInf(c.value, -1)
}

// valueAt evaluates u; an undefined value is counted and becomes -Inf.
func (c *climber) valueAt(u []float64) float64 {
	c.left--
	var v float64
	if math.IsInf(c.value, -1) {
		v = c.objective.Value(u)
	} else {
		v = valueNear(c.objective, u, c.at)
	}
	if defined(v) {
		return v
	}
	c.undef++
	if c.undefAt == nil {
		c.undefAt = slices.Clone(u)
	}
	return undefinedValue
}

// try evaluates u if the budget lets it, moves there if it is better, and tells
// whether it moved.
func (c *climber) try(u []float64) bool {
	if !c.more() {
		return false
	}
	if v := c.valueAt(u); v > c.value {
		c.value = v
		copy(c.at, u)
		return true
	}
	return false
}

// compassCost is what a compass search costs at least: one failing sweep per
// step; and half as much again for the moves.
func compassCost(dim int, from, to float64) int {
	sweeps := int(math.Round(math.Log2(from/to))) + 1
	return 3 * dim * sweeps
}

// climb is the local search from one start: coarse line scans, simplex, sparse
// steps, compass.
func (c *climber) climb() {
	if !c.valued() {
		return
	}
	d := len(c.at)
	c.reserve = min(compassCost(d, firstStep, maximumStep), c.left*2/3)
	free := c.left - c.reserve
	compass := c.reserve

	c.reserve = compass + free/2
	c.scan(4)
	c.reserve = compass + free/5
	c.simplex()
	c.reserve = compass
	c.sparseSteps()
	c.reserve = 0
	c.compass(firstStep, maximumStep)
}

// refine is the second local search of the best maxima: finer line scans, more
// sparse steps.
func (c *climber) refine() {
	c.reserve = c.left / 2
	c.scan(16)
	c.reserve = 0
	c.sparseSteps()
}

// scan moves along one coordinate after the other to the best of n+1 equally
// spaced levels, both ends among them, until a whole round brings nothing. It
// leaves the hill that it stands on, which the other methods do not.
func (c *climber) scan(n int) {
	d := len(c.at)
	u := make([]float64, d)
	for i, failed := 0, 0; failed < d && c.more(); i = (i + 1) % d {
		moved := false
		from := c.at[i]
		for k := range n + 1 {
			level := float64(k) / float64(n)
			if level == from || level == c.at[i] {
				continue
			}
			copy(u, c.at)
			u[i] = level
			moved = c.try(u) || moved
		}
		if moved {
			failed = 0
		} else {
			failed++
		}
	}
}

// simplex runs gonum's Nelder-Mead method. The box is kept by clipping: a vertex
// outside counts as its nearest point of the box, so that maxima at an end are
// hit exactly.
func (c *climber) simplex() {
	d := len(c.at)
	if d < 2 || c.left-c.reserve < 3*(d+1) {
		return
	}
	u := make([]float64, d)
	loss := func(x []float64) float64 {
		if !c.more() {
			return math.Inf(1)
		}
		for i, v := range x {
			u[i] = min(max(v, 0), 1)
		}
		v := c.valueAt(u)
		if v > c.value {
			c.value = v
			copy(c.at, u)
		}
		return -v
	}
	start := Maximum{Point: slices.Clone(c.at), Value: c.value}
	vertices, losses := [][]float64{start.Point}, []float64{-start.Value}
	for i := range d {
		x := slices.Clone(start.Point)
		if x[i] > 0.5 {
			x[i] -= 0.2
		} else {
			x[i] += 0.2
		}
		vertices = append(vertices, x)
		losses = append(losses, loss(x))
	}
	// The method's own end is a status, not a failure: what it found is in c.
	// Its error, if any, only says that it could not go on.
	_, _ = optimize.Minimize(
		optimize.Problem{
			Func: loss,
			Status: func() (optimize.Status, error) {
				if c.more() {
					return optimize.NotTerminated, nil
				}
				return optimize.FunctionEvaluationLimit, nil
			},
		},
		start.Point,
		&optimize.Settings{InitValues: &optimize.Location{F: -start.Value}},
		&optimize.NelderMead{InitialVertices: vertices, InitialValues: losses},
	)
}

// sparseSteps tries random steps in one to three coordinates, now and then in
// all, longer after a success and shorter after a failure. They slide along the
// edge of a step that runs aslant, where a compass search is caught. Equal
// values are accepted: flat parts are crossed. The rule of success is that of
// the (1+1) evolution strategy, Rechenberg (1973), from memory; the sparse
// steps and the figures are our own choice.
func (c *climber) sparseSteps() {
	const (
		longest  = 0.5
		shortest = 1.0 / 16384
		longer   = 1.5
		shorter  = 0.93
	)
	d := len(c.at)
	u := make([]float64, d)
	for h := 0.25; c.more(); {
		copy(u, c.at)
		count := 1 + c.random.IntN(min(3, d))
		if c.random.IntN(8) == 0 {
			for i := range u {
				u[i] = min(max(u[i]+h*c.random.NormFloat64()/math.Sqrt(float64(d)), 0), 1)
			}
		} else {
			for range count {
				i := c.random.IntN(d)
				u[i] = min(max(u[i]+h*c.random.NormFloat64(), 0), 1)
			}
		}
		v := c.valueAt(u)
		better := v > c.value
		if v >= c.value && !math.IsInf(v, -1) {
			c.value = v
			copy(c.at, u)
		}
		if better {
			h = min(longest, h*longer)
		} else if h *= shorter; h < shortest {
			h = 0.25
		}
	}
}

// compass steps along every coordinate, up and down, with halving steps. After
// a sweep that moved it also tries the same move once more (Hooke, R. and
// Jeeves, T. A. (1961), J. ACM 8, 212-229, from memory). It ends when no step
// of length `to` improves. A coordinate that stays at its end in two sweeps rests (resting)
// until the last one. It gives the length at which no step improves; 0 where the budget ended
// before.
func (c *climber) compass(from, to float64) (step float64) {
	d := len(c.at)
	u, before := make([]float64, d), make([]float64, d)
	rests := newResting(d, 2)
	for h := from; ; {
		copy(before, c.at)
		whole := true
		moved := false
		for i := range d {
			if rests.skips(i) {
				continue
			}
			better, flat := false, true
			for _, step := range [2]float64{h, -h} {
				copy(u, c.at)
				u[i] = min(max(u[i]+step, 0), 1)
				if u[i] == c.at[i] {
					continue
				}
				if !c.more() {
					whole = false
					continue
				}
				before := c.value
				v := c.valueAt(u)
				flat = flat && v == before
				if v > before {
					c.value, better = v, true
					copy(c.at, u)
				}
			}
			rests.note(i, c.at[i], better, flat)
			moved = moved || better
		}
		switch {
		case moved && c.more():
			for i := range u {
				u[i] = min(max(2*c.at[i]-before[i], 0), 1)
			}
			c.try(u)
		case !whole || moved:
			return 0
		case h > to:
			h /= 2
		case rests.wake():
		default:
			return h
		}
	}
}

// resting tells which coordinates a compass search passes over: one that has stayed at its
// end in some sweeps, or has had no effect at all, will mostly do so at shorter steps. A last
// sweep asks all of them.
type resting struct {
	stayed   []int
	patience int // sweeps after which it rests
}

func newResting(dim, patience int) resting { return resting{make([]int, dim), patience} }

func (r resting) skips(i int) bool { return r.stayed[i] >= r.patience }

// note takes what a sweep did to coordinate i, which lies at x now; flat: no step changed
// the value.
func (r resting) note(i int, x float64, better, flat bool) {
	if better || x != 0 && x != 1 && !flat {
		r.stayed[i] = 0
		return
	}
	r.stayed[i]++
}

// wake lets all coordinates take part again; false where none rested.
func (r resting) wake() bool {
	some := false
	for i := range r.stayed {
		some = some || r.skips(i)
		r.stayed[i] = 0
	}
	return some
}
