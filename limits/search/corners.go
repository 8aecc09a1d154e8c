package search

import (
	"cmp"
	"math/bits"
	"math/rand/v2"
	"slices"
)

// plant evaluates the seeds.
func (r *run) plant() {
	r.left += len(r.o.Seeds) // seeds are never cut by the budget
	var seeds [][]float64
	for _, s := range r.o.Seeds {
		if !slices.ContainsFunc(seeds, func(k []float64) bool { return slices.Equal(k, s) }) {
			seeds = append(seeds, slices.Clone(s))
		}
	}
	r.seeds = ranked(seeds, r.evaluate(seeds))
}

// ranked are the points that have a value, the best first.
func ranked(points [][]float64, values []float64) (ms []Maximum) {
	for i, v := range values {
		if defined(v) {
			ms = append(ms, Maximum{Point: points[i], Value: v})
		}
	}
	best(ms)
	return ms
}

// screen evaluates the centre, and from the centre one coordinate at a time at its two ends.
func (r *run) screen() {
	if r.dim == 0 {
		if len(r.o.Seeds) == 0 {
			r.evaluate([][]float64{{}})
		}
		r.left = 0
		return
	}
	points := [][]float64{centre(r.dim)}
	for i := range r.dim {
		for _, end := range [2]float64{0, 1} {
			u := centre(r.dim)
			u[i] = end
			points = append(points, u)
		}
	}
	r.evaluate(points)
}

// best sorts maxima, the greatest first; equal ones keep their order.
func best(ms []Maximum) {
	slices.SortStableFunc(ms, func(a, b Maximum) int { return cmp.Compare(b.Value, a.Value) })
}

func centre(dim int) []float64 {
	u := make([]float64, dim)
	for i := range u {
		u[i] = 0.5
	}
	return u
}

// corners tries all corners where they are few, else a two-level design and
// climbs from its best corners.
func (r *run) corners() {
	if r.dim == 0 {
		return
	}
	if r.dim <= r.o.FullCorners && r.dim < 30 && 1<<r.dim <= r.left/2 {
		points := make([][]float64, 1<<r.dim)
		for k := range points {
			points[k] = make([]float64, r.dim)
			for i := range r.dim {
				points[k][i] = float64(k >> i & 1)
			}
		}
		r.evaluate(points)
		r.all = true
		return
	}
	design := foldover(r.dim)
	values := r.evaluate(design)
	starts := r.cornerStarts(design, values)
	share := r.left / 5 / max(1, len(starts))
	var cs []*climber
	for i, s := range starts {
		cs = append(cs, newClimber(r, Maximum{Point: s, Value: undefinedValue}, min(share, 8*r.dim), uint64(i)))
	}
	r.climbers(cs, (*climber).flipUp)
	r.pairFlips()
}

// foldover is a two-level orthogonal design of strength 3: the columns of
// Sylvester's Hadamard matrix of order 2^p >= dim, and below it the same with
// all ends swapped. In any three coordinates each of the eight combinations of
// ends occurs equally often, so main effects are not mixed up with two-factor
// interactions. Source: the foldover theorem, Box, G. E. P. and Wilson, K. B.
// (1951), J. R. Stat. Soc. B 13, 1-45 (from memory); the test counts it out.
func foldover(dim int) [][]float64 {
	order := 1 << bits.Len(uint(dim-1))
	design := make([][]float64, 2*order)
	for k := range order {
		low, high := make([]float64, dim), make([]float64, dim)
		for i := range dim {
			low[i] = float64(bits.OnesCount(uint(k&i)) & 1)
			high[i] = 1 - low[i]
		}
		design[k], design[order+k] = low, high
	}
	return design
}

// cornerStarts picks the corners to climb from: the one that the
// one-at-a-time changes point to, the one that the design's main effects point
// to, the seeds' nearest corners, the best of the design, then random ones.
func (r *run) cornerStarts(design [][]float64, values []float64) [][]float64 {
	var starts [][]float64
	add := func(u []float64) {
		if len(starts) < r.o.Climbs && !slices.ContainsFunc(starts, func(s []float64) bool { return slices.Equal(s, u) }) {
			starts = append(starts, u)
		}
	}
	add(r.pointedTo(r.oneMoved))
	add(r.pointedTo(cornerOnly))
	for _, s := range r.seeds[:min(len(r.seeds), (r.o.Climbs+1)/2)] {
		add(nearestCorner(s.Point))
	}
	top := ranked(design, values)
	for _, m := range top[:min(len(top), max(1, r.o.Climbs/2))] {
		add(m.Point)
	}
	random := rand.New(rand.NewPCG(r.o.Scramble, 1))
	for range 4 * r.o.Climbs {
		u := make([]float64, r.dim)
		for i := range u {
			u[i] = float64(random.IntN(2))
		}
		add(u)
	}
	return starts
}

// pointedTo gives the corner with, in every coordinate, the end whose points
// have the greater mean value. use tells which of the points tried so far count
// for coordinate i.
func (r *run) pointedTo(use func(m Maximum, i int) bool) []float64 {
	u := make([]float64, r.dim)
	for i := range u {
		var sum, n [2]float64
		for _, m := range r.tried {
			if use(m, i) {
				end := int(m.Point[i])
				sum[end] += m.Value
				n[end]++
			}
		}
		if n[1] > 0 && (n[0] == 0 || sum[1]/n[1] > sum[0]/n[0]) {
			u[i] = 1
		}
	}
	return u
}

// oneMoved picks the points that differ from the centre in coordinate i alone, cornerOnly the corners.
func (r *run) oneMoved(m Maximum, i int) bool {
	return insideCount(m.Point) == r.dim-1 && m.Point[i] != 0.5
}

func cornerOnly(m Maximum, _ int) bool { return isCorner(m.Point) }

func insideCount(u []float64) int {
	n := 0
	for _, x := range u {
		if x > 0 && x < 1 {
			n++
		}
	}
	return n
}

func nearestCorner(u []float64) []float64 {
	c := make([]float64, len(u))
	for i, x := range u {
		if x >= 0.5 {
			c[i] = 1
		}
	}
	return c
}

// flipUp moves from corner to corner, one coordinate at a time, until no flip
// improves.
func (c *climber) flipUp() {
	if !c.valued() {
		return
	}
	d := len(c.at)
	u := make([]float64, d)
	for i, failed := 0, 0; failed < d && c.more(); i = (i + 1) % d {
		copy(u, c.at)
		u[i] = 1 - u[i]
		if c.try(u) {
			failed = 0
		} else {
			failed++
		}
	}
}

// pairFlips tries all flips of two coordinates at the best corner, and climbs on
// from the best of them, twice at most.
func (r *run) pairFlips() {
	for round := range 2 {
		best(r.corner)
		pairs := r.dim * (r.dim - 1) / 2
		if len(r.corner) == 0 || pairs > r.left/10 {
			return
		}
		top := r.corner[0]
		var points [][]float64
		for i := range r.dim {
			for j := range i {
				u := slices.Clone(top.Point)
				u[i], u[j] = 1-u[i], 1-u[j]
				points = append(points, u)
			}
		}
		r.evaluate(points)
		best(r.corner)
		if r.corner[0].Value <= top.Value {
			return
		}
		c := newClimber(r, r.corner[0], min(8*r.dim, r.left), uint64(1000+round))
		r.climbers([]*climber{c}, (*climber).flipUp)
	}
}
