package limits

import (
	"context"
	"math"

	"puffproof/limits/search"
)

// energyAtDeadHead is the judged energy [J] of shots from up to the supply's dead
// head, left in the heat; NaN where the question does not arise (no supply, no dead
// head stated, one above a rating) or could not be answered. e and normal are those
// of normal operation. The error is the context's.
func (l *Launcher) energyAtDeadHead(ctx context.Context, e *EnergyReport, normal *worst) (float64, error) {
	if l.Supply == nil || !l.Supply.DeadHead.Set || normal == nil || !normal.result.Found {
		return math.NaN(), nil
	}
	high := l.soak(l.Supply.DeadHead.High)
	if high > l.lowestRating() {
		return math.NaN(), nil
	}
	if high <= e.StartHigh {
		return e.Judged, nil
	}
	q := l.energyQuestion(high)
	// One shot is often enough to tell that it can.
	b := newBox(l, q)
	u := append([]float64(nil), normal.result.Best.Point...)
	if len(u) == b.dim && b.start >= 0 {
		u[b.start] = 1
		if e1 := ModelFactor * b.evaluator().Value(u); e1 > e.Limit {
			return e1, nil
		}
	}
	w, err := l.maximise(ctx, q, search.Light(seedsFor(l, normal, q)...))
	if err != nil || w.undetermined() {
		return math.NaN(), err
	}
	return w.value * ModelFactor, nil
}
