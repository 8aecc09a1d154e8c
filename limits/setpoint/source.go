package setpoint

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/halving"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// bases compares what each basis of the energy limit would allow.
func (s *solver) bases() {
	of := func(b finding.Basis, c crossing, what string) OnBasis {
		out := OnBasis{Basis: b, What: finding.Words(what), Pressure: &c.low}
		caps := s.caps
		caps.energy = c.low
		if math.IsInf(c.high, 1) {
			out.Any = launcher.Yes
			return out
		}
		out.CutOut = finite(solveChain(s.l, caps).cutOut)
		return out
	}
	s.out.Bases = []OnBasis{
		of(finding.OnCeiling, s.ceiling, "the most the air could do, whatever the valve"),
		of(finding.OnModel, s.energy, fmt.Sprintf("the worst computed shot times %.3g", worst.ModelFactor)),
		s.onMeasured(),
	}
}

// sensitivity tells for each tolerance how much the cut-out would gain if that
// quantity had its nominal value for certain. For those that bear on the shot the
// offending shot is taken with the quantity at its nominal value and its start
// pressure raised until it offends again: another combination may offend
// earlier, so the gain is an upper estimate.
func (s *solver) sensitivity() {
	if !s.out.Works || s.out.CutOut == nil {
		return
	}
	exact := solveChain(s.l, s.caps) // not rounded to figures to set by
	base := exact.cutOut
	add := func(b *launcher.Band, cutOut float64) {
		if g := cutOut - base; g > 1e-4*base { // less than a ten-thousandth is nothing to measure for
			s.out.Sensitivity = append(s.out.Sensitivity, Gain{b.Key, g, b.Assumed})
		}
	}
	s.ladderGains(add)
	s.shotGains(add)
	slices.SortStableFunc(s.out.Sensitivity, func(a, b Gain) int { return cmp.Compare(b.CutOut, a.CutOut) })
}

// ladderGains are those of the quantities that place the rungs.
func (s *solver) ladderGains(add func(*launcher.Band, float64)) {
	try := func(of func(l *launcher.Launcher) *launcher.Band) {
		w := withSwitch(s.l)
		b := of(w)
		if b == nil || !b.Set || b.Width() <= 0 {
			return
		}
		was := *b
		b.Low, b.High = b.Nominal, b.Nominal
		add(&was, solveChain(w, s.caps).cutOut)
	}
	try(func(l *launcher.Launcher) *launcher.Band { return &l.Switch.CutOut })
	try(func(l *launcher.Launcher) *launcher.Band { return &l.Switch.ReactionTime })
	try(func(l *launcher.Launcher) *launcher.Band { return &l.Switch.GaugeError })
	relief := func(l *launcher.Launcher) *launcher.PathSpec {
		if i := l.ReliefOnSupply(); i >= 0 {
			return &l.Paths[i]
		}
		return new(launcher.PathSpec)
	}
	try(func(l *launcher.Launcher) *launcher.Band { return &relief(l).SetPressure })
	try(func(l *launcher.Launcher) *launcher.Band { return &relief(l).FullFlowPressure })
	try(func(l *launcher.Launcher) *launcher.Band { return &relief(l).Flow.DischargeCoefficient })
	if s.l.Supply != nil {
		try(func(l *launcher.Launcher) *launcher.Band { return &l.Supply.FreeAir })
	}
	// Never left in the heat: emptied, or in the shade.
	cool := withSwitch(s.l)
	hottest := cool.Ambient.Hottest
	cool.Ambient.Hottest = launcher.Exact(hottest.Key, cool.Ambient.Temperature.Low)
	cool.Ambient.Temperature.High = cool.Ambient.Temperature.Low
	if hottest.Set {
		add(&hottest, solveChain(cool, s.caps).cutOut)
	}
}

// shotGains are those of the quantities that bear on the shot.
func (s *solver) shotGains(add func(*launcher.Band, float64)) {
	if s.energy.at == nil || s.out.Basis != finding.OnModel {
		return
	}
	b := s.energy.box
	threshold := s.allowed / worst.ModelFactor
	gains := make([]float64, len(b.Quantities))                 // new cut-outs
	_ = worst.SideBySide(len(b.Quantities), func(k int) error { // none of them fails
		q := &b.Quantities[k]
		u := slices.Clone(s.energy.at)
		u[k] = q.Fraction(q.Nominal)
		caps := s.caps
		caps.energy = raise(b, b.Evaluator(), u, threshold, s.energy.high, s.out.Top)
		gains[k] = solveChain(s.l, caps).cutOut
		return nil
	})
	for k := range b.Quantities {
		q := &b.Quantities[k]
		add(&launcher.Band{Key: q.Key, Assumed: q.Band.Assumed}, gains[k])
	}
}

// raise is the start pressure from high upwards at which a point exceeds the
// threshold again; top where it does not below it [Pa gauge].
func raise(b *worst.Box, f *worst.Evaluator, u []float64, threshold, high, top float64) float64 {
	// The evaluator takes start pressures beyond the box's end: they are shares.
	exceeds := func(p float64) bool {
		u[b.Start] = p / b.Question.StartMax
		return f.Value(u) > threshold
	}
	low := high
	for p := high; ; p *= 1.08 {
		if p > top {
			return top
		}
		if exceeds(p) {
			high = p
			break
		}
		low = p
	}
	low, _ = halving.Between(low, high, 12, exceeds)
	return low
}

// source tells what the supply can do, and what stronger settings and pumps would.
func (s *solver) source() error {
	l, a := s.l, &s.out.Source
	most := min(s.caps.energy, s.caps.rating, s.caps.blocked)
	holds := func(p float64) bool { return p <= most && p <= s.out.Top*(1+strictly) }
	turn := func(what string, p float64) { a.Turned = append(a.Turned, Turned{finding.Words(what), p, holds(p)}) }
	if l.Supply == nil || s.byHand {
		a.What = finding.Words("no supply in the design: what fills it must not exceed the energy limit")
		return nil
	}
	if !l.Supply.DeadHead.Set {
		a.What = finding.Words("supply.dead_head is not stated: it counts as able to exceed every limit")
	} else {
		a.DeadHead = l.FailedSource().Supply.DeadHead.High // with the regulator of a cylinder or a main failed open
		a.Limited = holds(l.Soak(a.DeadHead))
		switch {
		case a.Limited:
			a.What = finding.Words("its dead head, tolerance and heat included, is below the limit of normal running: it cannot exceed that")
		case s.caps.lowestCap() < leastStart || s.reliefHelps && !holds(a.DeadHead):
			a.What = finding.Say("it can push to %s", finding.WorstBar(a.DeadHead))
		case holds(a.DeadHead):
			a.What = finding.Words("its dead head is below the limit, but filled cold and left in the heat it is not")
		default:
			a.What = finding.Say("it can push to %s; a supply that could not push beyond %s, tolerance included, could not exceed the energy limit "+
				"in normal running", finding.WorstBar(a.DeadHead), setting(unsoak(l, min(s.caps.lowestCap(), s.out.Top))))
		}
		if l.Supply.Regulated() {
			turn("the regulator of the supply failed open, no working relief valve", l.Soak(a.DeadHead))
		} else if err := s.strongerPump(); err != nil {
			return err
		}
	}
	if w := l.Switch; w != nil && w.AdjustableTo.Set {
		turn(turnedSwitch, l.Soak(w.AdjustableTo.High+w.GaugeError.High+l.Overshoot()))
	}
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Kind == pneumatics.Regulator {
			turn("regulator "+p.Name+" at the top of its set pressure, with its creep", p.SetPressure.High+p.Creep.High)
			if a.DeadHead > 0 {
				turn("regulator "+p.Name+" failed open", a.DeadHead)
			}
		}
	}
	return nil
}

// strongerPump tells what a pump half as strong again would do, with a search of
// its own where no shot from so high was looked at yet.
func (s *solver) strongerPump() error {
	const stronger = 1.5
	w := s.l.Clone()
	d := &w.Supply.DeadHead
	d.Low, d.Nominal, d.High = stronger*d.Low, stronger*d.Nominal, stronger*d.High
	high := w.Soak(d.High)
	out := Turned{What: finding.Words("a pump half as strong again swapped in, no working relief valve, left in the heat"), Pressure: high}
	if high <= min(s.caps.energy, s.caps.rating, s.caps.blocked, flow.MaxGauge) {
		for _, o := range []search.Options{search.Quick(), {Budget: 4000}} { // a longer search only where a short one finds nothing
			res, err := s.worstAt(w, high, o)
			if err != nil {
				return err
			}
			if out.Holds = res.Found && res.Undefined == 0 && res.Best.Value*worst.ModelFactor <= s.allowed; !out.Holds {
				break
			}
		}
	}
	s.out.Source.Turned = append(s.out.Source.Turned, out)
	return nil
}

// unsoak is the gauge pressure that heat raises to soaked [Pa].
func unsoak(l *launcher.Launcher, soaked float64) float64 {
	return bisect(0, max(soaked, 0), func(p float64) bool { return l.Soak(p) <= soaked })
}

// ordinaryPart is the gauge pressure from which ordinary workshop switches,
// relief valves and gauges can be had [Pa] (common practice, no source).
const ordinaryPart = 0.5e5

// parts says whether ordinary parts serve.
func (s *solver) parts() {
	if !s.out.Works || s.out.CutOut == nil {
		return
	}
	add := func(part string, at float64, ordinary, special string) {
		text := finding.Words(ordinary)
		if at < ordinaryPart {
			text = finding.Say("%s begin near %s", special, finding.Bars.Of(ordinaryPart, 2))
		}
		s.out.Parts = append(s.out.Parts, PartNote{part, at, text})
	}
	c := &s.chain
	add("pressure switch", c.cutOut, "an ordinary workshop switch whose range begins below this",
		"a special low-pressure switch (vacuum and low-pressure trade); workshop switches")
	if !math.IsNaN(c.set) {
		add("relief valve", c.set, "an ordinary workshop relief valve with a spring for this range",
			"a special low-pressure relief valve: a weighted or large-disc valve; workshop valves")
	}
	soaked, _ := c.launcher.ReadyHigh()
	top := max(soaked/0.75, c.set) // EN 837-2: a steady load up to three quarters of the scale (from memory)
	if over := c.launcher.Overcharge(); over.Known && c.relief != reliefNone {
		top = max(top, over.Pressure)
	}
	text := finding.Say("range of %s: room for twice the working pressure, for the highest pressure at a fault, and for the steady one at "+
		"three quarters of it", gaugeRange(c.cutOut, top))
	s.out.Parts = append(s.out.Parts, PartNote{"gauge", c.cutOut, text})
}

// gaugeRange is the smallest usual range of a gauge that has twice the working
// pressure and all of top on it.
func gaugeRange(work, top float64) finding.Text {
	ranges := []float64{0.1e5, 0.16e5, 0.25e5, 0.4e5, 0.6e5, 1e5, 1.6e5, 2.5e5, 4e5, 6e5, 10e5,
		16e5} // EN 837-1, preferred ranges (from memory)
	for _, r := range ranges {
		if r >= max(2*work, top) {
			return finding.Bars.Of(0, 3).To(finding.Bars.Of(r, 3))
		}
	}
	return finding.Say("more than %s", finding.Bars.Of(ranges[len(ranges)-1], 3))
}

// endOfRange notes a switch that can be turned up to where nothing holds, unless
// the item that seals it is confirmed.
func (s *solver) endOfRange() {
	if s.sealed() {
		return
	}
	for _, t := range s.out.Source.Turned {
		if t.What.String() == turnedSwitch && !t.Holds && len(s.out.Unmet) == 0 && s.out.Works {
			s.out.Unmet = finding.Say("the switch can be turned up to where %s are reached, which does not hold: seal the screw and confirm "+
				"the item %s", finding.Bar(t.Pressure), finding.ItemSwitchTest)
		}
	}
}

// sealed tells that the switch was tested and its screw sealed, by an answer that check
// takes too: signed, in force on the day, with readings within the switch's band.
func (s *solver) sealed() bool {
	w := s.l.Switch
	if w == nil {
		return false
	}
	test := finding.SwitchTest(w.CutOut.Low, w.CutOut.High)
	return s.l.AnswerOf(test, s.o.Day).Done != nil
}

// turnedSwitch names the switch at its end stop.
const turnedSwitch = "the switch turned to the end of its range"
