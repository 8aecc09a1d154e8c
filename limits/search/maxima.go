package search

import (
	"math"
	"slices"
)

// refined is the number of best maxima that are searched a second time.
const refined = 3

// climbStarts runs the local search from the best distinct points tried so far
// and gives the maxima found, best first.
func (r *run) climbStarts() []Maximum {
	starts := r.starts()
	if len(starts) == 0 {
		return nil
	}
	share := r.left * 6 / 10 / len(starts)
	var cs []*climber
	for i, s := range starts {
		cs = append(cs, newClimber(r, s, share, uint64(2000+i)))
	}
	r.climbers(cs, func(c *climber) {
		if len(c.at) > 0 {
			c.climb()
		}
	})
	return r.distinct(maximaOf(cs))
}

func maximaOf(cs []*climber) []Maximum {
	var ms []Maximum
	for _, c := range cs {
		ms = append(ms, Maximum{Point: slices.Clone(c.at), Value: c.value})
	}
	best(ms)
	return ms
}

// starts picks the best point, the best seeds (half of the starts), and
// then the best points that lie apart. The distance asked for, a sum over the
// coordinates, is a fifth of the greatest one at first and halves until enough
// points are found: else all starts would be neighbours of the best corner.
func (r *run) starts() []Maximum {
	ranked := slices.Clone(r.tried)
	best(ranked)
	var picked []Maximum
	add := func(m Maximum, apart float64) {
		for _, p := range picked {
			if distance(p.Point, m.Point) < apart {
				return
			}
		}
		picked = append(picked, m)
	}
	if len(ranked) == 0 {
		return nil
	}
	add(ranked[0], 0)
	for _, s := range r.seeds[:min(len(r.seeds), (r.o.Starts+1)/2)] {
		add(s, maximumStep)
	}
	for apart := max(0.5, float64(r.dim)/5); apart > 1.0/32 && len(picked) < r.o.Starts; apart /= 2 {
		for _, m := range ranked {
			if len(picked) == r.o.Starts {
				break
			}
			add(m, apart)
		}
	}
	return picked
}

// distance is the sum of the differences of the coordinates.
func distance(a, b []float64) float64 {
	sum := 0.0
	for i, x := range a {
		sum += math.Abs(x - b[i])
	}
	return sum
}

// distinct keeps of each group of maxima that no valley parts the best one.
// Test for a valley: Ursem, R. K. (1999), "Multinational evolutionary
// algorithms", Proc. CEC 1999, 1633-1640 (from memory): some point between the
// two is lower than both. The maxima come best first and leave so.
func (r *run) distinct(ms []Maximum) []Maximum {
	var kept []Maximum
	for _, m := range ms {
		if !r.joined(kept, m) {
			kept = append(kept, m)
		}
	}
	return kept
}

// joined tells whether no valley lies between m and one of the kept maxima. A
// valley shallower than a billionth of the lower value is rounding, none.
func (r *run) joined(kept []Maximum, m Maximum) bool {
	const between = 5
	for _, k := range kept {
		if distance(k.Point, m.Point) < 2*maximumStep {
			return true
		}
		var points [][]float64
		for j := 1; j <= between; j++ {
			t := float64(j) / (between + 1)
			u := make([]float64, r.dim)
			for i := range u {
				u[i] = m.Point[i] + t*(k.Point[i]-m.Point[i])
			}
			points = append(points, u)
		}
		r.left = max(r.left, between) // see Options.Budget
		values := r.evaluate(points)
		lowest := math.Inf(1)
		for _, v := range values {
			lowest = min(lowest, v)
		}
		if lowest >= m.Value-1e-9*math.Abs(m.Value) {
			return true
		}
	}
	return false
}

// polish searches the best maxima a second time and settles the winner.
func (r *run) polish(found []Maximum) []Maximum {
	if len(found) == 0 || r.dim == 0 {
		return found
	}
	top := found[:min(len(found), refined)]
	if share := r.left / 3 / len(top); share > 4*r.dim {
		var cs []*climber
		for i, m := range top {
			cs = append(cs, newClimber(r, m, share, uint64(3000+i)))
		}
		r.climbers(cs, (*climber).refine)
		found = append(maximaOf(cs), found[len(top):]...)
	}
	found = append(found, r.settleWinner(len(found)))
	best(found)
	return r.distinct(found)
}
