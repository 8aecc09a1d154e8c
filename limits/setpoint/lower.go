package setpoint

import (
	"errors"
	"math"
	"slices"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// Settings that follow from the caps need not pass check: a fault that is not a rung of the
// ladder may ask for less, or a projectile that sticks. Then they are lowered: first what
// normal running reaches, by the cut-out; where that does not help, what a fault reaches, by
// the relief valve. Every figure that check takes over all start pressures up to the highest
// rises with it, so the settings that hold lie below a bound, which is bracketed.

// hold solves the ladder in figures that can be set and lowers them until check holds in
// every verdict that hangs on them. A verdict that fails at the lowest settings too does not
// hang on them: it is left, and the answer says so.
func (s *solver) hold() error {
	const rounds = 6 // each sees to what fails; a lower pressure seldom brings something new
	s.toSettingSteps()
	if math.IsNaN(s.chain.cutOut) {
		return nil
	}
	var failed []finding.Verdict
	for range rounds {
		j, err := s.judge(s.asSet())
		if err != nil {
			return err
		}
		s.hard = j.hardest()
		if v := j.unknown(); v != nil {
			s.out.Unknown = finding.Notes(s.out.Unknown, finding.Say("%s is not known: %s", v.ID, v.Why))
			return nil
		}
		if failed = s.failing(j); len(failed) == 0 {
			if v := j.verdict(s.asks); v != nil {
				s.loweredBy = finding.Say("%s: %s", v.ID, v.Why)
			}
			return nil
		}
		if err := s.lowerFor(failed, j.beyond(almost, containsID(failed, finding.ShotUnasked))); err != nil {
			return err
		}
	}
	s.leave(failed)
	return nil
}

// asSet is the launcher with the settings found; as it is where nothing is to be set, and
// with a switch that never stops the supply where any will do.
func (s *solver) asSet() *launcher.Launcher {
	switch {
	case s.noSwitchNeeded():
		return s.l
	case s.chain.deadHead:
		w := s.chain.launcher.Clone()
		w.Switch.CutOut = MovedBand(w.Switch.CutOut, w.Supply.DeadHead.High)
		return w
	}
	return s.chain.launcher
}

// leave leaves verdicts that no setting makes pass. Those about an energy or a pressure
// speak against the settings.
func (s *solver) leave(failed []finding.Verdict) {
	for i := range failed {
		v := &failed[i]
		s.left = append(s.left, v.ID)
		switch {
		case !ofPressures(v):
			s.out.Notes = append(s.out.Notes, finding.Say("At every cut-out %s.", failsWith(v)))
		case len(s.out.Unmet) != 0:
			s.out.Unmet = s.out.Unmet.Say("; %s", failsWith(v))
		default:
			s.out.Unmet = failsWith(v)
			if !s.noSwitchNeeded() {
				s.out.Unmet = finding.Say("at every setting of switch and relief valve %s", s.out.Unmet)
			}
		}
	}
}

// lowerFor lowers the settings until verdicts that failed hold, and leaves those that do
// not at the lowest. Of the faults those that only picks are judged meanwhile.
func (s *solver) lowerFor(failed []finding.Verdict, only picks) error {
	if s.noSwitchNeeded() {
		s.leave(failed)
		return nil
	}
	normal := func(c *pressureCaps) *askedFor { return &c.normal }
	faults := func(c *pressureCaps) *askedFor { return &c.faults }
	ready, _ := s.chain.launcher.ReadyHigh()
	rest, err := s.lowerBy(failed, only, ready, normal)
	if err != nil || len(rest) == 0 {
		return err
	}
	if s.chain.relief != reliefNone && !s.chain.limited {
		top, _ := s.chain.launcher.FaultHigh()
		if rest, err = s.lowerBy(rest, only, min(top, s.chain.fault), faults); err != nil {
			return err
		}
	}
	s.leave(rest)
	return nil
}

// lowerBy lowers one cap from top [Pa gauge] as far as verdicts that fail there ask for it,
// and gives those that fail at the lowest that leaves room for the switch as well.
func (s *solver) lowerBy(failed []finding.Verdict, only picks, top float64, cap func(*pressureCaps) *askedFor) (rest []finding.Verdict,
	err error) {
	at := func(x float64, by string) pressureCaps {
		caps := s.caps
		*cap(&caps) = askedFor{x, by}
		return caps
	}
	lowest := lowestFor(top, func(x float64) bool { return !math.IsNaN(s.solved(at(x, "")).cutOut) })
	b := bracket{s: s, caps: func(x float64) pressureCaps { return at(x, "") }, faults: only, fails: trial{at: top, chain: s.chain}}
	b.only(failed)
	if b.holds, err = b.try(lowest); err != nil {
		return nil, err
	}
	for i := range failed {
		if !b.holds.judged.holds(failed[i].ID) {
			rest = append(rest, failed[i])
		}
	}
	asks := slices.DeleteFunc(slices.Clone(failed), func(v finding.Verdict) bool { return containsID(rest, v.ID) })
	if len(asks) == 0 {
		return rest, nil
	}
	b.only(asks)
	if err := b.close(); err != nil {
		return nil, err
	}
	worst := b.binds(asks)
	s.caps = at(b.holds.at, worst.ID)
	s.asks, s.loweredBy = worst.ID, finding.Say("%s: %s", worst.ID, worst.Why)
	s.chain = s.solved(s.caps)
	return rest, nil
}

// lowestFor is the lowest cap below top that leaves room for a switch, near enough: a
// thousandth of top above the very lowest, where nothing hangs on tolerances of rounding.
func lowestFor(top float64, works func(x float64) bool) float64 {
	low, high := 0.0, top
	for high-low > 1e-3*top {
		if mid := 0.5 * (low + high); works(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

// solved is the ladder below caps in figures that can be set.
func (s *solver) solved(caps pressureCaps) chain {
	caps.step = settingStep
	return solveChain(s.l, caps)
}

// hardestFailure is the verdict that is furthest beyond its limit.
func hardestFailure(failed []finding.Verdict) *finding.Verdict {
	worst := &failed[0]
	for i := range failed {
		if shareOf(&failed[i]) > shareOf(worst) {
			worst = &failed[i]
		}
	}
	return worst
}

func containsID(verdicts []finding.Verdict, id string) bool {
	return slices.ContainsFunc(verdicts, func(v finding.Verdict) bool { return v.ID == id })
}

// bracket closes in on the highest value of a cap at which some verdicts hold.
type bracket struct {
	s            *solver
	caps         func(x float64) pressureCaps
	ids          []string // of the verdicts
	faults       picks    // those that can fail below the upper end
	fails, holds trial
	tried        []trial
}

// trial is a value of the cap that was tried.
type trial struct {
	at     float64 // [Pa gauge]
	chain  chain
	judged judgement
	share  float64 // the largest share of its limit that one of the verdicts reaches [-]
}

// try judges the settings at a value of the cap. What cannot be computed there does not hold.
func (b *bracket) try(x float64) (trial, error) {
	t := trial{at: x, chain: b.s.solved(b.caps(x))}
	for _, was := range b.tried { // settings have steps
		if was.chain.cutOut == t.chain.cutOut && was.chain.cutIn == t.chain.cutIn && was.chain.set == t.chain.set {
			t.judged, t.share = was.judged, was.judged.share(b.ids...)
			return t, nil
		}
	}
	want := stagesFor(t.chain.launcher)
	if !slices.ContainsFunc(b.ids, func(id string) bool { return !slices.Contains(ofShots(), id) }) {
		want = assessment.EnergyStage | assessment.FaultStage
	}
	var withheld *worst.WithheldError
	j, err := b.s.judgeFaults(t.chain.launcher, want, b.s.energy.hardest, b.faults)
	switch {
	case errors.As(err, &withheld):
		return t, nil // no verdict: none holds
	case err != nil:
		return t, err
	}
	t.judged, t.share = j, j.share(b.ids...)
	b.tried = append(b.tried, t)
	return t, nil
}

// binds is the verdict that fails at the upper end: the hardest of those asked for there.
func (b *bracket) binds(asks []finding.Verdict) *finding.Verdict {
	there := slices.DeleteFunc(b.fails.judged.failed(), func(v finding.Verdict) bool { return !slices.Contains(b.ids, v.ID) })
	if len(there) > 0 {
		return hardestFailure(there)
	}
	return hardestFailure(asks) // nothing in between was judged
}

// only asks for verdicts that fail at the upper end, and no others.
func (b *bracket) only(asks []finding.Verdict) {
	b.ids, b.fails.share = nil, 0
	for i := range asks {
		b.ids = append(b.ids, asks[i].ID)
		b.fails.share = max(b.fails.share, shareOf(&asks[i]))
	}
	b.holds.share = b.holds.judged.share(b.ids...)
}

// sameSettings tells that the settings at both ends are the same, as far as it matters.
func (b *bracket) sameSettings() bool {
	same := func(low, high float64) bool { return !(high-low > max(settingStep, closeBy*high)) }
	return same(b.holds.chain.cutOut, b.fails.chain.cutOut) && same(b.holds.chain.set, b.fails.chain.set)
}

// logShare is the logarithm of a share, within bounds that an interpolation can take.
func logShare(share float64) float64 { return math.Log(min(max(share, 0.01), 100)) }

// What a bracket is closed to [-]: the shares of energies rise about as fast as the pressure.
const (
	almost    = 0.95  // of the limit: a fault that a rough judgement finds there may be beyond it
	closeBy   = 0.003 // of the settings
	justBy    = 0.003 // below the limit
	aim       = 0.999 // of the limit
	sameShare = 1e-3  // shares that differ by less give no line
)

// close closes the bracket: where the shares, joined by a straight line in logarithms, cross
// the limit, and in the middle where such a step has left most of it.
func (b *bracket) close() error {
	const most = 14
	halve := false
	for range most {
		if b.holds.share >= 1-justBy || b.sameSettings() {
			break
		}
		low, high := math.Log(b.holds.at), math.Log(b.fails.at)
		x := 0.5 * (low + high)
		if y0, y1 := logShare(b.holds.share), logShare(b.fails.share); !halve && y1 > 0 && y1-y0 > sameShare {
			x = low + (math.Log(aim)-y0)/(y1-y0)*(high-low)
			x = min(max(x, low+0.03*(high-low)), high-0.03*(high-low))
		}
		t, err := b.try(math.Exp(x))
		if err != nil {
			return err
		}
		if t.judged.holds(b.ids...) {
			b.holds = t
		} else {
			b.fails = t
		}
		halve = math.Log(b.fails.at)-math.Log(b.holds.at) > 0.5*(high-low)
	}
	return nil
}
