package vent

import (
	"math"

	"puffproof/limits/halving"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// Size is the vent that one volume needs.
type Size struct {
	Volume string
	Path   string  // the vent that is there; "" a new one
	Now    float64 // its bore [m]; NaN: none, or not stated as a bore
	Least  float64 // bore that meets the target in the time at the slow end [m]; NaN: none does
	Drill  float64 // the next drill [m]; NaN
	Time   float64 // with that drill, at the slow end [s]
	// What it costs if it were open while charging.
	Loss     float64 // free air it lets out at the cut-out, at the wide end [m3/s]
	Delivery float64 // free air that the supply gives there [m3/s]; NaN: no supply, or not stated
	Balance  float64 // gauge pressure at which the two are equal [Pa]; NaN
}

// SmallestVent is the smallest bore worth drilling [m]: smaller ones clog unless
// the air is filtered (common practice, no source).
const SmallestVent = 0.8e-3

// WidestVent is the widest vent that is tried [m].
const WidestVent = 20e-3

// nextDrill rounds a bore up to a drill that a shop sells: tenths of a millimetre
// up to 10, halves above (common practice, no source).
func nextDrill(bore float64) float64 {
	step := 0.1e-3
	if bore > 10e-3 {
		step = 0.5e-3
	}
	return math.Ceil(bore/step-1e-9) * step
}

// Sizes says for every volume which vent empties it in the time asked, each
// by itself, the others as they are.
func Sizes(l *launcher.Launcher, target float64) ([]Size, error) {
	within := TimeAllowed(l)
	start, ok := StartPressures(l)
	if !ok || math.IsNaN(within) {
		return nil, nil
	}
	var out []Size
	for i := range l.Volumes {
		s := sizer{l: l, volume: i, e: Emptier{Start: start, Target: target}, within: within}
		one, err := s.size()
		if err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	return out, nil
}

// sizer finds the vent of one volume.
type sizer struct {
	l      *launcher.Launcher
	volume int
	path   int // of the vent; len(l.Paths): a new one
	e      Emptier
	within float64
}

func (s *sizer) size() (Size, error) {
	name := s.l.Volumes[s.volume].Name
	v := Size{Volume: name, Now: math.NaN(), Least: math.NaN(), Drill: math.NaN(), Time: math.Inf(1), Loss: math.NaN(),
		Delivery: math.NaN(), Balance: math.NaN()}
	s.path = len(s.l.Paths)
	for i := range s.l.Paths {
		p := &s.l.Paths[i]
		if p.From == name && p.To == "atmosphere" && p.Kind != pneumatics.Relief && p.Kind != pneumatics.QuickExhaust {
			s.path, v.Path = i, p.Name
			if p.Flow.Form == launcher.OrificeBore {
				v.Now = p.Flow.Value.Nominal
			}
			break
		}
	}
	low, high := SmallestVent, WidestVent
	t, err := s.time(low)
	if err != nil {
		return v, err
	}
	if t > s.within {
		if t, err = s.time(high); err != nil || t > s.within {
			return v, err
		}
		for range 18 {
			mid := math.Sqrt(low * high)
			if t, err = s.time(mid); err != nil {
				return v, err
			}
			if t <= s.within {
				high = mid
			} else {
				low = mid
			}
		}
	} else {
		high = low
	}
	v.Least, v.Drill = high, nextDrill(high)
	if v.Time, err = s.time(v.Drill); err != nil {
		return v, err
	}
	s.cost(&v)
	return v, nil
}

// with gives w, a slow end of the design, a vent of a bore, open at last.
func (s *sizer) with(w *launcher.Launcher, bore float64) *launcher.Launcher {
	if s.path == len(w.Paths) {
		w.Paths = append(w.Paths, launcher.PathSpec{Name: "new vent", From: w.Volumes[s.volume].Name, To: "atmosphere"})
	}
	p := &w.Paths[s.path]
	p.Kind, p.Hose = pneumatics.Orifice, nil
	p.Flow = launcher.FlowSpec{Form: launcher.OrificeBore, Value: launcher.Exact("", bore-boreError),
		DischargeCoefficient: launcher.Exact("", narrowCd)}
	return w
}

// A drilled hole: its bore may be less than the drill's by this [m], and its
// discharge coefficient lies between these, of a sharp edge and of a rounded one (from
// memory).
const (
	boreError = 0.05e-3
	narrowCd  = 0.60
	wideCd    = 0.90
)

// time is the slowest time of the volume to the target with a vent of a bore [s].
func (s *sizer) time(bore float64) (float64, error) {
	slowest := 0.0
	for _, w := range AtEndInAnyAir(s.l, SlowEnd) {
		one := s.e.Setup(s.with(w, bore), Scenario{PowerLost, pneumatics.Armed}, SlowEnd)
		times, err := s.e.Slowest(one, 3*s.within)
		if err != nil {
			return 0, err
		}
		slowest = max(slowest, times[s.volume])
	}
	return slowest, nil
}

// cost is what the vent lets out if it were open while charging.
func (s *sizer) cost(v *Size) {
	c := new(pneumatics.Circuit)
	s.l.Fill(c)
	pa, ta := c.Ambient.Pressure, c.Ambient.Temperature
	wide := flow.Nozzle(launcher.Circle(v.Drill+boreError), wideCd)
	loss := func(gauge float64) float64 {
		return wide.MassFlow(c.Gas, pa+gauge, ta, pa, ta) * c.Gas.R * ta / pa
	}
	at := worst.NominalStart(s.l)
	v.Loss = loss(at)
	if c.Supply == nil || c.Supply.Delivery(0) <= 0 {
		return
	}
	v.Delivery = c.Supply.Delivery(at)
	v.Balance, _ = halving.Between(0, c.Supply.DeadHead, 60, func(at float64) bool { return !(c.Supply.Delivery(at) > loss(at)) })
}
