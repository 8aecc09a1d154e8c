package worst

import (
	"context"
	"math"
	"slices"

	"puffproof/limits/launcher"
	"puffproof/limits/search"
)

// EnergyAtDeadHead is the judged energy [J] of shots from up to the supply's dead
// head, left in the heat; NaN where the question does not arise (no supply, no dead
// head stated, one above a rating) or could not be answered. e and normal are those
// of normal operation. The error is the context's.
func EnergyAtDeadHead(ctx context.Context, l *launcher.Launcher, e *EnergyReport, normal *Case) (float64, error) {
	if l.Supply == nil || !l.Supply.DeadHead.Set || normal == nil || !normal.Result.Found {
		return math.NaN(), nil
	}
	high := l.Soak(l.Supply.DeadHead.High)
	if high > l.LowestRating() {
		return math.NaN(), nil
	}
	if high <= e.StartHigh {
		return e.Most(), nil
	}
	q := EnergyQuestion(l, high)
	q.Name = "supply at its dead head"
	// One shot is often enough to tell that it can.
	b := NewBox(l, q)
	seeds := SeedsFor(l, normal, q)
	if b.Start >= 0 {
		u := slices.Clone(seeds[0])
		u[b.Start] = 1
		if e1 := ModelFactor * b.Evaluator().Value(u); e1 > e.Limit {
			return e1, nil
		}
	}
	o := search.Quick(seeds...)
	o.Far = 1 // a question alike
	w, err := Maximise(ctx, l, q, o)
	if err == nil && MayExceed(w.Value*ModelFactor, e.Limit) {
		err = w.SearchOn(ctx, search.Options{Seeds: seeds})
	}
	if err == nil {
		err = w.Surely(ctx, e.Limit/ModelFactor)
	}
	if err != nil || w.Undetermined() {
		return math.NaN(), err
	}
	return w.Value * ModelFactor, nil
}
