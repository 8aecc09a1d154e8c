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
	blockedVerdict *Verdict // barrel.blocked, which the plugged muzzle's fault takes over
}

// Check judges a launcher: every verdict, worst first. The error is the
// context's, or a WithheldError where a computation failed its own checks.
func Check(ctx context.Context, l *Launcher, o Options) (Report, error) {
	a, err := assess(ctx, l, o)
	if err != nil {
		return Report{}, err
	}
	j := &judge{ctx: ctx, Assessment: a}
	early := []func(*Assessment) Verdict{energyTotal, energyArea, barrelStalled, vesselRating, vesselMaterial, barrelBlocked, misuseObjects,
		ladderOrder, reliefCapacity, reliefRating, switchBand, heatSoak, sourceLimited, muzzleSealed, projectileChoking, valveDifferential, storedEnergy}
	for _, f := range early {
		j.report.Verdicts = append(j.report.Verdicts, f(a))
	}
	if a.Measured != nil {
		j.report.Notes = append(j.report.Notes, a.Measured.Remarks...)
	}
	if note := modelRange(a); note != "" {
		j.report.Notes = append(j.report.Notes, note)
	}
	if err := j.emptyingAndFaults(); err != nil {
		return Report{}, err
	}
	for i := range j.report.Verdicts {
		if v := &j.report.Verdicts[i]; v.ID == EnergyFault {
			holdMeasured(a, v)
		}
	}
	j.dates(o.Day)
	j.report.Assumed = a.Launcher.assumed()
	j.report.Items = checklist(a)
	j.report.Energy, j.report.Measured, j.report.Wave, j.report.Eye = a.Energy, a.Measured, a.Wave, a.Eye
	j.report.close(measuredDecides(a))
	return j.report, nil
}

// assess computes what the verdicts are functions of.
func assess(ctx context.Context, l *Launcher, o Options) (*Assessment, error) {
	a := &Assessment{Launcher: l, Stated: l, Day: o.Day}
	if o.Measured != nil {
		a.Launcher = o.Measured.Narrow(l)
	}
	l = a.Launcher
	if err := a.computeEnergies(ctx, o); err != nil {
		return nil, err
	}
	var err error
	known := a.energyUnknown() == ""
	if known {
		if a.Stuck, err = l.worstStuck(ctx, l.energyQuestion(a.Energy.StartHigh)); err != nil {
			return nil, err
		}
	}
	if a.Plugged, err = l.plugged(ctx, a.Normal); err != nil {
		return nil, err
	}
	if known && l.anythingEnters() {
		if a.Misuse, err = l.misuse(ctx, a.Normal, a.Energy.StartHigh); err != nil {
			return nil, err
		}
	}
	if a.DeadHead, err = l.energyAtDeadHead(ctx, a.Energy, a.Normal); err != nil {
		return nil, err
	}
	return a, nil
}

// assessFaults computes what normal operation and single faults come to, with the
// hardest shots of a search already made. day is as in Options.
func assessFaults(ctx context.Context, l *Launcher, known []startSeed, day string) (*Assessment, error) {
	a := &Assessment{Launcher: l, Stated: l, Day: day}
	var err error
	if a.Limits, err = l.energyLimits(day); err != nil {
		return nil, err
	}
	e, err := energyStage{ctx: ctx, l: l, limits: a.Limits, known: known}.compute()
	if err != nil {
		return nil, err
	}
	a.Energy, a.Normal, a.NoStart = e.report, e.normal, e.noStart
	j := &judge{ctx: ctx, Assessment: a}
	if err := j.vents(slowEndOnly); err != nil {
		return nil, err
	}
	return a, j.faultVerdicts(LatentPairs)
}

func energyFault(a *Assessment) Verdict { // BRIDGE
	j := &judge{Assessment: a}
	j.energyFaultVerdict()
	return j.report.Verdicts[0]
}

func ventItems(a *Assessment) []Item { // BRIDGE
	j := &judge{Assessment: a}
	j.ventItems()
	return j.report.Items
}

func faultItems(a *Assessment) []Item { // BRIDGE
	j := &judge{Assessment: a}
	j.faultItems()
	j.practiceItems()
	return j.report.Items
}

// computeEnergies adds limits, energies of normal operation and what measurements
// make of them.
func (a *Assessment) computeEnergies(ctx context.Context, o Options) (err error) {
	l := a.Launcher
	if a.Limits, err = l.energyLimits(o.Day); err != nil {
		return err
	}
	e, err := energyStage{ctx: ctx, l: l, limits: a.Limits, depth: o.Depth}.compute()
	if err != nil {
		return err
	}
	a.Energy, a.Normal, a.Wave, a.NoStart = e.report, e.normal, e.wave, e.noStart
	if o.Measured != nil && a.NoStart == "" && a.Energy.StartHigh > 0 && a.Normal.result.Found {
		if a.Measured, err = a.Energy.useFindings(ctx, l, o.Measured); err != nil {
			return err
		}
	}
	if a.Energy.ProjectedArea > 0 {
		a.Eye = EyeFigures(a.Energy.Judged / a.Energy.ProjectedArea)
	}
	return nil
}

// newVerdict starts a verdict; judge, unknown or notApplicable ends it.
func newVerdict(id, title string, unit Quantity) Verdict {
	return Verdict{ID: id, Title: title, Unit: unit, Status: Unknown, Basis: OnCircuit}
}

func (j *judge) newVerdict(id, title string, unit Quantity) *Verdict {
	v := newVerdict(id, title, unit)
	return &v
}

func (j *judge) add(vs ...*Verdict) {
	for _, v := range vs {
		j.report.Verdicts = append(j.report.Verdicts, *v)
	}
}

func (j *judge) item(it Item) {
	j.report.Items = append(j.report.Items, answered([]Item{it}, j.Launcher, j.Day)...)
}

func (j *judge) confirmed(id string) bool { return j.Launcher.confirmed(id, j.Day) }

func (j *judge) seeds(q question) [][]float64 { return seedsFor(j.Launcher, j.Normal, q) }

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
