package limits

import (
	"context"
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
