package limits

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// Options steer a check. The zero value is right.
type Options struct {
	// Measured is what the builder's own shots and tests say; nil: nothing.
	Measured *Findings
	// Depth says whether the wave model is run at the worst shot.
	Depth Depth
	// Day is the day of the question, an ISO date: what is past its date by then
	// fails. "" judges no dates.
	Day string
}

// judge collects the verdicts of one launcher.
type judge struct {
	*Assessment
	ctx            context.Context
	report         Report
	depth          Depth
	known          []startSeed // the hardest shots of a search over normal operation and more; nil: none was made
	blockedVerdict *Verdict    // barrel.blocked, which the plugged muzzle's fault takes over
}

// Check judges a launcher: every verdict, worst first. The error is the
// context's, or a WithheldError where a computation failed its own checks.
func Check(ctx context.Context, l *Launcher, o Options) (Report, error) {
	j := &judge{ctx: ctx, depth: o.Depth, Assessment: &Assessment{Launcher: l, Stated: l, Day: o.Day}}
	if o.Measured != nil {
		j.Launcher = o.Measured.Narrow(l)
	}
	if err := j.energies(); err != nil {
		return Report{}, err
	}
	if err := j.useFindings(o.Measured); err != nil {
		return Report{}, err
	}
	j.energyVerdicts()
	for _, step := range []func() error{j.stalled, j.vessels, j.blocked, j.objects, j.ladderVerdicts} {
		if err := step(); err != nil {
			return Report{}, err
		}
	}
	j.modelRange()
	j.body()
	j.valves()
	j.storedEnergy()
	if err := j.emptyingAndFaults(); err != nil {
		return Report{}, err
	}
	j.faultHoldsMeasured()
	j.dates(o.Day)
	j.assumptions()
	j.checklist()
	j.close()
	return j.report, nil
}

// newVerdict starts a verdict; judge, unknown or notApplicable ends it.
func (j *judge) newVerdict(id, title string, unit Quantity) *Verdict {
	return &Verdict{ID: id, Title: title, Unit: unit, Status: Unknown, Basis: OnCircuit}
}

func (j *judge) add(vs ...*Verdict) {
	for _, v := range vs {
		j.report.Verdicts = append(j.report.Verdicts, *v)
	}
}

// judge compares value with an upper limit.
func (v *Verdict) judge(value, limit float64) {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		v.unknown("the value could not be computed")
		return
	}
	margin := 0.0
	if limit != 0 {
		margin = (limit - value) / math.Abs(limit)
	} else if value > 0 {
		margin = -1
	}
	v.Value, v.Limit, v.Margin = &value, &limit, &margin
	v.Status = Pass
	if value > limit {
		v.Status = Fail
	}
}

// judgeLower compares value with a lower limit.
func (v *Verdict) judgeLower(value, limit float64) {
	v.judge(value, limit)
	if v.Margin == nil {
		return
	}
	*v.Margin = 0 - *v.Margin // never the zero with a minus
	v.Status = Pass
	if value < limit {
		v.Status = Fail
	}
}

func (v *Verdict) unknown(why string) {
	v.Status, v.Why = Unknown, why
	v.Value, v.Limit, v.Margin = nil, nil, nil
}

func (v *Verdict) notApplicable(why string) {
	v.Status, v.Why = NotApplicable, why
	v.Value, v.Limit, v.Margin = nil, nil, nil
}

// close sorts the verdicts worst first and draws the sum.
func (j *judge) close() {
	r := &j.report
	r.Energy, r.Measured, r.Wave, r.Eye = j.Energy, j.Measured, j.Wave, j.Eye
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
	r.Confirmed = r.Holds && j.measuredDecides() && r.OpenItems == 0
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
