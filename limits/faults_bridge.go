package limits

import (
	"context"

	"puffproof/pneumatics"
)

// Faults runs every single fault of every part. The error is the context's, or a
// WithheldError.
func Faults(ctx context.Context, l *Launcher, o FaultOptions) (*FaultReport, error) {
	j := &judge{ctx: ctx, Assessment: &Assessment{Launcher: l, Stated: l, Day: o.Day}}
	if err := j.energies(); err != nil {
		return nil, err
	}
	for _, step := range []func() error{j.stalled, j.blocked, func() error { return j.vents(slowEndOnly) }} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	j.blockedVerdict = j.verdict("barrel.blocked")
	j.report.Verdicts = nil
	if err := j.faultVerdicts(o.Pairs); err != nil {
		return nil, err
	}
	j.loadingVerdict()
	j.Faults.Verdicts = j.report.Verdicts
	j.faultItems()
	j.Faults.Items = j.report.Items
	return j.Faults, nil
}

// emptyingAndFaults adds the verdicts on emptying, on single faults and on
// loading to a check.
func (j *judge) emptyingAndFaults() error {
	if err := j.vents(slowEndOnly); err != nil {
		return err
	}
	j.gauges()
	j.blockedVerdict = j.verdict("barrel.blocked")
	if err := j.faultVerdicts(LatentPairs); err != nil {
		return err
	}
	j.loadingVerdict()
	j.report.Notes = append(j.report.Notes, jamNotes(j.Assessment)...)
	return nil
}

// faultVerdicts runs the faults and adds the verdicts on them.
func (j *judge) faultVerdicts(pairs PairChoice) (err error) {
	in := FaultInput{Launcher: j.Launcher, Limits: j.Limits, Normal: j.Normal, NormalUnknown: j.energyUnknown(),
		Emptying: j.Emptying, Loading: j.loadingAir(), Plugged: pluggedOf(j.blockedVerdict), Day: j.Day}
	if j.Faults, err = computeFaults(j.ctx, in, pairs); err != nil {
		return err
	}
	fault, unasked := energyFault(j.Assessment), shotUnasked(j.Assessment)
	j.add(&fault, &unasked)
	return nil
}

// pluggedOf reads the figures of barrel.blocked back from its verdict.
func pluggedOf(v *Verdict) Plugged {
	switch {
	case v == nil:
		return Plugged{Unknown: "barrel.blocked was not judged"}
	case v.Status == Unknown:
		return Plugged{Unknown: v.Why}
	}
	return Plugged{Value: *v.Value, Limit: *v.Limit, Why: v.Why}
}

func (j *judge) faultItems() {
	j.loadingAir()
	for _, it := range faultItems(j.Assessment) {
		j.item(it)
	}
}

func (j *judge) practiceItems() {
	for _, it := range practiceItems(j.Assessment) {
		j.item(it)
	}
}

// verdict gives a copy of a verdict that was already added; nil: none.
func (j *judge) verdict(id string) *Verdict {
	for _, v := range j.report.Verdicts {
		if v.ID == id {
			return &v
		}
	}
	return nil
}

func (j *judge) reveals(item string) []string { return j.Faults.reveals(item) }

func (l *Launcher) confirmed(id, day string) bool {
	j := &judge{Assessment: &Assessment{Launcher: l, Day: day}}
	return j.confirmed(id)
}

func (a *Assessment) energyUnknown() string { return (&judge{Assessment: a}).energyUnknown() }

func newVerdict(id, title string, unit Quantity) Verdict {
	return Verdict{ID: id, Title: title, Unit: unit, Status: Unknown, Basis: OnCircuit}
}

func shareOfEnergy(l *Launcher, of func(total float64) float64) func(*pneumatics.Circuit, *pneumatics.Result) float64 {
	return (&judge{Assessment: &Assessment{Launcher: l}}).share(of)
}

// Identifiers of verdicts of other families.
const (
	EnergyTotal       = "energy.total"
	EnergyFault       = "energy.fault"
	LadderOrder       = "ladder.order"
	ReliefCapacity    = "relief.capacity"
	VesselRating      = "vessel.rating"
	BarrelStalled     = "barrel.stalled"
	MisuseOfObjects   = "misuse.objects"
	ProjectileChoking = "projectile.choking"
	LoadingEmpty      = "loading.empty"
	VentPoints        = "vent.points"
	VentPowerLoss     = "vent.power-loss"
)
