package search

import (
	"context"
	"fmt"
)

// A strength is the share of the usual effort that every search below a context
// makes. Full strength, 1, is what every figure shown rests on: a
// weaker search finds smaller maxima and may call something safe that is not.
// Less is for tests that ask how figures go together, not how large they are,
// and for comparing two builds of a program over many designs. More is for the
// adversary, a search many times as long from other points, which must not find more.

type strengthKey struct{}

// WithStrength gives a context below which searches make a share of their usual
// effort, above 0 and at most 100. It panics on any other share.
func WithStrength(ctx context.Context, share float64) context.Context {
	if !(share > 0 && share <= 100) {
		panic(fmt.Sprintf("search: strength %v, outside (0, 100]", share))
	}
	return context.WithValue(ctx, strengthKey{}, share)
}

// Strength is the share of the usual effort that searches below ctx make; 1 where
// none is set.
func Strength(ctx context.Context) float64 {
	if share, ok := ctx.Value(strengthKey{}).(float64); ok {
		return share
	}
	return defaultStrength()
}

// glimpse is the strength below which a search evaluates its seeds and a handful of points, and settles nothing; down to there
// some thirty evaluations are left of any effort. Only tests of words, files and statuses ask for so little: no search of the
// program is lighter than 0.0003, a remedy tried at a first look.
const glimpse = 1e-4

// at gives the options of a search at a strength.
func (o Options) at(share float64) Options {
	switch {
	case share > 1:
		return o.strengthened(share)
	case share == 1:
		return o
	}
	less := func(n, least int) int { return max(min(n, least), int(float64(n)*share)) }
	o.Meet, o.Near, o.Sketch = -1, 0, false
	if share < glimpse {
		o.Budget, o.Climbs, o.PerCoordinate, o.LeastPoints, o.Starts, o.Wander, o.Settle = min(o.Budget, 6), 0, 0, 2, 1, 0, 0
		return o
	}
	o.Budget = less(o.Budget, 20)
	o.Climbs = less(o.Climbs, 1)
	o.PerCoordinate = less(o.PerCoordinate, 1)
	o.LeastPoints = less(o.LeastPoints, 16)
	o.Starts = less(o.Starts, 1)
	o.Wander = less(o.Wander, 0)
	o.Settle = less(o.Settle, 1)
	return o
}

// strengthened gives the options of a search that is so many times as long, and scatters
// its points otherwise.
func (o Options) strengthened(times float64) Options {
	more := func(n int) int { return int(float64(n) * times) }
	o.Budget, o.Starts, o.Settle = more(o.Budget), more(o.Starts), more(o.Settle)
	o.Climbs, o.PerCoordinate, o.LeastPoints = more(max(o.Climbs, 1)), more(max(o.PerCoordinate, 4)), more(o.LeastPoints)
	o.Scramble += 7919
	o.Meet, o.Near, o.Sketch = -1, 0, false
	return o
}
