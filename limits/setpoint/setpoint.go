package setpoint

import (
	"context"
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/recall"
	"puffproof/limits/search"
	"puffproof/limits/worst"
)

// Find finds the highest cut-out of a launcher: the final energy and the
// energy per area within policy at the worst combination of tolerances, from
// every start pressure up to the highest, in normal running and with the switch
// welded shut; every rating kept; the ladder in order. The order of solution is
// fixed: highest fault pressure, relief set pressure, cut-out, cut-in. Then the settings
// are judged as check does, and lowered until every verdict that hangs on them holds. A relief valve of the design stays as it is set
// where it can; one that leaves no room for any cut-out is set up, as far as the fault pressure allows.
// Measured shots narrow the launcher and cap normal running. A launcher
// without a supply counts as filled by an unknown pump. The error is the context's,
// an own limit that cannot be used, or a WithheldError.
func Find(ctx context.Context, l *launcher.Launcher, o Options) (Answer, error) {
	return recall.Once(ctx, func() recall.Key { return recall.Key{"set pressures", search.Strength(ctx), l, o.Measured, o.Day} },
		func() (Answer, error) { return find(ctx, l, o) })
}

// find is Find without what was found before.
func find(ctx context.Context, l *launcher.Launcher, o Options) (Answer, error) {
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
	if err := ctx.Err(); err != nil { // the last shots may have been stopped
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
	return s.atMost()
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
	s.procedure()
	s.endOfRange() // which asks for the seal that the procedure ends with
	s.bench()
	s.out.Supply, err = s.supplyAnswer()
	return err
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
			return &worst.WithheldError{What: "the highest cut-out", Reason: c.unknown("some shots of the tolerance box")}
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
	far, err := s.farFromRating(rating, top)
	if err != nil {
		return err
	}
	if !far {
		err = s.capBarrel(worst.PluggedQuestion(s.l, top), rating, top)
	}
	if err != nil || !s.l.Rushes() {
		return err
	}
	return s.capBarrel(worst.JammedQuestion(s.l, top), rating/worst.ModelFactor, top)
}

// farFromRating tells, where a supply feeds slowly, that a projectile driven against a plug from starts up to top [Pa gauge] stays far
// below the barrel's rating. That the barrel fills later on, to no more than it started from, is not followed in a search.
func (s *solver) farFromRating(rating, top float64) (bool, error) {
	if !(top <= rating) || !worst.FeedsSlowly(s.l) {
		return false, nil
	}
	q := worst.PluggedQuestion(s.l, top)
	q.Unfed = true
	w, err := worst.Maximise(s.ctx, s.l, q, search.Quick())
	if err != nil {
		return false, err
	}
	s.out.Runs += w.Result.Evaluations
	return !w.Undetermined() && worst.FarBelow(w.Value, rating), nil
}

// capBarrel holds the pressure in the barrel that a question asks for to a threshold [Pa
// gauge], for starts up to top.
func (s *solver) capBarrel(q worst.Question, threshold, top float64) error {
	c, err := blockedCrossing(s.ctx, s.l, q, threshold, top)
	if err != nil {
		return err
	}
	s.out.Runs += c.runs
	if c.bad > 0 {
		return &worst.WithheldError{What: "the highest cut-out", Reason: c.unknown("some plugged shots of the tolerance box")}
	}
	if !math.IsInf(c.high, 1) {
		s.caps.blocked = min(s.caps.blocked, c.low)
	}
	return nil
}
