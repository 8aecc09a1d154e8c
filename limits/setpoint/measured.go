package setpoint

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics/flow"
)

// noStart is a cap that leaves no cut-out [Pa gauge].
const noStart = 0.1

// findMeasured finds the start pressure up to which the measured bound stays within
// the limit. A bound is carried up to CarryUp times the measured gauge pressure; and
// not beyond what holds on the model with its factor, on which every fault rests.
func (s *solver) findMeasured() error {
	ev := s.o.Measured
	if ev == nil {
		return nil
	}
	m := &measuredBasis{group: ev.Best()}
	s.measured = m
	if m.group == nil {
		m.why = finding.Say("no group of shots counts: %s", measure.FirstFault(ev))
		return nil
	}
	m.reach = min(measure.CarryUp*m.group.Gauge, s.out.Top, s.caps.energy, flow.MaxGauge)
	if floor := ev.LargestContrast(worst.MovingAt(s.l)); floor > s.allowed {
		m.bound, m.why = floor, finding.Words("shots of the log are faster than the limit allows")
		return nil
	}
	carried := func(p float64, o search.Options) (float64, error) {
		ratio, err := measure.CarryRatio(s.ctx, s.l, m.group, s.l.SensedGaugeError(), p, o)
		if err != nil || !(ratio > 0) {
			return math.NaN(), err
		}
		v := m.group.UpperSpeed*math.Sqrt(ratio) + worst.MovingAt(s.l)
		return 0.5 * m.group.MassHigh * v * v, nil
	}
	return m.highest(s.allowed, carried)
}

// highest looks for the highest start pressure from the measured one to reach at
// which the carried bound is allowed. The bound never falls as the pressure rises:
// it is the largest over all start pressures up to there.
func (m *measuredBasis) highest(allowed float64, carried func(p float64, o search.Options) (float64, error)) error {
	start := min(m.group.Gauge, m.reach)
	holds := func(p float64) (bool, error) {
		e, err := carried(p, search.Options{})
		if m.bound = e; e <= allowed {
			m.holds = p
		}
		return e <= allowed, err
	}
	for _, p := range []float64{m.reach, start} {
		switch ok, err := holds(p); {
		case err != nil:
			return err
		case math.IsNaN(m.bound):
			m.group, m.why = nil, finding.Words("no point of the tolerance box shoots like the measured shots, so the model cannot carry the bound")
			return nil
		case ok && p == m.reach:
			return nil
		case !ok && p == start:
			m.why = finding.Say("the bound of the shots at %s is already %s, and at a lower pressure it counts unchanged: measure at a lower one",
				finding.Bars.Of(m.group.Gauge, 3), finding.WorstJoule(m.bound))
			return nil
		}
	}
	low, high := start, m.reach
	for range 6 { // short searches find where it crosses, full ones judge
		mid := 0.5 * (low + high)
		e, err := carried(mid, search.Quick())
		if err != nil {
			return err
		}
		if e <= allowed {
			low = mid
		} else { // too much, or not known
			high = mid
		}
	}
	for p := low; p > start; p *= 0.99 {
		if ok, err := holds(p); ok || err != nil {
			return err
		}
	}
	_, err := holds(start)
	return err
}

// capByMeasured lets the measured shots cap normal running, and says what is not
// known because of them.
func (s *solver) capByMeasured() {
	m, ev := s.measured, s.o.Measured
	if m == nil {
		return
	}
	if m.limiting() {
		s.caps.measured = max(m.holds, noStart)
	}
	switch {
	case ev.Wrong != nil:
		s.out.Unknown = finding.Notes(s.out.Unknown, finding.Say("the model or an input is wrong: %s", ev.Wrong.Text))
	case len(ev.Clashes) > 0:
		s.out.Unknown = finding.Notes(s.out.Unknown, finding.Say("one of the two is wrong: %s", ev.Clashes[0].Says()))
	}
}

// onMeasured is the row of the measured basis.
func (s *solver) onMeasured() OnBasis {
	row := OnBasis{Basis: finding.OnMeasured, What: finding.Words("from at least 5 shots of the real launcher: --shots takes them")}
	m := s.measured
	if m == nil {
		return row
	}
	if m.group == nil {
		row.What = m.why
		return row
	}
	row.Pressure = &m.holds
	caps := s.caps
	caps.measured = max(m.holds, noStart)
	row.CutOut = finite(solveChain(s.l, caps).cutOut)
	g := m.group
	shots := finding.Say("%d shots at %s", g.Shots, finding.Bars.Of(g.Gauge, 3))
	switch {
	case m.holds == 0:
		row.What = finding.Say("%s: %s", shots, m.why)
	case m.limiting():
		row.What = finding.Say("%s, their bound carried up: starts up to %s hold", shots, setting(m.holds))
	default:
		row.What = finding.Say("%s, their bound carried to %s gives %s; to know how much more would hold, measure nearer to that",
			shots, setting(m.holds), finding.WorstJoule(m.bound))
	}
	return row
}

// restsOnShots tells that normal running at these settings rests on measured
// shots, as check judges it: within the carry, and the model agrees with them.
func (s *solver) restsOnShots(start float64) bool {
	m, ev := s.measured, s.o.Measured
	return m != nil && m.group != nil && start <= measure.CarryUp*m.group.Gauge && start <= m.holds &&
		ev.Agrees() && !m.group.NotNormal()
}

// measuredNotes say how far the shots bear.
func (s *solver) measuredNotes(add func(format string, args ...any)) {
	m := s.measured
	if m == nil || s.out.CutOut == nil || !s.out.Works {
		return
	}
	start, _ := s.chain.launcher.SoakedHigh()
	s.out.BeyondShots = !s.restsOnShots(start)
	switch {
	case m.group == nil:
		add("The shots of %s decide nothing: %s.", s.o.Measured.Log, m.why)
	case s.restsOnShots(start):
		add("Normal running, %s at most, is within the measured shots; every fault rests on the model with its factor.", setting(start))
	case start > measure.CarryUp*m.group.Gauge:
		add("The shots were made at %s and bear up to %.3g times that; normal running reaches %s when left in the heat, so this answer rests "+
			"on the model: measure at %s or more.", finding.Bars.Of(m.group.Gauge, 3), measure.CarryUp, setting(start),
			setting(start/measure.CarryUp))
	default:
		add("The model does not agree with the shots, so this answer rests on the model with its factor: puffproof calibrate shows what " +
			"does not fit.")
	}
}
