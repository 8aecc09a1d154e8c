package limits

import (
	"fmt"
	"math"

	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// unsettled judges a fault some of whose shots have no figure. Those whose
// projectile neither left nor came to rest for good, because air keeps feeding
// the barrel, are told from those that could not be computed: the rest is
// searched without them, and a shot that leaves above the limit fails.
func (st *faultStage) unsettled(r *FaultResult, w *Launcher, q question, o search.Options, first *worst) error {
	r.Energy, r.Judged, r.Status = math.NaN(), math.NaN(), Unknown
	r.Reason = fmt.Sprintf("%d of %d shots could not be computed", first.result.Undefined, first.result.Evaluations)
	whole := q.measure
	q.measure = func(c *pneumatics.Circuit, s *pneumatics.Result) float64 {
		if s.Reason == "" && s.Outcome == pneumatics.TimeRanOut {
			return 0
		}
		return whole(c, s)
	}
	left, err := w.maximise(st.ctx, q, o)
	if err != nil {
		return err
	}
	r.Shots += left.result.Evaluations
	if left.undetermined() {
		return nil
	}
	limit := st.Limits.Total.Value
	why := fmt.Sprintf("in %d of %d shots the projectile neither leaves nor stays for good, because air keeps feeding the barrel",
		first.result.Undefined, first.result.Evaluations)
	if judged := left.value * ModelFactor; judged > limit {
		r.Energy, r.Judged, r.Status = left.value, judged, Fail
		r.Reason = "above the limit of " + joule(limit) + "; " + why
		return nil
	}
	r.Reason = why + ": what it could still do is not known; those that leave have at most " + joule(left.value*ModelFactor)
	return nil
}
