package limits

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// Options steer a check. The zero value is right.
type Options struct{}

// judge collects the verdicts of one launcher.
type judge struct {
	ctx     context.Context
	l       *Launcher
	limits  EnergyLimits
	report  Report
	normal  *worst // the worst case of normal operation
	noStart string // why the highest start pressure is unknown; "" known
}

// Check judges a launcher: every verdict, worst first. The error is the
// context's, or a WithheldError where a computation failed its own checks.
func Check(ctx context.Context, l *Launcher, _ Options) (Report, error) {
	j := &judge{ctx: ctx, l: l}
	if err := j.energies(); err != nil {
		return Report{}, err
	}
	j.energyVerdicts()
	for _, step := range []func() error{j.stalled, j.vessels, j.blocked, j.objects} {
		if err := step(); err != nil {
			return Report{}, err
		}
	}
	j.body()
	j.valves()
	j.storedEnergy()
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
	*v.Margin = -*v.Margin
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
	rank := map[Status]int{Fail: 0, Unknown: 1, Pass: 2, NotApplicable: 3}
	slices.SortStableFunc(r.Verdicts, func(a, b Verdict) int {
		if c := cmp.Compare(rank[a.Status], rank[b.Status]); c != 0 {
			return c
		}
		return cmp.Compare(marginOf(a), marginOf(b))
	})
	r.Holds = true
	measured := true
	for _, v := range r.Verdicts {
		if v.Status == Fail || v.Status == Unknown {
			r.Holds = false
		}
		if v.Basis == OnModel || v.Basis == OnCeiling {
			measured = false
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
	if v.Margin == nil {
		return math.Inf(1)
	}
	return *v.Margin
}
