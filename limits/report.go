package limits

import (
	"cmp"
	"math"
	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/checklist"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
	"puffproof/limits/worst"
	"slices"
)

// close sorts the verdicts worst first and draws the sum. measured tells whether
// measured shots decide the energy.
func (r *Report) close(measured bool) {
	rank := map[finding.Status]int{finding.Fail: 0, finding.Unknown: 1, finding.Pass: 2, finding.NotApplicable: 3}
	slices.SortStableFunc(r.Verdicts, func(a, b finding.Verdict) int {
		if c := cmp.Compare(rank[a.Status], rank[b.Status]); c != 0 {
			return c
		}
		return cmp.Compare(marginOf(a), marginOf(b))
	})
	r.Holds = true
	for _, v := range r.Verdicts {
		if v.Status == finding.Fail || v.Status == finding.Unknown {
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

func marginOf(v finding.Verdict) float64 {
	if v.ID == "source.limited" && v.Status == finding.Pass {
		return math.Inf(-1) // the strongest argument there is goes before the other passes
	}
	if v.Margin == nil {
		return math.Inf(1)
	}
	return *v.Margin
}

// Report is the answer of a whole check.
type Report struct {
	Verdicts  []finding.Verdict // worst first
	Holds     bool              // no verdict fails or is unknown
	Confirmed bool              // on measured energies, with no item open
	Items     []finding.Item    // the whole checklist
	OpenItems int
	// Conditions is how many verdicts are conditional.
	Conditions int
	Energy     *worst.EnergyReport
	Wave       *worst.WaveComparison // the worst shot in both models; nil: not asked for
	Measured   *measure.Report       // nil: no measurements
	Eye        []benchmark.EyeFigure
	Assumed    []launcher.Band // every band that the design did not state
	Notes      []finding.Text
}

// TakeLogs lets tests of the real launcher decide beside the computed verdicts; nil
// where none was read.
func (r *Report) TakeLogs(l *launcher.Launcher, vent *vent.LogAnswer, leak *vent.LeakAnswer) {
	a := &assessment.Assessment{Launcher: l, Logs: assessment.Logs{Vent: vent, Leak: leak}}
	r.Verdicts, r.Items = verdict.WithLogs(r.Verdicts, a), checklist.AnsweredByLogs(r.Items, a)
	r.count()
}

// TakeDates opens what rests on dates in a design that lie after a day, an ISO date.
func (r *Report) TakeDates(l *launcher.Launcher, day string) {
	r.Items = checklist.ReopenedByDates(r.Items, l, day)
	r.count()
}

// count counts what holds and what is open again and draws what follows.
func (r *Report) count() {
	bad := func(v finding.Verdict) bool { return v.Status == finding.Fail || v.Status == finding.Unknown }
	open := func(it finding.Item) bool { return it.Done == nil }
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
