package search

import (
	"context"
	"math"
	"slices"
	"sync"
	"sync/atomic"
)

// run is one search under way. Points are evaluated in batches whose members
// do not depend on each other, and the outcome of a batch is taken in its own
// order; that makes the result independent of the number of workers.
type run struct {
	ctx     context.Context
	dim     int
	o       Options
	workers []Objective

	left     int // evaluations left of the budget
	tried    []Maximum
	corner   []Maximum // those of tried that are corners
	seeds    []Maximum
	all      bool    // all corners were tried
	met      bool    // half of the climbs came to the same
	meeting  float64 // what climbs from far apart came to; 0: not to the same
	evals    int
	undef    int
	undefAt  []float64
	lastStep float64
}

func newRun(ctx context.Context, dim int, evaluator func() Objective, o Options) *run {
	r := &run{ctx: ctx, dim: dim, o: o, left: o.Budget}
	for range o.Workers {
		r.workers = append(r.workers, evaluator())
	}
	r.watch()
	return r
}

// parallel calls task for every i below n, on all workers.
func (r *run) parallel(n int, task func(w Objective, i int)) {
	var (
		next   atomic.Int64
		group  sync.WaitGroup
		once   sync.Once
		raised any
	)
	for _, w := range r.workers[:min(len(r.workers), n)] {
		group.Go(func() {
			defer func() {
				if p := recover(); p != nil {
					once.Do(func() { raised = Caught(p) })
				}
			}()
			for {
				i := int(next.Add(1)) - 1
				if i >= n || r.ctx.Err() != nil {
					return
				}
				task(w, i)
			}
		})
	}
	group.Wait()
	if raised != nil {
		panic(raised)
	}
}

// evaluate values a batch of points, as many as the budget lets it, and keeps
// those that have a value. It returns the values, -Inf for an undefined point.
func (r *run) evaluate(points [][]float64) []float64 {
	points = points[:min(len(points), max(r.left, 0))]
	values := make([]float64, len(points))
	r.parallel(len(points), func(w Objective, i int) { values[i] = w.Value(points[i]) })
	for i, v := range values {
		if !defined(v) {
			r.noteUndefined(1, points[i])
			values[i] = math.Inf(-1)
			continue
		}
		r.keep(Maximum{Point: points[i], Value: v})
	}
	r.evals += len(points)
	r.left -= len(points)
	return values
}

// defined tells whether a value may take part in the search.
func defined(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func (r *run) noteUndefined(n int, at []float64) {
	r.undef += n
	if r.undefAt == nil && n > 0 {
		r.undefAt = slices.Clone(at)
	}
}

func (r *run) keep(m Maximum) {
	r.tried = append(r.tried, m)
	if isCorner(m.Point) {
		r.corner = append(r.corner, m)
	}
}

func isCorner(u []float64) bool {
	for _, x := range u {
		if x != 0 && x != 1 {
			return false
		}
	}
	return true
}

// climbers runs one task per climber on all workers, and takes what they found.
func (r *run) climbers(cs []*climber, task func(c *climber)) {
	given := make([]int, len(cs))
	for i, c := range cs {
		given[i] = c.left
	}
	r.parallel(len(cs), func(w Objective, i int) {
		cs[i].objective = w
		task(cs[i])
	})
	for i, c := range cs {
		used := given[i] - c.left
		r.evals += used
		r.left -= used
		r.noteUndefined(c.undef, c.undefAt)
		c.undef, c.undefAt = 0, nil
		if defined(c.value) {
			r.keep(Maximum{Point: slices.Clone(c.at), Value: c.value})
		}
	}
}

// result gathers what was found.
func (r *run) result(found []Maximum) Result {
	res := Result{
		Found:       len(found) > 0,
		Maxima:      found,
		Evaluations: r.evals,
		Undefined:   r.undef,
		UndefinedAt: r.undefAt,
		AllCorners:  r.all,
		Step:        r.lastStep,
	}
	if len(found) > 0 {
		res.Tame = found[0].Value <= (1+higherHill)*r.meeting
		res.Best = Maximum{Point: slices.Clone(found[0].Point), Value: found[0].Value}
	}
	if len(found) > 1 {
		res.Gap = found[0].Value - found[1].Value
	}
	return res
}
