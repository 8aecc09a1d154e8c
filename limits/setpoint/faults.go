package setpoint

import (
	"math"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/search"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
	"puffproof/limits/worst"
)

// unknown says why the answer is not known although figures can be given; "" it
// is known.
func (s *solver) unknown() finding.Text {
	var out []finding.Text
	add := func(format string, args ...any) { out = append(out, finding.Say(format, args...)) }
	l := s.l
	switch {
	case s.byHand:
		add("the design has no [supply], so it counts as filled by a pump of which nothing is known: state [supply] with its dead_head")
	case !l.Supply.DeadHead.Set:
		add("supply.dead_head is not stated, so nobody knows where the pressure ends with the switch welded shut")
	}
	if missing := missingRatings(l); len(missing) > 0 {
		add("%s is not stated, so nobody knows whether it holds", strings.Join(missing, " and "))
	}
	if !s.byHand && l.Switch != nil && l.Supply.MostFreeAir() <= 0 {
		add("supply.free_air is not stated, so nobody knows how far the pressure overshoots while the switch reacts, nor what the relief " +
			"valve must carry")
	}
	if l.Switch != nil && !l.Switch.Differential.Set {
		add("pressure_switch.differential is not stated, so nobody knows whether the switch reaches the cut-in")
	}
	if !l.Projectile.ContactDiameter.Set && s.allowed < s.limits.Total.Value {
		add("projectile.contact_diameter is not stated, so only %s is allowed", finding.Joule(s.allowed))
	}
	if clash := l.BenchClash(""); len(clash) > 0 {
		add("%s", clash)
	}
	return finding.Notes(out...)
}

// missingRatings are the keys of the ratings that are not stated, of what the
// supply fills and of the barrel.
func missingRatings(l *launcher.Launcher) []string {
	var out []string
	joined := l.JoinedTo(l.Node(l.Sensed()))
	for i := range l.Volumes {
		if joined[i] && !l.Volumes[i].RatedPressure.Set {
			out = append(out, "volumes."+l.Volumes[i].Name+".rated_pressure")
		}
	}
	if !l.Barrel.RatedPressure.Set {
		out = append(out, "barrel.rated_pressure")
	}
	return out
}

// faultsOf is the first of the energy verdicts and energy.fault, as check judges them,
// that does not pass at a launcher's own settings, nil where all do, and the largest
// share of its limit that one of them reaches [-]. Where the faults that were hardest at the settings fail, no other one is tried.
func (s *solver) faultsOf(w *launcher.Launcher) (failed *finding.Verdict, share float64, err error) {
	if s.hard != nil {
		if failed, share, err = s.someFaultsOf(w, s.hard); err != nil || failed != nil && failed.Status == finding.Fail {
			return failed, share, err
		}
	}
	return s.someFaultsOf(w, nil)
}

// someFaultsOf is faultsOf with the faults that only picks; nil: all of them.
func (s *solver) someFaultsOf(w *launcher.Launcher, only picks) (failed *finding.Verdict, share float64, err error) {
	ctx := progress.Looking(s.ctx, finding.Words("judging other settings"))
	a, err := assessment.Make(ctx, w, assessment.Options{Day: s.o.Day, Seeds: s.energy.hardest, Want: assessment.FaultStage,
		Tame: s.energy.tame, Roughly: true, Sheets: vent.ForFaults, OnlyFaults: only})
	if err != nil {
		return nil, 0, err
	}
	s.out.Runs += a.Energy.Runs + a.Faults.Shots
	verdicts := []finding.Verdict{verdict.Of(a, finding.EnergyTotal), verdict.Of(a, finding.EnergyArea), verdict.Of(a, finding.EnergyFault)}
	for i := range verdicts {
		v := &verdicts[i]
		switch {
		case v.ID == finding.EnergyFault && v.Status == finding.Conditional: // without what an item keeps from being shot
			share = max(share, a.Faults.Most()/a.Faults.Limit)
		case v.Value != nil && v.Limit != nil:
			share = max(share, *v.Value / *v.Limit)
		}
		if v.Status == finding.Fail && (failed == nil || failed.Status == finding.Unknown) || v.Status == finding.Unknown && failed == nil {
			failed = v
		}
	}
	return failed, share, nil
}

// noSwitchNeeded tells that the supply itself is the limit, and nothing is to be set.
func (s *solver) noSwitchNeeded() bool {
	return s.chain.source && s.l.Switch == nil
}

// settingStep is the step of the figures to set by [Pa]: a millibar, as shown.
const settingStep = 100

// toSettingSteps solves the ladder once more in figures that can be set: rounded to the
// safe side, so that they hold when they are copied, in bar or in psi.
func (s *solver) toSettingSteps() {
	if c := s.solved(s.caps); !math.IsNaN(c.cutOut) || math.IsNaN(s.chain.cutOut) {
		s.chain = c
	}
}

// raiseRelief holds the highest set pressure of the relief valve to what a search with
// the valve there confirms: a valve on a volume that feeds the barrel vents during the
// shot, and one that is set higher holds less down. It also tells whether the valves
// matter so at all.
func (s *solver) raiseRelief() error {
	c := &s.chain
	holds := func(w *launcher.Launcher, high float64) (bool, error) {
		res, err := s.worstAt(w, high, search.Quick(s.hardest(w, high)...))
		return res.Found && res.Undefined == 0 && res.Best.Value*worst.ModelFactor <= s.allowed, err
	}
	if s.out.Basis == finding.OnCeiling || math.IsInf(s.caps.energy, 1) || s.l.ReliefOnSupply() < 0 {
		return nil
	}
	ok, err := holds(s.l.WithoutReliefs(), s.caps.energy)
	if err != nil || ok {
		return err
	}
	s.reliefHelps = true
	if c.relief != reliefKept || c.limited || !(c.setMax > c.set*(1+strictly)) {
		return nil
	}
	low, high := c.set, c.setMax
	for range 5 {
		w := s.l.Clone()
		p := &w.Paths[w.ReliefOnSupply()]
		MoveRelief(p, high)
		ok, err := holds(w, max(w.Overcharge().Pressure, p.FullFlowHigh()))
		switch {
		case err != nil:
			return err
		case ok:
			c.setMax = downTo(high, c.step)
			return nil
		}
		high = 0.5 * (low + high)
	}
	c.setMax = low
	return nil
}

// hardest are the hardest shots of the search for the energy limit in a launcher's box.
func (s *solver) hardest(w *launcher.Launcher, high float64) [][]float64 {
	b := worst.NewBox(w, worst.EnergyQuestion(w, high))
	var out [][]float64
	for _, seed := range s.energy.hardest {
		if len(seed.U) == b.Dim {
			out = append(out, seed.In(b))
		}
	}
	return out
}
