package worst

import (
	"context"
	"slices"

	"puffproof/limits/search"
)

// StuckProbe computes at points of a box what a stuck projectile could gain when a hand frees it, at the accuracy of a search. It
// owns its scratch space: one per worker.
type StuckProbe struct{ of *stuck }

// StuckProbe is a new one; nil where the box has no start pressure, so that nothing is stuck.
func (b *Box) StuckProbe() *StuckProbe {
	if b.Start < 0 {
		return nil
	}
	return &StuckProbe{&stuck{e: b.Evaluator(), full: make([]float64, b.Dim), start: b.Start, edge: searchEdge, lower: 2}}
}

// Freed is what it could gain at a point, start pressure apart, from the start that leaves it most [J]; of a nil probe nothing.
func (p *StuckProbe) Freed(u []float64) float64 {
	if p == nil {
		return 0
	}
	return p.of.Value(slices.Delete(slices.Clone(u), p.of.start, p.of.start+1))
}

// StuckCorner looks lightly for the point of the box at which a stuck projectile could gain most; false: nowhere is one stuck with
// air behind it. The error is the context's.
func (b *Box) StuckCorner(ctx context.Context) (at []float64, found bool, err error) {
	if b.Start < 0 {
		return nil, false, nil
	}
	b.Until(ctx)
	o := stuckOptions(0)
	o.Budget, o.Starts, o.Settle = 150, 2, 5 // a launcher of which one creeps takes long for each point
	res, err := search.Maximise(ctx, b.Dim-1, func() search.Objective { return b.StuckProbe().of }, o)
	if err != nil || !res.Found || !(res.Best.Value > 0) {
		return nil, false, err
	}
	return slices.Insert(slices.Clone(res.Best.Point), b.Start, 1), true, nil
}
