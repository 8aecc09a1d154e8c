// Package search looks for the greatest value of a function over the box
// [0,1]^d: the worst case of a launcher over its tolerances.
//
// The functions it is made for are piecewise smooth, with steps (a projectile
// that rests and hops again), mostly monotone along a coordinate, sometimes
// humped. So everything here uses values alone, no derivatives. Mostly a few quick
// climbs from starts far apart come to the same and climbs from the seeds to no more, and that is the end of it (meet.go); a
// short search begins where a like question has its maxima (near.go), a sketch stays there (sketch.go). Else the stages are
//
//  1. the caller's seeds, the centre, one coordinate at a time from the centre;
//  2. corners: all of them in few dimensions, else a two-level design of
//     strength 3 and climbs from corner to corner (corners.go);
//  3. scrambled Halton points, and points with one to three coordinates inside
//     and the others at their ends (samples.go);
//  4. from the best distinct points: line scans, the simplex method of Nelder
//     and Mead (gonum), random sparse steps, a compass search (local.go);
//  5. maxima that no valley parts are counted once (maxima.go); the best of
//     them are scanned finely; a last search, whole sweeps at a time, settles the
//     winner (winner.go).
//
// No proof of a global maximum is claimed. Result says how much was tried and
// how far apart the best maxima lie.
//
// Start reading at Maximise.
package search

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"

	"puffproof/limits/finding"
)

// Objective is a function over the box. Each worker has its own, so it may
// hold scratch space; it need not be safe for concurrent use.
type Objective interface {
	// Value gives the function's value at u, every coordinate of which is in
	// [0, 1]. It depends on u alone, not on earlier calls; it neither keeps nor
	// changes u. NaN says that the value could not be determined; infinities
	// are taken as the same.
	Value(u []float64) float64
}

// Near is an Objective that finds its value with less work near a point that it knows already.
type Near interface {
	Objective
	// ValueNear is Value, with the same error as that, and depends on u and at alone, however often it is asked at that point in a row;
	// it keeps neither.
	ValueNear(u, at []float64) float64
}

// valueNear is an objective's value at u on the way from at.
func valueNear(o Objective, u, at []float64) float64 {
	if n, is := o.(Near); is {
		return n.ValueNear(u, at)
	}
	return o.Value(u)
}

// Options say how much is tried. The zero value of each field is its default.
// A negative count means none.
type Options struct {
	// Workers is the number of concurrent evaluators; 0: all cores
	// (runtime.GOMAXPROCS). It never changes the result.
	Workers int
	// Budget is the number of evaluations that the search spends at most,
	// seeds apart; 0: 1000 + 250 d, at least 7500. Settling the winner may add up to 150 d to
	// it, and telling maxima apart 5 for each pair of them. Quick climbs that did not end the search come on top:
	// 200 + 30 d for each (Meet, Far).
	Budget int
	// FullCorners is the greatest dimension in which all 2^d corners are
	// tried, if they take no more than half of the budget; 0: 10.
	FullCorners int
	// Climbs is the number of climbs from corner to corner where not all
	// corners are tried; 0: 12.
	Climbs int
	// PerCoordinate is the number of mixed points per coordinate, and four times that of
	// low-discrepancy points; 0: 64. The mixed ones take a quarter of what is left of the
	// budget at most, the others two fifths.
	PerCoordinate int
	// LeastPoints is the least number of low-discrepancy points; 0: 3072 in up
	// to six dimensions, where so many points meet thin slivers of the box.
	LeastPoints int
	// Starts is the number of distinct points that local searches start from;
	// 0: 10.
	Starts int
	// FinestStep is the step to which the winner is settled; 0: 2^-24. At most
	// 2^-10.
	FinestStep float64
	// Settle is the number of evaluations per coordinate that settling the winner
	// may add, and half as many again; 0: 100.
	Settle int
	// Enough ends the search after the stage in which a greater value was found,
	// for a caller who only asks whether there is one; nil: it is not asked. Maxima
	// are then the best points tried, whether or not a valley parts them.
	Enough *float64
	// Seeds are points that are always evaluated; the best of them also start
	// local searches, and climbs that met are held to climbs from them. Coordinates in [0, 1].
	Seeds [][]float64
	// Meet is the number of quick climbs, from starts far apart, of which half have to come to the same for a
	// full search to be over (meet.go); twice as many where they do not. 0: 6. Negative: never, the
	// whole search is made, as it is in FullCorners dimensions and fewer.
	Meet int
	// Near makes the search a short one: climbs from so many of the best seeds, in more than FullCorners dimensions. 0: a
	// full one.
	Near int
	// Far is the number of rounds of climbs from far away that a short search makes at most. A sketch that makes any makes nothing else:
	// its seeds are what an earlier one found, and where these climbs end higher the sketch is not enough.
	Far int
	// Sketch ends the search after a few climbs around its seeds, the maxima of a question much like this one, in more than
	// FullCorners dimensions, where these climbs tell anything: some 200 evaluations in 27 dimensions. What it finds is mostly
	// within a thousandth of what a short search finds and seldom more than some hundredths below: it tells which of many like
	// questions are worth a search, and is no answer to the one that counts.
	Sketch bool
	// Wander is the number of random steps for each coordinate around the best maximum, of a full search around each of the
	// best three. 0: 10.
	Wander int
	// Scramble selects the scrambling of the low-discrepancy points and the
	// random steps. Equal values give equal results.
	Scramble uint64
	// Say puts the greatest value so far into words for somebody who waits; nil: it is
	// not shown.
	Say func(value float64) finding.Text
}

// Light gives the options of a short search, of some 1000 evaluations in 16
// dimensions, for a function close to one whose maximum is known: the seeds.
func Light(seeds ...[]float64) Options {
	return Options{
		Budget:        700,
		FullCorners:   6,
		Climbs:        3,
		PerCoordinate: 4,
		LeastPoints:   -1,
		Starts:        3,
		Meet:          -1,
		Wander:        4,
		FinestStep:    maximumStep,
		Seeds:         seeds,
	}
}

// Quick gives the options of a short search by climbs: from the seeds, which may be maxima of another question, and from far away.
func Quick(seeds ...[]float64) Options {
	o := Light(seeds...)
	o.Meet, o.Near, o.Far = 0, 2, 5
	return o
}

// Maximum is a local maximum: no better point was found near it.
type Maximum struct {
	Point []float64
	Value float64
}

// Result is what a search found.
type Result struct {
	Found bool // false: no point had a value, and Best means nothing
	Best  Maximum
	// Maxima are the local maxima, best first, Best among them. Two of them are
	// parted by a valley on the straight line between them.
	Maxima []Maximum
	// Gap is the best value minus the second-best maximum's; 0 with fewer than
	// two maxima.
	Gap         float64
	Evaluations int
	Sketched    bool // it ended as a sketch (Options.Sketch)
	Met         bool // it ended by climbs of which half came to the same (meet.go, near.go)
	// Tame: a full search in which climbs from far apart came to the same, and all else, seeds and hills, led to a tenth more at most.
	Tame bool
	// Undefined counts the points whose value was NaN or infinite. Where it is
	// not zero the greatest value is not known.
	Undefined int
	// UndefinedAt is the first of them in the order of the search; nil: none.
	UndefinedAt []float64
	// AllCorners tells that every corner of the box was tried.
	AllCorners bool
	// Step: no step of this length along one coordinate, kept inside the box,
	// improves on Best. At most 2^-10; 0: the last compass search did not end
	// within its allowance.
	Step float64
}

// Maximise looks for the greatest value of a function over [0,1]^dim. evaluator
// makes one Objective per worker and is called from the caller's goroutine. The
// result is the same, bit for bit, for any number of workers. The only error is
// the context's.
//
// It panics on a negative dimension and on a seed that is not in the box. A
// panic of an evaluator is raised again in the caller's goroutine.
func Maximise(ctx context.Context, dim int, evaluator func() Objective, o Options) (Result, error) {
	o = o.complete(dim).at(Strength(ctx))
	r := newRun(ctx, dim, evaluator, o)
	r.plant()
	if r.enough() {
		return r.result(r.starts()), ctx.Err()
	}
	if r.dim > r.o.FullCorners {
		if found, ok := r.climbed(); ok {
			res := r.result(found)
			res.Sketched, res.Met = r.o.Sketch, r.met
			return res, ctx.Err()
		}
	}
	var found []Maximum
	stages := []func(){r.screen, r.corners, r.sample,
		func() { found = r.climbStarts() },
		func() { found = r.polish(r.wandered(found)) }}
	for i, stage := range stages {
		stage()
		if err := ctx.Err(); err != nil {
			return Result{}, err
		}
		if i < len(stages)-1 && r.enough() {
			return r.result(r.starts()), nil
		}
	}
	return r.result(found), nil
}

// enough tells that what was asked for has been found.
func (r *run) enough() bool {
	return r.o.Enough != nil && slices.ContainsFunc(r.tried, func(m Maximum) bool { return m.Value > *r.o.Enough })
}

// complete checks the options and fills in the defaults.
func (o Options) complete(dim int) Options {
	if dim < 0 {
		panic(fmt.Sprintf("search: dimension %d", dim))
	}
	for i, s := range o.Seeds {
		checkSeed(i, s, dim)
	}
	if o.Workers <= 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	if o.Budget <= 0 {
		o.Budget = max(7500, 1000+250*dim)
	}
	o.FullCorners = countOr(o.FullCorners, 10)
	o.Climbs = countOr(o.Climbs, 12)
	o.PerCoordinate = countOr(o.PerCoordinate, 64)
	if dim <= 6 {
		o.LeastPoints = countOr(o.LeastPoints, 3072)
	}
	o.LeastPoints = max(0, o.LeastPoints)
	o.Starts = max(1, countOr(o.Starts, 10))
	o.Settle = countOr(o.Settle, 100)
	o.Meet, o.Wander = countOr(o.Meet, 6), countOr(o.Wander, 10)
	if o.FinestStep <= 0 {
		o.FinestStep = winnerStep
	}
	o.FinestStep = min(o.FinestStep, maximumStep)
	return o
}

func countOr(n, byDefault int) int {
	switch {
	case n < 0:
		return 0
	case n == 0:
		return byDefault
	}
	return n
}

func checkSeed(i int, s []float64, dim int) {
	if len(s) != dim {
		panic(fmt.Sprintf("search: seed %d has %d coordinates, the box has %d", i, len(s), dim))
	}
	for j, u := range s {
		if math.IsNaN(u) || u < 0 || u > 1 {
			panic(fmt.Sprintf("search: coordinate %d of seed %d is %v, outside [0, 1]", j, i, u))
		}
	}
}
