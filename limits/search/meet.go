package search

import (
	"math"
	"math/rand/v2"
	"slices"
)

// How climbs are compared, in shares of the greatest value: within met two of them have come to
// the same; one that is less than beyond above the others has found nothing new; a seed that is less than alike below the best is
// climbed from too.
const (
	met    = 5e-4
	beyond = 0.01
	alike  = 0.05
	// higherHill is by how much more all that a full search finds may be than what climbs from far apart came to, for a function
	// to count as tame: a sketch of a like one begins on the hills that the seeds stand for too.
	higherHill = 0.1
)

// unbounded is what climbs and designs with an allowance of their own may take.
const unbounded = math.MaxInt

// climbed searches by climbs alone as the options ask, and tells whether that was enough.
func (r *run) climbed() (found []Maximum, enough bool) {
	switch {
	case r.o.Sketch:
		return r.sketch()
	case r.o.Near > 0 || r.o.Meet > 0:
		return r.meet()
	}
	return nil, false
}

// meet searches by climbs alone, from starts that lie far apart, and tells whether that was enough.
// A short search (Options.Near) goes from its seeds, and from far away until the last climbs bring nothing new. A full one asks
// half of its climbs to come to the same. Where values are undefined, nothing rises above zero, or climbs
// end on several heights, only the whole search is left.
func (r *run) meet() (found []Maximum, enough bool) {
	left := r.left
	r.left = unbounded
	defer func() { r.left = left }()
	if r.o.Near > 0 {
		found, enough = r.near()
	} else {
		found, enough = r.apart()
	}
	if !enough {
		return nil, false
	}
	if r.enough() {
		return found, true
	}
	return r.settled(found), true
}

// apart climbs from starts apart, in two batches at most, until half of the climbs have come to
// the same, or all of them nearly so.
func (r *run) apart() (ms []Maximum, enough bool) {
	r.screen()
	if r.enough() {
		return r.starts(), true
	}
	starts := r.designed(r.pointed(), 2*r.o.Meet)
	for _, n := range [...]int{r.o.Meet, 2 * r.o.Meet} {
		if len(starts) < n {
			return nil, false
		}
		ms = append(ms, r.sweepers(starts[len(ms):n], (*climber).sweeps)...)
		best(ms)
		switch {
		case !r.usable(ms):
			return nil, false
		case r.enough():
			return ms, true
		}
		if r.met = together(ms); r.met {
			r.meeting = ms[0].Value
			return r.nowhereHigher(ms)
		}
	}
	return nil, false
}

// nowhereHigher climbs from the seeds as well, which stand for hills that corners do not lead to: where one of them is higher,
// climbs from corners were not enough, however many came to the same.
func (r *run) nowhereHigher(ms []Maximum) (all []Maximum, enough bool) {
	var from []Maximum
	for _, s := range r.seeds {
		from = addApart(from, s, 6, 0.5)
	}
	if len(from) == 0 {
		return ms, true
	}
	top := ms[0].Value
	ms = append(r.sweepers(from, (*climber).sweepsNear), ms...)
	best(ms)
	r.met = ms[0].Value <= top+beyond*math.Abs(top)
	return ms, r.met && r.usable(ms)
}

// together tells of maxima, the best first, that half of them are the same, or more than two all nearly so.
func together(ms []Maximum) bool {
	below := func(i int) float64 { return ms[0].Value - ms[i].Value }
	size := math.Abs(ms[0].Value)
	return below((len(ms)-1)/2) <= met*size || len(ms) > 2 && below(len(ms)-1) <= beyond*size
}

// designed adds starts, n in all at most: where the main effects of a two-level design point, and the best corners of
// that design.
func (r *run) designed(starts []Maximum, n int) []Maximum {
	design := foldover(r.dim)
	top := ranked(design, r.evaluate(design))
	starts = addApart(starts, Maximum{Point: r.pointedTo(cornerOnly), Value: undefinedValue}, n, 0.5)
	for _, m := range top {
		starts = addApart(starts, m, n, float64(r.dim)/4)
	}
	return starts
}

// pointed are the starts that the screening points to.
func (r *run) pointed() []Maximum {
	return []Maximum{{Point: r.pointedTo(r.oneMoved), Value: undefinedValue}}
}

// addApart adds a start, where it lies apart from those that there are, of which there shall be n at most.
func addApart(to []Maximum, m Maximum, n int, apart float64) []Maximum {
	if len(to) >= n || slices.ContainsFunc(to, func(s Maximum) bool { return distance(s.Point, m.Point) <= apart }) {
		return to
	}
	return append(to, m)
}

// scattered gives points made of the best maxima, with one to three coordinates at an end or
// inside.
func (r *run) scattered(ms []Maximum, n int, random *rand.Rand) [][]float64 {
	ms = ms[:min(3, len(ms))]
	points := make([][]float64, n)
	for k := range points {
		u := slices.Clone(ms[k%len(ms)].Point)
		for range 1 + k%3 {
			i := random.IntN(r.dim)
			switch random.IntN(4) {
			case 0:
				u[i] = 0
			case 1:
				u[i] = 1
			default:
				u[i] = random.Float64()
			}
		}
		points[k] = u
	}
	return points
}

// shaken scatters points around the best maxima and climbs from the best of them, until that brings nothing.
func (r *run) shaken(ms []Maximum) []Maximum {
	random := rand.New(rand.NewPCG(r.o.Scramble, 7))
	n, climbs := 8*r.dim, 3
	if r.o.Near > 0 {
		n, climbs = 2*r.dim, 0
	}
	for range 4 {
		points := r.scattered(ms, n, random)
		top := ms[0].Value
		var from []Maximum
		for _, m := range ranked(points, r.evaluate(points)) {
			if m.Value > top || len(from) < climbs {
				from = addApart(from, m, max(1, climbs), 1)
			}
		}
		if len(from) == 0 {
			return ms
		}
		ms = append(r.sweepers(from, (*climber).sweepsNear), ms...)
		best(ms)
		if ms[0].Value-top <= met*math.Abs(top) {
			return ms
		}
	}
	return ms
}

// settled looks once more around the best of the climbs and settles it.
func (r *run) settled(found []Maximum) []Maximum {
	found = r.shaken(found)
	found = r.wandered(found)
	at := Maximum{Point: slices.Clone(found[0].Point), Value: found[0].Value}
	at = r.settle(at, r.o.Settle*r.dim, sweptTo, r.o.FinestStep)
	if r.lastStep == 0 {
		at = r.settle(at, r.o.Settle*r.dim, refineStep, maximumStep)
	}
	found = append(found, at)
	best(found)
	return r.distinct(found)
}

// wandered goes on from the best maxima, level by level along each coordinate and in random sparse steps, and climbs
// again from where that leads: on a rugged function the hill on which a climb ends is not the highest of its kind.
func (r *run) wandered(ms []Maximum) []Maximum {
	if len(ms) == 0 || r.dim == 0 {
		return ms
	}
	left := r.left
	defer func() { r.left = left }()
	few := refined
	if r.o.Near > 0 {
		few = 1
	}
	var cs []*climber
	for i, m := range ms[:min(few, len(ms))] {
		cs = append(cs, newClimber(r, m, r.o.Wander*r.dim, uint64(7000+i)))
	}
	r.climbers(cs, (*climber).wander)
	if at := maximaOf(cs)[0]; at.Value > ms[0].Value+rounding*math.Abs(ms[0].Value) {
		ms = append(r.sweepers([]Maximum{at}, (*climber).sweepsNear), ms...)
		best(ms)
	}
	return ms
}

// wander spends half of what a climber has on levels, the rest on sparse steps.
func (c *climber) wander() {
	c.reserve = c.left / 2
	c.scan(8)
	c.reserve = 0
	c.sparseSteps()
}
