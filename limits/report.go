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

// TakeLogs lets tests of the real launcher decide beside the computed verdicts; nil
// where none was read.
func (r *Report) TakeLogs(l *Launcher, vent *LogAnswer, leak *LeakAnswer) {
	a := &Assessment{Launcher: l, Logs: Logs{Vent: vent, Leak: leak}}
	r.Verdicts, r.Items = withLogs(r.Verdicts, a), answeredByLogs(r.Items, a)
	r.count()
}

// TakeDates opens what rests on dates in a design that lie after a day, an ISO date.
func (r *Report) TakeDates(l *Launcher, day string) {
	r.Items = reopenedByDates(r.Items, l, day)
	r.count()
}

// count counts what holds and what is open again and draws what follows.
func (r *Report) count() {
	bad := func(v Verdict) bool { return v.Status == Fail || v.Status == Unknown }
	open := func(it Item) bool { return it.Done == nil }
	r.Holds = r.Holds && !slices.ContainsFunc(r.Verdicts, bad)
	r.OpenItems = 0
	for _, it := range r.Items {
		if open(it) {
			r.OpenItems++
		}
	}
	if !r.Holds || r.OpenItems > 0 {
		r.Confirmed = false
	}
}
