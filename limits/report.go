package limits

import (
	"cmp"
	"math"
	"slices"
)

// close sorts the verdicts worst first and draws the sum. measured tells whether
// measured shots decide the energy.
func (r *Report) close(measured bool) {
	rank := map[Status]int{Fail: 0, Unknown: 1, Pass: 2, NotApplicable: 3}
	slices.SortStableFunc(r.Verdicts, func(a, b Verdict) int {
		if c := cmp.Compare(rank[a.Status], rank[b.Status]); c != 0 {
			return c
		}
		return cmp.Compare(marginOf(a), marginOf(b))
	})
	r.Holds = true
	for _, v := range r.Verdicts {
		if v.Status == Fail || v.Status == Unknown {
			r.Holds = false
		}
	}
	for _, it := range r.Items {
		if it.Done == nil {
			r.OpenItems++
		}
	}
	r.Confirmed = r.Holds && measured && r.OpenItems == 0
}

func marginOf(v Verdict) float64 {
	if v.ID == "source.limited" && v.Status == Pass {
		return math.Inf(-1) // the strongest argument there is goes before the other passes
	}
	if v.Margin == nil {
		return math.Inf(1)
	}
	return *v.Margin
}

// Report is the answer of a whole check.
type Report struct {
	Verdicts  []Verdict // worst first
	Holds     bool      // no verdict fails or is unknown
	Confirmed bool      // on measured energies, with no item open
	Items     []Item    // the whole checklist
	OpenItems int
	Energy    *EnergyReport
	Wave      *WaveComparison // the worst shot in both models; nil: not asked for
	Measured  *MeasuredReport // nil: no measurements
	Eye       []EyeFigure
	Assumed   []Band // every band that the design did not state
	Notes     []string
}
