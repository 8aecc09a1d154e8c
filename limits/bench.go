package limits

import (
	"math"
	"slices"
)

// BenchSpec is the [bench] table: raw readings of tests on the real launcher.
type BenchSpec struct {
	GaugeError Band // of the gauge used for all of them [Pa]
	// ReliefSteady are gauge readings of the supplied volume with the switch
	// bridged, once they no longer rise [Pa gauge].
	ReliefSteady []float64
	CutOuts      []float64 // readings at which the switch stopped the supply [Pa gauge]
	CutIns       []float64 // readings at which it started it [Pa gauge]
	FillVolume   Band      // a known volume [m3], filled
	FillFrom     Band      // from this reading [Pa gauge]
	FillTo       Band      // to this reading [Pa gauge]
	FillTimes    []float64 // in so many seconds [s]
}

// The least numbers of readings (common practice, no source).
const (
	LeastCycles   = 10
	LeastSteady   = 3
	LeastFillings = 3
)

// Replacement is one band that a bench test has replaced.
type Replacement struct {
	Key           string
	Test          string // which test
	Before, After Band
}

// Bench is what the bench tests of a launcher have replaced.
type Bench struct {
	Replaced []Replacement
	before   *Launcher // without the tests
}

// ApplyBench replaces the bands that the readings tell better and notes what
// stood before. Readings too few for a test are left out: LeastCycles,
// LeastSteady, LeastFillings.
//
// A band from readings goes from the lowest less the gauge's error to the highest
// plus it. The error of the gauge that the switch was set by no longer counts
// once its cycles are measured.
func (l *Launcher) ApplyBench(spec BenchSpec) {
	b := &Bench{before: l.Clone()}
	e := math.Abs(spec.GaugeError.High)
	replace := func(at *Band, test string, low, nominal, high float64) {
		was := *at
		*at = Band{Set: true, Low: low, Nominal: nominal, High: high, Key: was.Key, Origin: Measured, Line: was.Line}
		b.Replaced = append(b.Replaced, Replacement{was.Key, test, was, *at})
	}
	readings := func(at *Band, test string, r []float64, least int) bool {
		if len(r) < least {
			return false
		}
		low, high := slices.Min(r), slices.Max(r)
		replace(at, test, max(0, low-e), 0.5*(low+high), high+e)
		return true
	}
	if s := l.Switch; s != nil {
		if readings(&s.CutOut, "switch cycles", spec.CutOuts, LeastCycles) && s.GaugeError.Set {
			replace(&s.GaugeError, "switch cycles", 0, 0, 0)
		}
		readings(&s.CutIn, "switch cycles", spec.CutIns, LeastCycles)
	}
	if i := l.reliefOnSupply(); i >= 0 {
		p := &l.Paths[i]
		p.SteadyPressure.Key = "paths." + p.Name + ".full_flow_pressure"
		n := len(b.Replaced)
		if readings(&p.SteadyPressure, "relief valve with the switch bridged", spec.ReliefSteady, LeastSteady) {
			b.Replaced[n].Before = p.FullFlowPressure
			b.Replaced[n].Before.High = b.before.Overcharge().Pressure
		}
	}
	l.benchFill(spec, e, replace)
	l.Bench = b
}

// benchFill turns fill times into the delivery at zero gauge. Delivery falls
// linearly from Q0 at zero to none at the dead head pd; with V dp/dt = pa Q
// (isothermal)
//
//	Q0 = V pd/(pa t) ln((pd - p1)/(pd - p2))
//
// V volume [m3], p1, p2 gauge [Pa], pa ambient [Pa], t time [s]. Without a dead
// head delivery counts as constant, the limit of this for pd to infinity. A
// delivery curve of its own is left alone.
func (l *Launcher) benchFill(spec BenchSpec, e float64, replace func(*Band, string, float64, float64, float64)) {
	s := l.Supply
	if s == nil || len(s.Curve) > 0 || len(spec.FillTimes) < LeastFillings || !spec.FillVolume.Set || !spec.FillTo.Set {
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
	fast, slow := slices.Min(spec.FillTimes), slices.Max(spec.FillTimes)
	v, pa := spec.FillVolume, l.Ambient.Pressure
	low := free(v.Low, min(from.High+e, to.Low-e), to.Low-e, slow, s.DeadHead.High, pa.High)
	high := free(v.High, max(0, from.Low-e), to.High+e, fast, s.DeadHead.Low, pa.Low)
	mid := free(v.Nominal, from.Nominal, to.Nominal, 0.5*(fast+slow), s.DeadHead.Nominal, pa.Nominal)
	if low > 0 {
		replace(&s.FreeAir, "fill time of a known volume", low, mid, high)
	}
}

// bench tells what bench tests have moved.
func (s *solver) bench() {
	b := s.l.Bench
	if b == nil {
		return
	}
	s.out.Bench = b.Replaced
	before := b.before.pumped().solveChain(s.caps).cutOut
	if s.out.Works && !math.IsNaN(before) {
		s.out.BenchMoved = known(s.l.solveChain(s.caps).cutOut - before)
	}
}
