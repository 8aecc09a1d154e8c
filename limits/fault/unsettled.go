package fault

import (
	"context"
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// unsettled judges a fault some of whose shots have no figure. Those whose
// projectile neither left nor came to rest for good, because air keeps feeding
// the barrel, are told from those that could not be computed: the rest is
// searched without them, and a shot that leaves above the limit fails.
func (st *stage) unsettled(ctx context.Context, of *faultSearch, q worst.Question, o search.Options) error {
	r, w, first := of.result, of.w, of.found
	r.Energy, r.Judged, r.Status = math.NaN(), math.NaN(), finding.Unknown
	r.Reason = finding.Say("%d of %d shots could not be computed", first.Result.Undefined, first.Result.Evaluations)
	whole := q.Measure
	q.Measure = func(c *pneumatics.Circuit, s *pneumatics.Result) float64 {
		if s.Reason == "" && s.Outcome == pneumatics.TimeRanOut {
			return 0
		}
		return whole(c, s)
	}
	left, err := worst.Maximise(ctx, w, q, o)
	if err != nil {
		return err
	}
	r.Shots += left.Result.Evaluations
	if left.Undetermined() {
		return nil
	}
	limit := st.Limits.Total.Value
	why := finding.Say("in %d of %d shots the projectile neither leaves nor stays for good, because air keeps feeding the barrel",
		first.Result.Undefined, first.Result.Evaluations)
	if judged := left.Value * worst.ModelFactor; judged > limit {
		r.Energy, r.Judged = left.Energies()
		r.Status = finding.Fail
		r.Reason = finding.Say("above the limit of %s; %s", finding.Joule(limit), why)
		if of.f.keptBy.ID != "" {
			st.kept(r, of.f)
		}
		return nil
	}
	r.Reason = why.Say(": what it could still do is not known; those that leave have at most %s",
		finding.WorstJoule(left.Value*worst.ModelFactor))
	return nil
}
