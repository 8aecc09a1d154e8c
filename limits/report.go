package limits

import (
	"cmp"
	"math"
	"slices"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/budget"
	"puffproof/limits/catalogue"
	"puffproof/limits/checklist"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/sound"
	"puffproof/limits/verdict"
	"puffproof/limits/worst"
)

// Report is the answer of a whole check.
type Report struct {
	Verdicts   []finding.Verdict // worst first
	Holds      bool              // no verdict fails or is unknown
	Declared   int               // keys whose values are declared only
	Template   []string          // keys whose figures are still those of the file to start from
	ToFind     []string          // keys that nobody knows yet
	Conditions int               // verdicts that hold only while people keep a condition
	Confirmed  bool              // on measured energies, with no item open and no answer that is only said
	Items      []finding.Item    // the whole checklist
	OpenItems  int
	Said       int    // answers that close an item and are said, not recorded
	Unproved   int    // answers that the record of the commissioning should bear out, and does not
	Altered    bool   // the record itself was altered
	NoRecord   string // why the record cannot be read, as "is a link, not the file itself"; "" it can, or there is none
	Energy     *worst.EnergyReport
	Wave       *worst.WaveComparison // the worst shot in both models; nil: not asked for
	Measured   *measure.Report       // nil: no measurements
	Budget     *budget.Report        // what the judged energy is made of; nil: not computed
	Eye        []benchmark.EyeFigure
	Sound      *sound.Report   // how loud a shot is; nil: not known
	Assumed    []launcher.Band // every band that the design did not state
	Notes      []finding.Text
	Causes     []Cause // of what fails or is unknown, that which blocks most first
	InTurn     []Cause // of these what to do first, each tried after those before it; nil: not tried
}

// ReportOf judges what was assessed. It needs every stage.
func ReportOf(a *assessment.Assessment) Report {
	r := Report{Verdicts: verdict.Judge(a, 0), Items: checklist.Of(a), Energy: a.Energy, Measured: a.Measured, Wave: a.Wave, Budget: a.Budget,
		Eye: a.Eye, Sound: a.Sound, Assumed: catalogue.Assumed(a.Launcher), Declared: len(a.Launcher.Declared),
		Template: a.Launcher.Template, ToFind: a.Launcher.ToFind}
	if a.Measured != nil {
		r.Notes = append(r.Notes, a.Measured.Remarks...)
	}
	if note := verdict.ModelRange(a); len(note) != 0 {
		r.Notes = append(r.Notes, note)
	}
	r.Notes = append(r.Notes, verdict.DesignNotes(a)...)
	if note := checklist.Unneeded(a.Launcher, r.Items); len(note) != 0 {
		r.Notes = append(r.Notes, note)
	}
	r.weighProof(a.Stated)
	r.conclude(verdict.MeasuredDecides(a))
	r.Causes = causesOf(a, r.Verdicts)
	return r
}

// Verdict finds a verdict by its identifier; false where there is none.
func (r *Report) Verdict(id string) (finding.Verdict, bool) {
	for _, v := range r.Verdicts {
		if v.ID == id {
			return v, true
		}
	}
	return finding.Verdict{}, false
}

// conclude sorts the verdicts worst first, counts and draws the sum. measured tells
// whether measured shots decide the energy.
func (r *Report) conclude(measured bool) {
	slices.SortStableFunc(r.Verdicts, func(a, b finding.Verdict) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(marginOf(a), marginOf(b)))
	})
	r.Holds = true
	for _, v := range r.Verdicts {
		switch v.Status {
		case finding.Fail, finding.Unknown:
			r.Holds = false
		case finding.Conditional:
			r.Conditions++
		}
	}
	for _, it := range r.Items {
		if it.Done == nil {
			r.OpenItems++
		}
	}
	r.Confirmed = r.Holds && measured && r.OpenItems == 0 && r.Said == 0
}

// weighProof counts what stands behind the answers.
func (r *Report) weighProof(l *launcher.Launcher) {
	for i := range r.Items {
		if d := r.Items[i].Done; d != nil && d.Said() {
			r.Said++
		}
	}
	for i := range l.Checklist {
		if len(l.Checklist[i].Unproved) != 0 {
			r.Unproved++
		}
	}
	r.Altered, r.NoRecord = len(l.Altered) > 0, l.RecordTrouble
}

// rank orders the answers, the worst first. What was read off a gauge counts more than
// what was computed: a log that is not good goes before everything, a good one to the end.
func rank(v finding.Verdict) int {
	read := v.ID == finding.MeasuredEmptying || v.ID == finding.MeasuredLeak
	switch v.Status {
	case finding.Fail:
		if read {
			return -2
		}
		return 0
	case finding.Unknown:
		if read {
			return -1
		}
		return 1
	case finding.Conditional:
		return 2
	case finding.Pass:
		if read {
			return 5
		}
		return 3
	}
	return 4
}

// marginOf orders verdicts of the same answer.
func marginOf(v finding.Verdict) float64 {
	switch {
	case v.ID == finding.SourceLimited && v.Status == finding.Pass:
		return math.Inf(-1) // the strongest argument there is goes before the other passes
	case v.Margin == nil:
		return math.Inf(1)
	}
	return *v.Margin
}
