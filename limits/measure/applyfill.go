package measure

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// What a hand pump's stroke has over the mean of free_air [-] (common practice, no source).
const (
	StrokePeak = math.Pi // the middle of a stroke, of a pump that delivers every other one like half a sine
	HardStroke = 6.0     // a jerk
)

// filled is the test of a known volume that the supply filled.
const filled = "fill time of a known volume"

// fill turns fill times into the delivery at zero gauge (readDelivery), and lets that meet what the supply is stated to deliver. Another
// person pumps faster, so what was read of a hand pump takes nothing away from the most it is stated to deliver. One that delivers more
// than stated counts with more, whatever it is.
func (b bench) fill(l *launcher.Launcher, spec launcher.BenchSpec, e float64) {
	s := l.Supply
	if s == nil || len(spec.FillTimes) < launcher.LeastFillings || !spec.FillVolume.Set || !spec.FillTo.Set {
		return // refused by who reads them
	}
	of := delivers(s)
	if s.DeadHead.Set && spec.FillTo.High+e >= s.DeadHead.Low {
		b.unused(of.Key, filled, finding.Say("not used: at %s next to nothing is delivered, it lies too near the dead head. Fill to half of "+
			"that or less", finding.Bar(spec.FillTo.Nominal)))
		return
	}
	now := readDelivery(l, spec, e)
	var why finding.Text
	leak, shut := leaksFilling(l, spec.FillTo.High+e)
	if leak > 0 && of.Set && now.High >= of.Low { // less than stated by what leaks is no contradiction
		now.Low = max(now.Low, of.Low)
	}
	if !shut {
		why = finding.Words("while it fills air gets into the barrel and out")
	}
	switch {
	case !(now.High < math.Inf(1)):
		b.unused(of.Key, filled, finding.Say("not used: by supply.curve nothing is delivered any more at %s", finding.Bar(spec.FillTo.Nominal)))
		return
	case !(now.Low > 0):
		b.unused(of.Key, filled, finding.Say("not used: the gauge cannot tell %s from %s", finding.Bar(spec.FillFrom.Nominal),
			finding.Bar(spec.FillTo.Nominal)))
		return
	case !shut && !of.Set:
		b.unused(of.Key, filled, finding.Say("not used: %s, so it shows the least that is delivered, %s, and not the most. State that, or fill "+
			"a volume that nothing else opens", why, finding.ValueOf(of.Key, now.Low)))
		return
	case !shut:
		now.High = max(now.High, of.High)
	case s.Kind == launcher.HandPump && of.Set && now.High >= of.Low:
		now.High, why = max(now.High, of.High), finding.Words("another person may pump harder")
	}
	b.meetDelivery(s, of, now, why)
}

// FilledBeyondDeadHead tells that a filling ended where the supply is said to deliver nothing, even with the gauge's error: how far
// it pushes is then not known at all.
func FilledBeyondDeadHead(l *launcher.Launcher, spec launcher.BenchSpec) bool {
	s := l.Supply
	return s != nil && len(spec.FillTimes) > 0 && s.DeadHead.Set && spec.FillTo.Low-ReadingError(l, spec) > s.DeadHead.High
}

// delivers is what a supply is stated to deliver at zero gauge [m3/s]: its free air, or what its curve leaves for that.
func delivers(s *launcher.SupplySpec) launcher.Band {
	of := s.FreeAir
	of.Key = "supply.free_air"
	if !of.Set && len(s.Curve) > 0 {
		free := s.Curve[0].FreeAir
		of.Set, of.Low, of.Nominal, of.High = true, free*s.LeastShare(), free, free*launcher.UnstatedCurve
	}
	return of
}

// meetDelivery lets what was read meet what is stated. A curve is stated point by point, and its band is measured from the middle: it is
// only widened. why says what takes away from the test; nil: nothing does.
func (b bench) meetDelivery(s *launcher.SupplySpec, of, now launcher.Band, why finding.Text) {
	was := s.FreeAir
	s.FreeAir = of
	switch _, m := launcher.Meet(of, now); {
	case len(s.Curve) > 0 && m != launcher.Clashes:
		b.unused(of.Key, filled, finding.Words("agrees with supply.curve, which tells more"))
		s.FreeAir = was
	case len(why) > 0 && m == launcher.TellsNothing:
		b.unused(of.Key, filled, finding.Say("takes nothing away from what the design states: %s", why))
	default:
		b.narrow(&s.FreeAir, filled, now)
	}
	if s.Kind == launcher.HandPump {
		b.strokes(s)
	}
}

// strokes lets the middle of a hand pump's stroke have what the mean of the strokes was found to have: as hard as a jerk where nobody
// states it, or as less than two strokes in turn, each half a sine, would have.
func (b bench) strokes(s *launcher.SupplySpec) {
	p, hard := &s.PeakFlow, HardStroke*s.FreeAir.High
	stated := p.Set && p.Line != 0
	if p.High >= hard || !s.FreeAir.Set || stated && p.High >= 0.5*StrokePeak*s.FreeAir.High {
		return
	}
	before := *p
	p.Set, p.Key, p.High, p.Reason = true, "supply.peak_flow", hard, finding.Say("%g times what a filling tells of free_air", HardStroke)
	if !before.Set {
		p.Assumed, p.Low, p.Nominal = true, s.FreeAir.Low, StrokePeak*s.FreeAir.Nominal
		return
	}
	b.Replaced = append(b.Replaced, launcher.Replacement{Key: p.Key, Test: filled, Before: before, After: *p})
}

// readDelivery is the delivery at zero gauge that the fill times tell [m3/s]:
//
//	Q0 = V/(pa t) integral from p1 to p2 of dp/(Q(p)/Q(0)) + L
//
// V volume [m3], p1, p2 gauge [Pa], pa ambient [Pa], t time [s]; isothermal, V dp/dt = pa (Q - what leaks). Q(p) falls as the supply's
// curve does, or linearly to none at the dead head pd, of which the integral is pd ln((pd - p1)/(pd - p2)); without either it counts as
// constant, the limit of this for pd to infinity. L is the most that leaks meanwhile over Q(p2)/Q(0): all of it at the high end, half of it
// in the middle, none at the low end.
func readDelivery(l *launcher.Launcher, spec launcher.BenchSpec, e float64) launcher.Band {
	s, from, to := l.Supply, spec.FillFrom, spec.FillTo
	first, slow := slices.Min(spec.FillTimes), slices.Max(spec.FillTimes)+handTime
	fast := max(first-handDelay, 0.5*first) // the hand that stops it is late
	v, pa := spec.FillVolume, l.Ambient.Pressure
	free := func(volume, from, to, t, dead, ambient float64) float64 {
		return volume / (ambient * t) * slower(s, from, to, dead)
	}
	low := free(v.Low, min(from.High+e, to.Low-e), to.Low-e, slow, s.DeadHead.High, pa.High)
	high := free(v.High, max(0, from.Low-e), to.High+e, fast, s.DeadHead.Low, pa.Low)
	mid := free(v.Nominal, from.Nominal, to.Nominal, 0.5*(first+slow-handTime), s.DeadHead.Nominal, pa.Nominal)
	leak, _ := leaksFilling(l, to.High+e)
	leak /= share(s, to.High+e, s.DeadHead.Low)
	mid, high = mid+0.5*leak, high+leak // some of the most, at some of the pressure
	if first < leastEmptying {          // too short for a hand: it delivers at least that
		high = max(high, s.FreeAir.High)
	}
	return readBand(&launcher.Band{Key: "supply.free_air", Line: s.FreeAir.Line}, low, min(max(mid, low), high), high)
}

// share is what a supply delivers at a pressure [Pa gauge] of what it does at none [-], with this dead head [Pa gauge].
func share(s *launcher.SupplySpec, at, dead float64) float64 {
	if !s.DeadHead.Set {
		return 1
	}
	c := pneumatics.Supply{FreeAir: 1, DeadHead: dead}
	for _, p := range s.Curve {
		c.Curve = append(c.Curve, pneumatics.SupplyPoint{Gauge: p.Gauge * dead / s.DeadHead.Nominal, FreeAir: p.FreeAir / s.Curve[0].FreeAir})
	}
	return c.Delivery(at)
}

// slower is the integral of dp over share between two pressures [Pa]: by so much more pressure a filling takes as long at the delivery of
// none.
func slower(s *launcher.SupplySpec, from, to, dead float64) float64 {
	const points = 400 // a curve's corners lie between: 1e-4 of it or better, by trying
	return quad.Fixed(func(p float64) float64 { return 1 / share(s, p, dead) }, from, to, points, quad.Legendre{}, 0)
}

// leaksFilling is the most that gets out of the launcher while it fills [m3/s of ambient air], all that is open then as wide as it may be
// and with the pressure of the end before it [Pa gauge]; not known where some gets out by the barrel.
func leaksFilling(l *launcher.Launcher, gauge float64) (most float64, known bool) {
	w, g := l.Clone(), l.GasModel()
	pa, t := l.Ambient.Pressure.Low, l.Ambient.Temperature.Nominal
	for i := range w.Paths {
		p := &w.Paths[i]
		shut := (p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve) && p.OpenIn&inFilling == 0
		if shut || p.Kind == pneumatics.Relief && p.SetPressure.Low > gauge {
			continue
		}
		if p.To == "barrel" || p.From == "barrel" {
			return most, false
		}
		if p.To != "atmosphere" && p.From != "atmosphere" {
			continue
		}
		launcher.WideFlow(p)
		most += p.Path(w).Flow.MassFlow(g, pa+gauge, t, pa, t) / g.Density(pa, t)
	}
	return most, true
}

var inFilling = pneumatics.SetOf(pneumatics.Charging, pneumatics.Armed)
