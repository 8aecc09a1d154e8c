package measure

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// ApplyBench replaces the bands that the readings tell better and notes what
// stood before. Readings too few for a test are left out: launcher.LeastCycles, LeastSteady,
// LeastFillings.
//
// Every reading is uncertain by the gauge's error and half of what its scale
// resolves. A test narrows what the design states only inside of it; one that lies
// outside contradicts the design, and both count. The error of the gauge that the
// switch was set by no longer counts once its cycles are measured.
func ApplyBench(l *launcher.Launcher, spec launcher.BenchSpec) {
	b := bench{&launcher.Bench{Before: l.Clone()}}
	size, least := math.Abs(spec.GaugeError.High), 0.0
	if s := l.Switch; s != nil {
		least = benchmark.FinestDial * s.CutOut.Nominal
	}
	if size == 0 || size < least { // none that was measured
		size = l.SensedGaugeError()
	}
	e := size + 0.5*l.Resolution()
	if s := l.Switch; s != nil {
		if b.cycles(&s.CutOut, spec.CutOuts, e) && s.GaugeError.Set {
			was := s.GaugeError
			s.GaugeError = launcher.Band{Set: true, Key: was.Key, Origin: launcher.Measured, Line: was.Line}
			b.Replaced = append(b.Replaced, launcher.Replacement{Key: was.Key, Test: "switch cycles", Before: was, After: s.GaugeError})
		}
		b.cycles(&s.CutIn, spec.CutIns, e)
	}
	b.steady(l, spec.ReliefSteady, e)
	b.fill(l, spec, e)
	l.Bench = b.Bench
}

// bench are bench tests being taken in.
type bench struct{ *launcher.Bench }

// cycles takes the readings of a switch in: what 99 of 100 further ones stay within
// with 95 % confidence on each side, if they scatter normally, and no less than what
// was read. It tells whether that took the stated band's place.
func (b bench) cycles(at *launcher.Band, r []float64, e float64) bool {
	if len(r) < launcher.LeastCycles {
		return false
	}
	low, high := slices.Min(r), slices.Max(r)
	spread := benchmark.BoundFactor(len(r)) * stat.StdDev(r, nil)
	mean := stat.Mean(r, nil)
	now := readBand(at, max(0, min(low, mean-spread)-e), 0.5*(low+high), max(high, mean+spread)+e)
	const test = "switch cycles"
	stated := !at.Assumed || at.Line != 0
	switch inside := low >= at.Low && high <= at.High; {
	case stated && !inside:
		b.clash(at, test, now)
		return false
	case stated && (now.Low < at.Low || now.High > at.High):
		b.Silent = append(b.Silent, finding.Words(at.Key+", "+test)) // what is stated stays, the gauge's error too
		return false
	}
	return b.narrow(at, test, now)
}

// readBand is a band of a key as a test reads it.
func readBand(of *launcher.Band, low, nominal, high float64) launcher.Band {
	return launcher.Band{Set: true, Low: low, Nominal: nominal, High: high, Key: of.Key, Origin: launcher.Measured, Line: of.Line,
		Reason: finding.Words("the bench test")}
}

// narrow lets a measured band meet what stands, and tells whether it took its place.
func (b bench) narrow(at *launcher.Band, test string, now launcher.Band) bool {
	was := *at
	out, m := launcher.Meet(was, now)
	switch m {
	case launcher.TellsNothing:
		b.Silent = append(b.Silent, finding.Words(at.Key+", "+test))
		return false
	case launcher.Clashes:
		b.clash(at, test, now)
		return false
	}
	*at = out
	b.Replaced = append(b.Replaced, launcher.Replacement{Key: was.Key, Test: test, Before: was, After: out})
	return true
}

// clash notes a test that contradicts the design: the widest of both counts.
func (b bench) clash(at *launcher.Band, test string, now launcher.Band) {
	was := *at
	b.Clashes = append(b.Clashes, launcher.Clash{Key: was.Key, Line: was.Line, Test: test, Stated: was, Read: now})
	at.Low, at.High = min(was.Low, now.Low), max(was.High, now.High)
	at.Reason = finding.Say("the design and %s together", now.Reason)
	b.Replaced = append(b.Replaced, launcher.Replacement{Key: was.Key, Test: test, Before: was, After: *at})
}

// steady takes the steady pressure with the switch bridged in: it lies between the
// relief valve's set pressure and what the circuit gives, or one of the two is
// wrong; then it counts only where it is the higher one.
func (b bench) steady(l *launcher.Launcher, r []float64, e float64) {
	i := l.ReliefOnSupply()
	if i < 0 || len(r) < launcher.LeastSteady {
		return
	}
	p := &l.Paths[i]
	low, high := slices.Min(r)-e, slices.Max(r)+e
	over := b.Before.Overcharge()
	stated := launcher.Band{Set: true, Key: "paths." + p.Name + ".full_flow_pressure", Low: p.SetPressure.Low,
		Nominal: p.FullFlowPressure.Nominal, High: over.Pressure}
	now := readBand(&stated, max(0, low), 0.5*(low+high), high)
	const test = "relief valve with the switch bridged"
	tooLow, tooHigh := high < p.SetPressure.Low, over.Known && low > over.Pressure
	if tooLow || tooHigh {
		b.Clashes = append(b.Clashes, launcher.Clash{Key: stated.Key, Test: test, Stated: stated, Read: now})
	}
	if tooLow {
		return
	}
	p.SteadyPressure = now
	before := p.FullFlowPressure
	before.High = over.Pressure
	b.Replaced = append(b.Replaced, launcher.Replacement{Key: stated.Key, Test: test, Before: before, After: now})
}

// fill turns fill times into the delivery at zero gauge. Delivery falls
// linearly from Q0 at zero to none at the dead head pd; with V dp/dt = pa Q
// (isothermal)
//
//	Q0 = V pd/(pa t) ln((pd - p1)/(pd - p2))
//
// V volume [m3], p1, p2 gauge [Pa], pa ambient [Pa], t time [s]. Without a dead
// head delivery counts as constant, the limit of this for pd to infinity. A
// delivery curve of its own is left alone.
func (b bench) fill(l *launcher.Launcher, spec launcher.BenchSpec, e float64) {
	s := l.Supply
	if s == nil || len(s.Curve) > 0 || len(spec.FillTimes) < launcher.LeastFillings || !spec.FillVolume.Set || !spec.FillTo.Set {
		return
	}
	free := func(volume, from, to, t, dead, ambient float64) float64 {
		if !s.DeadHead.Set {
			return volume * (to - from) / (ambient * t)
		}
		return volume * dead / (ambient * t) * math.Log((dead-from)/(dead-to))
	}
	from, to := spec.FillFrom, spec.FillTo
	if s.DeadHead.Set && to.High+e >= s.DeadHead.Low {
		return // too near the dead head to tell
	}
	first, slow := slices.Min(spec.FillTimes), slices.Max(spec.FillTimes)+handTime
	fast := max(first-handDelay, 0.5*first) // the hand that stops it is late
	v, pa := spec.FillVolume, l.Ambient.Pressure
	low := free(v.Low, min(from.High+e, to.Low-e), to.Low-e, slow, s.DeadHead.High, pa.High)
	high := free(v.High, max(0, from.Low-e), to.High+e, fast, s.DeadHead.Low, pa.Low)
	mid := free(v.Nominal, from.Nominal, to.Nominal, 0.5*(first+slow-handTime), s.DeadHead.Nominal, pa.Nominal)
	if first < leastEmptying { // too short for a hand: it delivers at least that
		high = max(high, s.FreeAir.High)
	}
	if low > 0 {
		b.narrow(&s.FreeAir, "fill time of a known volume", readBand(&s.FreeAir, low, mid, high))
	}
}
