package search

import (
	"context"
	"fmt"
)

// A strength is the share of the usual effort that every search below a context
// makes, in (0, 1]. Full strength, 1, is what every figure shown rests on: a
// weaker search finds smaller maxima and may call something safe that is not.
// Less is for tests that ask how figures go together, not how large they are,
// and for comparing two builds of a program over many designs.

type strengthKey struct{}

// WithStrength gives a context below which searches make a share of their usual
// effort, in (0, 1]. It panics on any other share.
func WithStrength(ctx context.Context, share float64) context.Context {
	if !(share > 0 && share <= 1) {
		panic(fmt.Sprintf("search: strength %v, outside (0, 1]", share))
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

// weakened gives the options of a search at a strength.
func (o Options) weakened(share float64) Options {
	if share >= 1 {
		return o
	}
	less := func(n, least int) int { return max(min(n, least), int(float64(n)*share)) }
	o.Budget = less(o.Budget, 40)
	o.Climbs = less(o.Climbs, 1)
	o.PerCoordinate = less(o.PerCoordinate, 1)
	o.LeastPoints = less(o.LeastPoints, 16)
	o.Starts = less(o.Starts, 1)
	o.Settle = less(o.Settle, 3)
	return o
}
