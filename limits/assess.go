package limits

import (
	"context"

	"puffproof/limits/search"
)

// Options steer an assessment. The zero value asks for everything a check needs.
type Options struct {
	// Measured is what the builder's own shots and tests say; nil: nothing.
	Measured *Findings
	// Logs are readings of the real launcher, judged; nil where none was read.
	Logs Logs
	// Depth says whether the wave model is run at the worst shot.
	Depth Depth
	// Day is the day of the question, an ISO date: what is past its date by then
	// fails, and what is dated later counts as not done. "" judges no dates.
	Day string
	// Want says which stages are computed; 0: all.
	Want Stages
	// Sheets asks for all readings to expect of an emptying and a leak-down, with
	// their bands, and not only for what the verdicts need.
	Sheets SheetDetail
	// Pairs says which pairs of faults are computed.
	Pairs PairChoice
	// Strength is the share of the usual effort that searches make, in (0, 1]; 0: 1.
	// Less is for tests: a weaker search may call something safe that is not.
	Strength float64
	// Seeds are the hardest shots of a search already made over normal operation and
	// more; nil: none was made.
	Seeds []startSeed
}

// Stages is a set of the parts of an assessment.
type Stages uint8

// The stages. Faults need energies and emptying and bring them along.
const (
	EnergyStage   Stages = 1 << iota // of normal operation, with what measurements make of them
	StuckStage                       // the stuck projectile, the plugged muzzle
	ObjectStage                      // other objects in the barrel; the supply's dead head
	EmptyingStage                    // how it empties, what state loading leaves
	FaultStage
)

func (s Stages) has(one Stages) bool { return s == 0 || s&one != 0 }

// Assess computes all that the verdicts on a launcher are functions of, each stage
// once. The error is the context's, an own limit that cannot be used, or a
// WithheldError where a computation failed its own checks.
func Assess(ctx context.Context, l *Launcher, o Options) (*Assessment, error) {
	if o.Strength > 0 {
		ctx = search.WithStrength(ctx, o.Strength)
	}
	a := &Assessment{Stated: l, Launcher: l, Day: o.Day, Logs: o.Logs}
	if o.Measured != nil {
		a.Launcher = o.Measured.Narrow(l)
	}
	var err error
	if a.Limits, err = l.energyLimits(o.Day); err != nil {
		return nil, err
	}
	for _, stage := range []struct {
		of      Stages
		compute func(*Assessment, context.Context, Options) error
	}{
		{EnergyStage | FaultStage, (*Assessment).computeEnergies},
		{StuckStage, (*Assessment).computeStuck},
		{ObjectStage, (*Assessment).computeObjects},
		{EmptyingStage | FaultStage, (*Assessment).computeEmptying},
		{FaultStage, (*Assessment).computeFaults},
	} {
		if !o.Want.has(stage.of) {
			continue
		}
		if err := stage.compute(a, ctx, o); err != nil {
			return nil, err
		}
	}
	return a, nil
}

// computeEnergies adds the energies of normal operation and what measurements make
// of them.
func (a *Assessment) computeEnergies(ctx context.Context, o Options) error {
	l := a.Launcher
	e, err := energyStage{ctx: ctx, l: l, limits: a.Limits, depth: o.Depth, known: o.Seeds}.compute()
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

// computeStuck adds the stuck projectile and the plugged muzzle.
func (a *Assessment) computeStuck(ctx context.Context, _ Options) (err error) {
	l := a.Launcher
	high, known := l.SoakedHigh()
	if a.Energy != nil && a.energyUnknown() != "" {
		known = false
	}
	if known {
		if a.Stuck, err = l.worstStuck(ctx, l.energyQuestion(high)); err != nil {
			return err
		}
	}
	a.Plugged, err = l.plugged(ctx, a.Normal)
	return err
}

// computeObjects adds what a child may put into the barrel, and the energy at the
// supply's dead head.
func (a *Assessment) computeObjects(ctx context.Context, _ Options) (err error) {
	l := a.Launcher
	if a.energyUnknown() == "" && l.anythingEnters() {
		if a.Misuse, err = l.misuse(ctx, a.Normal, a.Energy.StartHigh); err != nil {
			return err
		}
	}
	a.DeadHead, err = l.energyAtDeadHead(ctx, a.Energy, a.Normal)
	return err
}

// computeEmptying adds how it empties and what state loading leaves.
func (a *Assessment) computeEmptying(ctx context.Context, o Options) (err error) {
	target, _ := a.Launcher.ventTarget(a.Limits.Total.Value)
	a.Loading = loadingOf(a.Launcher, target)
	a.Emptying, err = computeVents(ctx, a.ventInput(), o.Sheets)
	return err
}

// computeFaults adds the single faults, and pairs.
func (a *Assessment) computeFaults(ctx context.Context, o Options) (err error) {
	a.Faults, err = computeFaults(ctx, FaultInput{Launcher: a.Launcher, Limits: a.Limits, Normal: a.Normal, NormalUnknown: a.energyUnknown(),
		Emptying: a.Emptying, Loading: a.Loading, Plugged: a.Plugged, Day: a.Day}, o.Pairs)
	return err
}

// ventInput is what the emptying is computed from.
func (a *Assessment) ventInput() VentInput {
	return VentInput{Launcher: a.Launcher, Limits: a.Limits, Normal: a.Normal, Stuck: a.Stuck, Loading: a.Loading}
}
