package setpoint

import (
	"context"
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Answer is the answer to the builder's first question: at what pressure may
// the switch cut out? Pressures are gauge values [Pa]; nil where there is none.
type Answer struct {
	Works bool         // some cut-out works
	Why   finding.Text // what binds, or why none works
	// Unknown says why the figures are no answer yet; "" they are.
	Unknown finding.Text
	// AsItIs says in what the answer is not the design as it is: a relief valve set too
	// high, none, no switch. "" nothing.
	AsItIs finding.Text
	// Unmet is a verdict of check on an energy or a pressure that fails at these settings
	// and at the lowest ones too; nil: none was found.
	Unmet finding.Text

	CutOut, CutIn              *float64     // nominal values; the tolerances are in the ladder
	ReliefSet                  *float64     // the set pressure that the cut-out rests on
	ReliefSetMin, ReliefSetMax *float64     // the window of the set pressure at this cut-out
	ReliefFullFlowMax          *float64     // the highest pressure at a fault that holds
	Relief                     finding.Text // what the answer asks of the relief valve

	// BeyondShots tells that shots were measured and normal running goes beyond what
	// they bear, or does not agree with them.
	BeyondShots bool

	Binding string        // identifier of the verdict that binds
	Basis   finding.Basis // of the energy limit
	Next    *NextVerdict

	Allowed     float64         // energy that total and per-area limit both allow [J]
	AllowedWhy  string          // which of the two
	Pressure    float64         // no shot from up to here exceeds it [Pa gauge]
	Witness     *float64        // a computed shot from here does; nil: none up to Top
	WitnessAt   worst.Point     // where in the box
	Top         float64         // the highest start pressure looked at
	TopWhy      string          // what ends the pressures looked at
	Runs        int             // shots computed
	Stated      *float64        // the cut-out of the design
	Ladder      []launcher.Rung // from the lowest to the highest
	Sensitivity []Gain          // largest gain first
	Bases       []OnBasis       // what each basis would allow
	Changes     []Change        // what would make another cut-out work
	Source      SourceAnswer
	Parts       []PartNote
	Procedure   []finding.Text
	Notes       []finding.Text
	Supply      *SupplyAnswer          // nil: no supply
	Bench       []launcher.Replacement // what bench tests have replaced
	BenchSilent []finding.Text         // bench tests that tell no more than the design states
	BenchMoved  *float64               // how far they moved the cut-out; nil: no bench tests, or no cut-out without them

	anyCutOut bool // none is too high: the supply's dead head, of which CutOut is the nominal value, ends them
}

// TooHigh tells that the design's own cut-out is above the answer: by more than two
// searches of the same strength may differ.
func (s *Answer) TooHigh() bool {
	const differ = 0.005
	return s.Stated != nil && s.CutOut != nil && !s.anyCutOut && *s.Stated > *s.CutOut*(1+differ)
}

// Holds tells that the answer is known, works, and that the design as it is keeps to it.
func (s *Answer) Holds() bool {
	return s.Works && len(s.Unknown) == 0 && len(s.Unmet) == 0 && len(s.AsItIs) == 0 && !s.TooHigh()
}

// NextVerdict is what would bind if the binding verdict did not.
type NextVerdict struct {
	ID     string
	CutOut float64 // [Pa gauge]
	What   finding.Text
}

// OnBasis is the cut-out that one basis of the energy limit would allow.
type OnBasis struct {
	Basis    finding.Basis
	Pressure *float64        // up to which it allows a start [Pa gauge]; nil: not known
	CutOut   *float64        // [Pa gauge]; nil: none, not known, or any
	Any      launcher.Answer // Yes: nothing that the supply can do exceeds the limit
	What     finding.Text
}

// SourceAnswer tells what the supply can do.
type SourceAnswer struct {
	Limited  bool    // it cannot exceed the limit: no switch is needed
	DeadHead float64 // at the top of its tolerance [Pa gauge]; 0: not stated or no supply
	What     finding.Text
	Turned   []Turned // what stronger settings and pumps would do
}

// Turned is one thing that may be turned up, and where the pressure then ends.
type Turned struct {
	What     finding.Text
	Pressure float64 // [Pa gauge]
	Holds    bool
}

// solver carries the parts of a setpoint search.
type solver struct {
	ctx     context.Context
	l       *launcher.Launcher
	o       Options
	limits  launcher.EnergyLimits
	allowed float64
	caps    pressureCaps
	energy  crossing
	ceiling crossing
	chain   chain
	// measured is what measured shots allow; nil: none were taken.
	measured    *measuredBasis
	byHand      bool // the design has no supply
	reliefHelps bool // a relief valve as it is set holds the energy of a shot down
	// loweredBy is the verdict that asks for lower settings; nil: none does.
	loweredBy finding.Text
	left      []string // identifiers of verdicts that no setting makes pass
	out       Answer
}

// Find finds the highest cut-out of a launcher: the final energy and the
// energy per area within policy at the worst combination of tolerances, from
// every start pressure up to the highest, in normal running and with the switch
// welded shut; every rating kept; the ladder in order. The order of solution is
// fixed: highest fault pressure, relief set pressure, cut-out, cut-in. Then the settings
// are judged as check does, and lowered until every verdict that hangs on them holds.
// Measured shots narrow the launcher and cap normal running. A launcher
// without a supply counts as filled by an unknown pump. The error is the context's,
// an own limit that cannot be used, or a WithheldError.
func Find(ctx context.Context, l *launcher.Launcher, o Options) (Answer, error) {
	s, err := newSolver(ctx, l, o)
	if err != nil {
		return Answer{}, err
	}
	if err := s.settings(); err != nil {
		return Answer{}, err
	}
	if err := s.advice(); err != nil {
		return Answer{}, err
	}
	return s.out, nil
}

// settings finds what is to be set, and what binds.
func (s *solver) settings() error {
	if err := s.findCaps(); err != nil {
		return err
	}
	if err := s.findMeasured(); err != nil {
		return err
	}
	s.out.Unknown = s.unknown()
	s.capByMeasured()
	s.chain = solveChain(s.l, s.caps)
	if err := s.hold(); err != nil {
		return err
	}
	if err := s.raiseRelief(); err != nil {
		return err
	}
	s.answer()
	s.ladder()
	return nil
}

// advice tells what goes with the settings: what they cost, what would help, which
// parts serve, how to set them.
func (s *solver) advice() (err error) {
	s.bases()
	s.sensitivity()
	if err := s.changes(); err != nil {
		return err
	}
	if err := s.source(); err != nil {
		return err
	}
	s.parts()
	s.endOfRange()
	s.procedure()
	s.bench()
	s.out.Supply, err = s.supplyAnswer()
	return err
}

// newSolver lays out a search: on the launcher as measurements narrow it, filled by an
// unknown pump where the design has no supply. The error is an own limit that cannot be
// used.
func newSolver(ctx context.Context, l *launcher.Launcher, o Options) (*solver, error) {
	s := &solver{ctx: ctx, o: o, byHand: l.Supply == nil}
	if o.Measured != nil {
		l = o.Measured.Narrow(l)
	}
	s.l = pumped(l)
	var err error
	if s.limits, err = s.l.EnergyLimits(o.Day); err != nil {
		return nil, err
	}
	s.out.Allowed, s.out.AllowedWhy = s.limits.Allowed(s.l.Projectile.ContactDiameter)
	s.allowed = s.out.Allowed
	s.out.Top, s.out.TopWhy = topPressure(s.l)
	return s, nil
}

// topPressure is the highest start pressure that need be looked at [Pa gauge].
func topPressure(l *launcher.Launcher) (gauge float64, why string) {
	if l.Supply != nil && l.Supply.DeadHead.Set {
		if top := l.Soak(l.Supply.DeadHead.High); top < pneumatics.MaxGauge {
			return top, "the supply's dead head, left in the heat"
		}
	}
	return pneumatics.MaxGauge, "the end of the gas model's range"
}

// findCaps finds the pressures that must not be exceeded.
func (s *solver) findCaps() error {
	l := s.l
	var err error
	if s.ceiling, err = ceilingCrossing(s.ctx, l, s.allowed, s.out.Top); err != nil {
		return err
	}
	if s.energy, err = energyCrossing(s.ctx, l, s.allowed, s.out.Top, nil); err != nil {
		return err
	}
	s.out.Runs = s.energy.runs + s.ceiling.runs
	for _, c := range []*crossing{&s.energy, &s.ceiling} {
		if c.bad > 0 {
			return &worst.WithheldError{What: "the highest cut-out", Reason: "some shots of the tolerance box could not be computed"}
		}
	}
	s.out.Basis = finding.OnModel
	decides := s.energy
	if s.ceiling.low > s.energy.low {
		s.out.Basis, decides = finding.OnCeiling, s.ceiling
	}
	s.out.Pressure = decides.low
	s.caps = pressureCaps{energy: decides.low, rating: l.LowestRating(), blocked: math.Inf(1)}
	if !math.IsInf(decides.high, 1) {
		s.out.Witness, s.out.WitnessAt = &decides.high, decides.point
	} else {
		s.caps.energy = math.Inf(1) // nothing that the supply can do exceeds it
	}
	return s.capBlocked()
}

// capBlocked holds a plugged barrel to its rating, where the other caps leave
// that open.
func (s *solver) capBlocked() error {
	rated := s.l.Barrel.RatedPressure
	if !rated.Set {
		return nil
	}
	rating, _ := s.l.Rating(launcher.Part{Rated: rated, Material: s.l.Barrel.Material})
	top := min(s.caps.energy, s.caps.rating, s.out.Top)
	questions := []worst.Question{worst.PluggedQuestion(s.l, top)}
	if s.l.Rushes() {
		questions = append(questions, worst.JammedQuestion(s.l, top))
	}
	for _, q := range questions {
		c, err := blockedCrossing(s.ctx, s.l, q, rating, top)
		if err != nil {
			return err
		}
		s.out.Runs += c.runs
		if c.bad > 0 {
			return &worst.WithheldError{What: "the highest cut-out", Reason: "the plugged shot could not be computed over the whole tolerance box"}
		}
		if !math.IsInf(c.high, 1) {
			s.caps.blocked = min(s.caps.blocked, c.low)
		}
	}
	return nil
}
