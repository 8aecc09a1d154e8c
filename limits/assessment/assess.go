package assessment

import (
	"context"
	"errors"
	"slices"
	"strings"

	"puffproof/limits/benchmark"
	"puffproof/limits/budget"
	"puffproof/limits/doubt"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/progress"
	"puffproof/limits/search"
	"puffproof/limits/sound"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
)

// Options steer an assessment. The zero value asks for everything a check needs.
type Options struct {
	// Measured is what the builder's own shots and tests say; nil: nothing.
	Measured *measure.Findings
	// Logs are readings of the real launcher, judged; nil where none was read.
	Logs Logs
	// Depth says whether the wave model is run at the worst shot.
	Depth worst.Depth
	// Day is the day of the question, an ISO date: what is past its date by then
	// fails, and what is dated later counts as not done, as does what is dated at all
	// where it is "": without a day nobody knows what still holds.
	Day string
	// Want says which stages are computed; 0: all.
	Want Stages
	// Sheets asks for all readings to expect of an emptying and a leak-down, with
	// their bands, or for what the verdicts alone need.
	Sheets vent.SheetDetail
	// OnlyFaults picks faults by their id; nil: all of them.
	OnlyFaults func(id string) bool
	// Roughly: it is asked whether faults keep their limit, and figures far from it may be some hundredths low.
	Roughly bool
	// Pairs says which pairs of faults are computed.
	Pairs fault.PairChoice
	// Strength is the share of the usual effort that searches make, in (0, 100]; 0: 1.
	// Less is for tests: a weaker search may call something safe that is not.
	Strength float64
	// Seeds are the hardest shots of a search already made over normal operation and
	// more; nil: none was made.
	Seeds []worst.StartSeed
	// Tame tells that climbs of that search from far apart came to the same.
	Tame bool
}

// Stages is a set of the parts of an assessment.
type Stages uint16

// The stages. Faults need energies and emptying and bring them along.
const (
	EnergyStage   Stages = 1 << iota // of normal operation, with what measurements make of them
	StuckStage                       // the stuck projectile, the plugged muzzle
	ObjectStage                      // other objects in the barrel; the supply's dead head
	EmptyingStage                    // how it empties, what state loading leaves
	FaultStage
	FlightStage // where the projectile lands; needs the energies
	SoundStage  // how loud a shot is; needs the energies
	BudgetStage // what the judged energy is made of, and the weakest launcher; needs the energies
)

// NoStage asks for none: for verdicts on what the design states alone.
const NoStage Stages = 1 << 15

// Has tells whether a set has a stage, or one of several; an empty set stands for all.
func (s Stages) Has(one Stages) bool { return s == 0 || s&one != 0 }

// String names the stages of a set, in their order.
func (s Stages) String() string {
	var names []string
	for i, name := range [...]string{"energies", "stuck and plugged", "other objects", "emptying", "faults", "flights", "sound", "budget"} {
		if s&(1<<i) != 0 {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}

// Make computes all that the verdicts on a launcher are functions of, each stage
// once. The error is the context's, an own limit that cannot be used, or a
// WithheldError where a computation failed its own checks.
func Make(ctx context.Context, l *launcher.Launcher, o Options) (*Assessment, error) {
	if o.Strength > 0 {
		ctx = search.WithStrength(ctx, o.Strength)
	}
	a := &Assessment{Stated: l, Launcher: l, Day: o.Day, Logs: o.Logs}
	if o.Measured != nil {
		a.Launcher = o.Measured.Narrow(l)
		doubt.Friction(a.Launcher)
	}
	a.Launcher = doubt.Settled(a.Launcher, o.Day)
	var err error
	if a.Limits, err = l.EnergyLimits(o.Day); err != nil {
		return nil, err
	}
	stages := []stage{
		{EnergyStage, EnergyStage | FaultStage | FlightStage | SoundStage | BudgetStage, (*Assessment).computeEnergies},
		{StuckStage, StuckStage, (*Assessment).computeStuck},
		{ObjectStage, ObjectStage, (*Assessment).computeObjects},
		{EmptyingStage, EmptyingStage | FaultStage, (*Assessment).computeEmptying},
		{FaultStage, FaultStage, (*Assessment).computeFaults},
		{FlightStage, FlightStage, (*Assessment).computeFlights},
		{SoundStage, SoundStage, (*Assessment).computeSound},
		{BudgetStage, BudgetStage, (*Assessment).computeBudget},
	}
	stages = slices.DeleteFunc(stages, func(s stage) bool { return !o.Want.Has(s.wanted) })
	for i, s := range stages {
		at := progress.Looking(ctx, finding.Say("%d of %d, %s", i+1, len(stages), s.is.String()))
		if err := s.recalled(at, a, o); err != nil {
			return nil, err
		}
		if err := ctx.Err(); err != nil { // its last shots may have been stopped
			return nil, err
		}
		if s.is != EmptyingStage || o.Sheets != vent.ForFaults { // else no verdict may read it
			a.Computed |= s.is
		}
	}
	return a, nil
}

// stage is one stage of an assessment.
type stage struct {
	is      Stages
	wanted  Stages // by one of which it is
	compute func(*Assessment, context.Context, Options) error
}

// computeEnergies adds the energies of normal operation and what measurements make
// of them.
func (a *Assessment) computeEnergies(ctx context.Context, o Options) error {
	l := a.Launcher
	e, err := worst.ComputeEnergies(ctx, worst.EnergyInput{Launcher: l, Limits: a.Limits, Depth: o.Depth, Seeds: o.Seeds,
		Tame: o.Tame})
	if err != nil {
		return err
	}
	if e.Report.Slow() && doubt.Rubs(l) { // nothing passes by being slow: without what holds it, it may be shot
		a.Launcher = doubt.Held(l)
		return a.computeEnergies(ctx, o)
	}
	a.Energy, a.Normal, a.Wave, a.NoStart = e.Report, e.Normal, e.Wave, e.NoStart
	if o.Measured != nil && len(a.NoStart) == 0 && a.Energy.StartHigh > 0 && a.Normal.Result.Found {
		if a.Measured, err = measure.UseFindings(ctx, a.Energy, l, o.Measured); err != nil {
			return err
		}
	}
	a.Energy.CountEntered(&l.Projectile)
	if a.Energy.ProjectedArea > 0 {
		a.Eye = benchmark.EyeFigures(a.Energy.Most() / a.Energy.ProjectedArea)
	}
	return nil
}

// computeStuck adds the stuck projectile and the plugged muzzle.
func (a *Assessment) computeStuck(ctx context.Context, _ Options) (err error) {
	l := a.Launcher
	if high, known := l.SoakedHigh(); known {
		if a.Stuck, err = worst.WorstStuck(ctx, l, worst.EnergyQuestion(l, high), a.Limits.Total.Value); err != nil {
			return err
		}
	}
	a.Plugged, err = worst.ComputePlugged(ctx, l, a.Normal)
	return err
}

// computeObjects adds what a child may put into the barrel, and the energy at the
// supply's dead head.
func (a *Assessment) computeObjects(ctx context.Context, _ Options) (err error) {
	l := a.Launcher
	if len(a.EnergyUnknown()) == 0 {
		if a.Misuse, err = worst.Misuse(ctx, l, a.Normal, a.Energy.StartHigh); err != nil {
			return err
		}
	}
	a.DeadHead, err = worst.EnergyAtDeadHead(ctx, l, a.Energy, a.Normal)
	return err
}

// computeEmptying adds how it empties and what state loading leaves.
func (a *Assessment) computeEmptying(ctx context.Context, o Options) (err error) {
	target, _ := vent.Target(a.Launcher, a.Limits.Total.Value)
	a.Loading = vent.LoadingOf(a.Launcher, target)
	if a.Emptying, err = vent.Compute(ctx, a.ventInput(), o.Sheets); err != nil {
		return err
	}
	if !o.Sheets.Brief() && !o.Want.Has(FaultStage) {
		a.Revealed = fault.Revealed(a.faultInput(nil))
	}
	return nil
}

// computeFaults adds the single faults, and pairs.
func (a *Assessment) computeFaults(ctx context.Context, o Options) (err error) {
	in := a.faultInput(o.OnlyFaults)
	in.Roughly = o.Roughly
	if a.Faults, err = fault.Compute(ctx, in, o.Pairs); err == nil {
		a.Revealed = a.Faults.Revealed()
	}
	return err
}

// computeBudget adds what the judged energy is made of.
func (a *Assessment) computeBudget(ctx context.Context, _ Options) (err error) {
	a.Budget, err = budget.Compute(ctx, budget.Input{Launcher: a.Launcher, Energy: a.Energy, Normal: a.Normal})
	return err
}

// computeFlights adds where the projectile lands.
func (a *Assessment) computeFlights(ctx context.Context, _ Options) (err error) {
	if a.Flights, err = measure.Flights(ctx, a.Launcher, a.Normal, a.Energy.ShotsEntered()...); errors.Is(err, measure.ErrSpeedUnknown) {
		a.NoFlight, err = finding.Words(err.Error()), nil
	}
	if a.Flights != nil && a.Faults != nil {
		hardest := 0.0
		for _, f := range a.Faults.Faults {
			heavier := f.Mode == fault.HeavyBall || f.Mode == fault.TwoLoaded || f.Mode == fault.Soaked // its energy is no light one's: below
			if f.Effect != fault.NoEffect && !heavier && f.Judged > hardest {
				hardest = f.Judged
			}
		}
		a.Flights.AtFault(a.Launcher, hardest)
		if a.Launcher.MaySoak() { // water is more than what a wrong one, or a second, weighs
			return a.Flights.Soaked(ctx, a.Launcher, a.Normal)
		}
		return a.Flights.Heavier(ctx, a.Launcher, a.Normal, fault.Heaviest)
	}
	return err
}

// computeSound adds how loud a shot is, where it is known from where it starts.
func (a *Assessment) computeSound(ctx context.Context, _ Options) (err error) {
	high, known := a.Launcher.SoakedHigh()
	if !known || len(a.NoStart) != 0 || a.Normal == nil || !a.Normal.Result.Found {
		return nil // EnergyUnknown says why
	}
	a.Sound, err = sound.Compute(ctx, sound.Input{Launcher: a.Launcher, Normal: a.Normal, High: high, Entered: a.Energy.ShotsEntered()})
	return err
}
