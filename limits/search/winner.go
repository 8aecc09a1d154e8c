package search

import (
	"cmp"
	"math"
	"slices"
)

// The search of the winner evaluates whole sweeps at once, so that all workers
// have their share: it is the one local search that nothing runs beside.

// settleWinner searches from the best point tried; a point on the line between
// two maxima may beat both. Its compass search has an allowance of its own, so
// that a short budget never leaves the winner unsettled; if its moves use that
// up, a coarser one with another allowance follows.
func (r *run) settleWinner(maxima int) Maximum {
	ranked := slices.Clone(r.tried)
	best(ranked)
	at := Maximum{Point: slices.Clone(ranked[0].Point), Value: ranked[0].Value}
	valleys := 5 * maxima * (maxima + 1) / 2
	if free := r.left - valleys; free > 0 {
		r.left = free * 4 / 5
		r.peaks(&at, 32)
		c := newClimber(r, at, free/5, 4000)
		r.climbers([]*climber{c}, (*climber).sparseSteps)
		at = maximaOf([]*climber{c})[0]
	}
	at = r.settle(at, r.o.Settle*r.dim, refineStep, r.o.FinestStep)
	if r.lastStep == 0 {
		at = r.settle(at, r.o.Settle/2*r.dim, 2*maximumStep, maximumStep)
	}
	r.left = valleys
	return at
}

// settle makes the compass search from a point, with an allowance of evaluations. A short
// search, which others run beside, moves at each better step; a long one tries whole sweeps
// at once.
func (r *run) settle(at Maximum, allowance int, from, to float64) Maximum {
	r.left = allowance
	if r.o.FinestStep < maximumStep {
		r.lastStep = r.compass(&at, from, to)
		return at
	}
	c := newClimber(r, at, allowance, 5000)
	r.climbers([]*climber{c}, func(c *climber) { r.lastStep = c.compass(from, to) })
	return maximaOf([]*climber{c})[0]
}

// peaks samples one coordinate after the other at n+1 levels and closes in on
// the three best peaks of the samples, until a whole round brings nothing or the
// budget is spent. A function with many waves along a coordinate, whose crests
// fall between the levels of a plain scan, needs it.
func (r *run) peaks(at *Maximum, n int) {
	for i, failed := 0, 0; failed < r.dim && r.left > 0; i = (i + 1) % r.dim {
		points := make([][]float64, n+1)
		for k := range points {
			points[k] = slices.Clone(at.Point)
			points[k][i] = float64(k) / float64(n)
		}
		values := r.evaluate(points)
		var cs []*climber
		for _, k := range crests(values) {
			share := max(0, r.left-len(cs)*closer) // 0 is none
			cs = append(cs, newClimber(r, Maximum{Point: points[k], Value: values[k]}, min(closer, share), 0))
		}
		r.climbers(cs, func(c *climber) { c.closeIn(i, 1/float64(n)) })
		if top := maximaOf(cs); len(top) > 0 && top[0].Value > at.Value {
			*at = top[0]
			failed = 0
		} else {
			failed++
		}
	}
}

// crests gives the places of the three greatest values that no neighbour
// exceeds, the greatest first.
func crests(values []float64) []int {
	var at []int
	for k, v := range values {
		if !math.IsInf(v, -1) && (k == 0 || values[k-1] <= v) && (k == len(values)-1 || values[k+1] <= v) {
			at = append(at, k)
		}
	}
	slices.SortStableFunc(at, func(a, b int) int { return cmp.Compare(values[b], values[a]) })
	return at[:min(len(at), 3)]
}

// closer is the most that closing in on one peak may cost.
const closer = 12

// closeIn moves coordinate i with steps that start at half of h and halve six
// times.
func (c *climber) closeIn(i int, h float64) {
	u := slices.Clone(c.at)
	for range closer / 2 {
		h /= 2
		for _, step := range [2]float64{h, -h} {
			copy(u, c.at)
			if u[i] = min(max(u[i]+step, 0), 1); u[i] != c.at[i] && c.try(u) {
				break
			}
		}
	}
}

// compass steps along every coordinate, up and down, with halving steps: a whole
// sweep at once; one that stays at its end rests as in a climber's. Of the steps that improve it takes all together or the best one
// alone, whichever is better, and then tries the same move once more (Hooke, R. and
// Jeeves, T. A. (1961), J. ACM 8, 212-229, from memory). It gives the length at
// which no step improves, at most `to`; 0 where the budget ended before.
func (r *run) compass(at *Maximum, from, to float64) (step float64) {
	rests := newResting(r.dim, 2)
	for h := from; ; {
		points := neighbours(at.Point, h, rests)
		whole := len(points) <= r.left
		values := r.evaluate(points)
		before := *at
		moved := r.move(at, points, values)
		for i, x := range at.Point {
			if !rests.skips(i) {
				rests.note(i, x, x != before.Point[i], flatAlong(before, i, points, values))
			}
		}
		switch {
		case moved && r.left > 0:
		case !whole || moved:
			return 0
		case h > to:
			h /= 2
		case !rests.wake():
			return h
		}
	}
}

// flatAlong tells that no step along coordinate i changed the value.
func flatAlong(at Maximum, i int, points [][]float64, values []float64) bool {
	for k, v := range values {
		if points[k][i] != at.Point[i] && v != at.Value {
			return false
		}
	}
	return true
}

// neighbours are the points a step of length h away along one coordinate that does not
// rest, kept inside the box.
func neighbours(at []float64, h float64, rests resting) [][]float64 {
	var points [][]float64
	for i := range at {
		if rests.skips(i) {
			continue
		}
		for _, step := range [2]float64{h, -h} {
			u := slices.Clone(at)
			if u[i] = min(max(u[i]+step, 0), 1); u[i] != at[i] {
				points = append(points, u)
			}
		}
	}
	return points
}

// move goes to the best of the points of a sweep, or of their joint move and its
// double; not moved where none of them is better.
func (r *run) move(at *Maximum, points [][]float64, values []float64) (moved bool) {
	before := at.Point
	joint := slices.Clone(before)
	gain := make([]float64, len(joint))
	top := *at
	for k, v := range values {
		if v > top.Value {
			top = Maximum{Point: points[k], Value: v}
		}
		for i, x := range points[k] {
			if x != before[i] && v-at.Value > gain[i] {
				joint[i], gain[i] = x, v-at.Value
			}
		}
	}
	if top.Value == at.Value {
		return false
	}
	more := [][]float64{joint, further(before, joint), further(before, top.Point)}
	for k, v := range r.evaluate(more) {
		if v > top.Value {
			top = Maximum{Point: more[k], Value: v}
		}
	}
	*at = Maximum{Point: slices.Clone(top.Point), Value: top.Value}
	return true
}

// further makes the move from one point to another once more.
func further(from, to []float64) []float64 {
	w := slices.Clone(to)
	for i := range w {
		w[i] = min(max(2*to[i]-from[i], 0), 1)
	}
	return w
}
