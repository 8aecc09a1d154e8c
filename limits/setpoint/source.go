package setpoint

import (
	"fmt"
	"math"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"slices"
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
		out.CutOut = known(solveChain(s.l, caps).cutOut)
		return out
	}
	s.out.Bases = []OnBasis{
		of(finding.OnCeiling, s.ceiling, "the most the air could do, whatever the valve"),
		of(finding.OnModel, s.energy, fmt.Sprintf("the worst computed shot times %.3g", worst.ModelFactor)),
		s.onMeasured(),
	}
}

// Gain is what knowing one quantity exactly would add to the cut-out.
type Gain struct {
	Key     string  // dotted key of the design file
	CutOut  float64 // gain of the cut-out [Pa]
	Assumed bool    // its band is a default: measuring it is the first thing to do
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
	slices.SortStableFunc(s.out.Sensitivity, func(a, b Gain) int {
		switch {
		case a.CutOut > b.CutOut:
			return -1
		case a.CutOut < b.CutOut:
			return 1
		}
		return 0
	})
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
	all := worst.ShotBands(s.l)
	threshold := s.allowed / worst.ModelFactor
	gains := make([]float64, len(b.Bands))                 // new cut-outs
	_ = worst.SideBySide(len(b.Bands), func(k int) error { // none of them fails
		band := all[b.Bands[k]]
		width := b.Value(band, 1) - b.Value(band, 0)
		u := slices.Clone(s.energy.at)
		u[k] = min(max((band.Nominal-b.Value(band, 0))/width, 0), 1)
		caps := s.caps
		caps.energy = raise(b, b.Evaluator(), u, threshold, s.energy.high, s.out.Top)
		gains[k] = solveChain(s.l, caps).cutOut
		return nil
	})
	for k, i := range b.Bands {
		add(all[i], gains[k])
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
	for range 12 {
		if mid := 0.5 * (low + high); exceeds(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return low
}

// source tells what the supply can do, and what stronger settings and pumps would.
func (s *solver) source() error {
	l, a := s.l, &s.out.Source
	known := min(s.caps.energy, s.caps.rating, s.caps.blocked)
	holds := func(p float64) bool { return p <= known && p <= s.out.Top*(1+strictly) }
	turn := func(what string, p float64) { a.Turned = append(a.Turned, Turned{finding.Words(what), p, holds(p)}) }
	if l.Supply == nil || s.byHand {
		a.What = finding.Words("no supply in the design: what fills it must not exceed the energy limit")
		return nil
	}
	if !l.Supply.DeadHead.Set {
		a.What = finding.Words("supply.dead_head is not stated: it counts as able to exceed every limit")
	} else {
		a.DeadHead = l.Supply.DeadHead.High
		a.Limited = holds(l.Soak(a.DeadHead))
		switch {
		case a.Limited:
			a.What = finding.Words("its dead head, tolerance and heat included, is below the limit of normal running: it cannot exceed that")
		case s.caps.lowestCap() < leastStart:
			a.What = finding.Words("it can push to " + finding.Bar(a.DeadHead).String())
		case holds(a.DeadHead):
			a.What = finding.Words("its dead head is below the limit, but filled cold and left in the heat it is not")
		case s.reliefHelps:
			a.What = finding.Words("it can push to " + finding.Bar(a.DeadHead).String())
		default:
			a.What = finding.Say("it can push to %s; a supply that could not push beyond %s, tolerance included, could not exceed the energy limit in normal running",
				finding.Bar(a.DeadHead), milli(unsoak(l, min(s.caps.lowestCap(), s.out.Top))))
		}
		if err := s.strongerPump(); err != nil {
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
	if high <= min(s.caps.energy, s.caps.rating, s.caps.blocked, pneumatics.MaxGauge) {
		for _, o := range []search.Options{search.Light(), {Budget: 4000}} { // a longer search only where a short one finds nothing
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

func (p pressureCaps) lowestCap() float64 { c, _ := p.lowest(); return c }

// unsoak is the gauge pressure that heat raises to soaked [Pa].
func unsoak(l *launcher.Launcher, soaked float64) float64 {
	return bisect(0, max(soaked, 0), func(p float64) bool { return l.Soak(p) <= soaked })
}

// PartNote says what kind of part a pressure needs.
type PartNote struct {
	Part  string  // "pressure switch", "relief valve", "gauge"
	Gauge float64 // the pressure it works at [Pa]
	Text  finding.Text
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
		text := ordinary
		if at < ordinaryPart {
			text = special
		}
		s.out.Parts = append(s.out.Parts, PartNote{part, at, finding.Words(text)})
	}
	c := &s.chain
	add("pressure switch", c.cutOut, "an ordinary workshop switch whose range begins below this",
		"a special low-pressure switch (vacuum and low-pressure trade); workshop switches begin near 0.5 bar")
	if !math.IsNaN(c.set) {
		add("relief valve", c.set, "an ordinary workshop relief valve with a spring for this range",
			"a special low-pressure relief valve: a weighted or large-disc valve; workshop valves begin near 0.5 bar")
	}
	soaked, _ := c.launcher.SoakedHigh()
	if over := c.launcher.Overcharge(); over.Known && c.relief != reliefNone {
		soaked = max(soaked, over.Pressure) // the test with the switch bridged must be readable
	}
	text := fmt.Sprintf("range of %s: room for twice the working pressure, and for what the test with the switch bridged reaches", gaugeRange(c.cutOut, max(soaked, c.set)))
	s.out.Parts = append(s.out.Parts, PartNote{"gauge", c.cutOut, finding.Words(text)})
}

// gaugeRange is the smallest usual range of a gauge that has twice the working
// pressure and all of top on it.
func gaugeRange(work, top float64) string {
	for _, r := range []float64{0.1, 0.16, 0.25, 0.4, 0.6, 1, 1.6, 2.5, 4, 6, 10, 16} { // EN 837-1, preferred ranges (from memory)
		if r*1e5 >= max(2*work, top) {
			return fmt.Sprintf("0 to %.3g bar", r)
		}
	}
	return "more than 16 bar"
}

// procedure is how to set the switch so that the figures hold.
func (s *solver) procedure() {
	if !s.out.Works || s.out.CutOut == nil {
		return
	}
	w := s.chain.launcher.Switch
	e := w.GaugeError.High
	read := fmt.Sprintf("%s, and between %s and %s in every cycle", milli(w.CutOut.Nominal-e), milli(w.CutOut.Low-e), milli(w.CutOut.High-e))
	s.out.Procedure = finding.AllWords([]string{
		"Use an independent gauge on the sensed volume, no projectile loaded, nobody in front of the muzzle.",
		"Approach from below: begin with the screw turned down and raise it in small steps, letting the supply run up to the stop each time.",
		"The gauge must read " + read + ": the cut-out less the gauge's error.",
		"Run three full cycles, from cut-in to cut-out, and write down every reading with date and two initials.",
		"Seal the screw with paint, and write the reading on the launcher.",
	})
	if !math.IsNaN(s.chain.set) && s.chain.relief != reliefNone && !s.chain.limited {
		s.out.Procedure = append(s.out.Procedure, finding.AllWords(s.bridgedStep(e))...)
	}
}

// bridgedStep is the test of the relief valve with the switch bridged: what the
// valve of these settings is expected to do, not the most that would hold. e is
// the gauge's error [Pa].
func (s *solver) bridgedStep(e float64) []string {
	w := s.chain.launcher
	p := &w.Paths[w.ReliefOnSupply()]
	over := w.Overcharge()
	top, near := p.FullFlowHigh(), ""
	if over.Known {
		top = over.Pressure
		near = ", near " + milli(over.Balance) + " where supply and relief flow balance"
	}
	step := fmt.Sprintf("Then bridge the switch, an adult at a distance, no projectile: the gauge must come to rest between %s and %s%s. "+
		"Cut the supply at once if it goes on rising beyond. Write the steady reading down; the design takes it as [bench] relief_steady.",
		milli(max(0, p.SetPressure.Low-e)), milli(top-e), near)
	if g := w.GaugeOn(w.Sensed()); g != nil && g.Range.Set && g.Range.High < top+e {
		step += fmt.Sprintf(" The design's gauge ends at %s: use one that reads to %s or more for this.", finding.Bar(g.Range.High), finding.Bar(top+e))
	}
	return []string{step}
}

// endOfRange notes a switch that can be turned up to where nothing holds, unless
// the item that seals it is confirmed.
func (s *solver) endOfRange() {
	for _, c := range s.l.Checklist {
		if c.Item == finding.ItemSwitchTest {
			return
		}
	}
	for _, t := range s.out.Source.Turned {
		if t.What.String() == turnedSwitch && !t.Holds && len(s.out.Unmet) == 0 && s.out.Works {
			s.out.Unmet = finding.Words("the switch can be turned up to where " + finding.Bar(t.Pressure).String() + " are reached, which does not hold: seal the screw and confirm the item " + finding.ItemSwitchTest)
		}
	}
}

// turnedSwitch names the switch at its end stop.
const turnedSwitch = "the switch turned to the end of its range"
