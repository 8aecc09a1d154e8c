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
	e := ReadingError(l, spec)
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

// ReadingError is how far off a reading of a bench test may be [Pa]: the error of the gauge that it was read on, that of the sensed volume
// where none that was measured is stated, and half of what a scale resolves.
func ReadingError(l *launcher.Launcher, spec launcher.BenchSpec) float64 {
	size, least := math.Abs(spec.GaugeError.High), 0.0
	if s := l.Switch; s != nil {
		least = benchmark.FinestDial * s.CutOut.Nominal
	}
	if size == 0 || size < least { // none that was measured
		size = l.SensedGaugeError()
	}
	return size + 0.5*l.Resolution()
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
		b.agrees(at.Key, test) // what is stated stays, the gauge's error too
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
		b.agrees(at.Key, test)
		return false
	case launcher.Clashes:
		b.clash(at, test, now)
		return false
	}
	*at = out
	b.Replaced = append(b.Replaced, launcher.Replacement{Key: was.Key, Test: test, Before: was, After: out})
	return true
}

// unused keeps in mind that a test moves nothing, and why.
func (b bench) unused(key, test string, why finding.Text) {
	b.Silent = append(b.Silent, finding.Say("%s, %s: %s.", finding.Key(key), test, why))
}

// agrees is unused of a test that is no news.
func (b bench) agrees(key, test string) {
	b.unused(key, test, finding.Words("agrees with what the design states, and tells no more"))
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
// relief valve's set pressure, or where that cannot carry the supply the balance of both, and what the circuit gives at
// its worst, or one of the two is wrong; then it counts only where it is the higher one.
func (b bench) steady(l *launcher.Launcher, r []float64, e float64) {
	i := l.ReliefOnSupply()
	if len(r) < launcher.LeastSteady {
		return
	}
	const test = "relief valve with the switch bridged"
	if i < 0 {
		b.unused("bench.relief_steady", test, finding.Words("not used, no relief valve is on the volume that the supply feeds"))
		return
	}
	p := &l.Paths[i]
	low, high := slices.Min(r)-e, slices.Max(r)+e
	over := b.Before.Overcharge()
	stated := launcher.Band{Set: true, Key: "paths." + p.Name + ".full_flow_pressure", Low: p.SetPressure.Low,
		Nominal: p.FullFlowPressure.Nominal, High: over.Pressure}
	now := readBand(&stated, max(0, low), 0.5*(low+high), high)
	tooLow, tooHigh := high < max(p.SetPressure.Low, leastSteady(b.Before)), over.Known && low > over.Pressure
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
