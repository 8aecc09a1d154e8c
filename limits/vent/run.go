package vent

import (
	"fmt"
	"math"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"slices"
)

// ventEnd is which end of the tolerances a run of emptying takes.
type ventEnd uint8

const (
	SlowEnd     ventEnd = iota // narrow, large, cold
	nominalEnd                 // as stated
	fastEnd                    // wide, small, hot
	NarrowStuck                // slowEnd, with a projectile held in the barrel
)

func (e ventEnd) slow() bool { return e == SlowEnd || e == NarrowStuck }

// VentLauncher moves every band that bears on emptying to one end.
func VentLauncher(l *launcher.Launcher, end ventEnd) *launcher.Launcher {
	w := l.Clone()
	if end == nominalEnd {
		return w
	}
	pick := func(b *launcher.Band, slow float64) {
		if !b.Set {
			return
		}
		u := slow
		if end == fastEnd {
			u = 1 - slow
		}
		b.Nominal = b.Lerp(u)
	}
	for i := range w.Volumes {
		pick(&w.Volumes[i].Volume, 1)
	}
	for i := range w.Paths {
		p := &w.Paths[i]
		for _, b := range []*launcher.Band{&p.Flow.Value, &p.Flow.CriticalRatio, &p.Flow.PressureDropRatio, &p.Flow.DischargeCoefficient} {
			pick(b, 0)
		}
		pick(&p.OpeningTime, 1)
		pick(&p.CrackingPressure, 1)
		pick(&p.Pulse, 0)
		if p.Kind == pneumatics.Regulator {
			pick(&p.SetPressure, 0)
		}
		if p.Hose != nil {
			pick(&p.Hose.Bore, 0)
			pick(&p.Hose.Length, 1)
			pick(&p.Hose.Conductance, 0)
		}
		pilot(p, end)
	}
	w.Ambient.Temperature.Nominal = w.Hottest()
	if end != fastEnd {
		w.Ambient.Temperature.Nominal = w.Coldest()
	}
	if end.slow() {
		target, _ := VentTarget(l, math.Inf(1))
		for i := range w.Paths {
			w.HoldBack(&w.Paths[i], target)
		}
	}
	if end == NarrowStuck {
		tightest(w)
	}
	return w
}

// VentLaunchers is VentLauncher at both ends of the barometer's band: one volume empties
// later in thin air, but with several, and with hoses, nothing says which end is the worse.
func VentLaunchers(l *launcher.Launcher, end ventEnd) []*launcher.Launcher {
	w := VentLauncher(l, end)
	b := l.Ambient.Pressure
	if end == nominalEnd || b.Low == b.High {
		return []*launcher.Launcher{w}
	}
	other := w.Clone()
	w.Ambient.Pressure.Nominal, other.Ambient.Pressure.Nominal = b.Low, b.High
	return []*launcher.Launcher{w, other}
}

// pilot makes a piloted valve let go no more than its least differential allows:
// below it, it may stay shut.
func pilot(p *launcher.PathSpec, end ventEnd) {
	if p.MinDifferential.Set && p.MinDifferential.High > 0 && end != fastEnd && end != nominalEnd {
		p.CrackingPressure = launcher.Exact(p.MinDifferential.Key, p.MinDifferential.High)
	}
}

// tightest gives the projectile its closest fit and the firmest hold.
func tightest(l *launcher.Launcher) {
	b, p := &l.Barrel, &l.Projectile
	p.Clearance.Nominal = p.Clearance.Low
	p.Diameter.Nominal, b.Bore.Nominal = p.Diameter.High, b.Bore.Low
	p.InsideDiameter.Nominal, b.TubeOuterDiameter.Nominal = p.InsideDiameter.Low, b.TubeOuterDiameter.High
	const forGood = 1e9 // [N]: it does not move whatever the pressure
	p.Breakaway.Nominal, p.Restart.Nominal = forGood, forGood
}

// VentScenario is one way of emptying.
type VentScenario struct {
	Kind Kind
	From pneumatics.State
}

func (v VentScenario) String() string { return fmt.Sprintf("%s from %s", v.Kind, v.From) }

// ventScenarios lists the ways of emptying: both kinds, from every state that
// can hold air.
func ventScenarios() []VentScenario {
	var out []VentScenario
	for _, k := range []Kind{Shutdown, PowerLost} {
		for _, s := range []pneumatics.State{pneumatics.Charging, pneumatics.Armed, pneumatics.Loading, pneumatics.Firing} {
			out = append(out, VentScenario{k, s})
		}
	}
	return out
}

// Emptier runs scenarios of emptying on one launcher.
type Emptier struct {
	Start  []float64 // of the volumes [Pa gauge]
	Target float64   // [Pa gauge]
	sim    pneumatics.Sim
	// slowStart and fastStart replace start at the ends of the tolerances; nil: they do not.
	slowStart, fastStart []float64
}

// startAt are the pressures of the volumes at an end of the tolerances [Pa gauge].
func (e *Emptier) startAt(end ventEnd) []float64 {
	switch {
	case end.slow() && e.slowStart != nil:
		return e.slowStart
	case end == fastEnd && e.fastStart != nil:
		return e.fastStart
	}
	return e.Start
}

// ventSetup is a circuit with a scenario of emptying, ready to run.
type ventSetup struct {
	C  pneumatics.Circuit
	Sc pneumatics.Scenario
}

// Setup makes the circuit and scenario of one way of emptying from the launcher
// w. Nothing is loaded, or a projectile that does not move. At a slow end the
// relief valves stay shut: one that is stuck or set high must not shorten a time.
func (e *Emptier) Setup(w *launcher.Launcher, v VentScenario, end ventEnd) *ventSetup {
	return e.entering(w, v, end, pneumatics.Off)
}

// entering is setup with another state commanded than off.
func (e *Emptier) entering(w *launcher.Launcher, v VentScenario, end ventEnd, to pneumatics.State) *ventSetup {
	s := new(ventSetup)
	w.Fill(&s.C)
	s.Sc = pneumatics.Scenario{From: v.From, To: to, PowerLost: v.Kind == PowerLost, NoProjectile: end != NarrowStuck,
		Heat: pneumatics.Isothermal}
	gauge := slices.Clone(e.startAt(end))
	if v.From == pneumatics.Firing {
		spreadFiring(&s.C, gauge)
	}
	for _, g := range gauge {
		s.Sc.Volumes = append(s.Sc.Volumes, pneumatics.Condition{Pressure: s.C.Ambient.Pressure + g, Temperature: s.C.Ambient.Temperature})
	}
	for i := range s.C.Paths {
		p := &s.C.Paths[i]
		if p.Kind == pneumatics.Relief && end.slow() {
			s.Sc.Stuck = append(s.Sc.Stuck, pneumatics.Stuck{Path: i})
		}
		// A piloted valve passes only above its least differential, in its direction.
		if (p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve) && p.CrackingPressure > 0 {
			if p.OpeningAtLast(&s.Sc) > 0 {
				p.Kind = pneumatics.Check
			} else {
				s.Sc.Stuck = append(s.Sc.Stuck, pneumatics.Stuck{Path: i})
			}
		}
	}
	return s
}

// spreadFiring fills what only opens while firing to the highest pressure next
// to it: after a shot it may hold air.
func spreadFiring(c *pneumatics.Circuit, gauge []float64) {
	links, level := c.Links(), pneumatics.NewPerNode(len(c.Volumes), 0.0)
	copy(level, gauge)
	pneumatics.Reach(links, level, launcher.Higher, func(i int, way pneumatics.Way, at float64) float64 {
		k := links[i]
		if way == pneumatics.Against || !k.BetweenVolumes() || !c.Paths[i].OpenIn.Has(pneumatics.Firing) || gauge[k.To] > 0 {
			return 0
		}
		return at
	})
	copy(gauge, level)
}

// Run empties for so long, with a watch on every volume; samples of the trace
// end at until.
func (e *Emptier) Run(s *ventSetup, heat pneumatics.Heat, until float64, samples int) (*pneumatics.Result, error) {
	s.Sc.Heat, s.Sc.Until = heat, until
	o := pneumatics.Options{Settle: true, Tolerance: 1e-6, Samples: samples}
	for i := range s.C.Volumes {
		o.Watch = append(o.Watch, pneumatics.Watch{Volume: i, Pressure: s.C.Ambient.Pressure + e.Target})
	}
	r := e.sim.Run(&s.C, &s.Sc, o).Clone()
	if r.Reason != "" {
		return nil, &worst.WithheldError{What: "the emptying", Reason: r.Reason}
	}
	if r.Time < until*(1-1e-9) {
		return nil, &worst.WithheldError{What: "the emptying", Reason: "it did not come to its end"}
	}
	return r, nil
}

// OrInf makes a watch that never fired infinitely late.
func OrInf(t float64) float64 {
	if math.IsNaN(t) {
		return math.Inf(1)
	}
	return t
}

// positions tells two ways of emptying apart by what the valves do, not by name.
func (s *ventSetup) positions() string {
	b := fmt.Sprint(s.Sc.NoProjectile)
	for i := range s.C.Paths {
		p := &s.C.Paths[i]
		b += fmt.Sprint("|", p.OpenIn.Has(s.Sc.From), p.OpeningAtLast(&s.Sc))
	}
	for _, v := range s.Sc.Volumes {
		b += fmt.Sprint("|", v.Pressure)
	}
	return b
}

// intoBarrel names a path that is open into the barrel at last; "" none.
func (s *ventSetup) intoBarrel() string {
	for i := range s.C.Paths {
		p := &s.C.Paths[i]
		if (p.To == pneumatics.BarrelNode || p.From == pneumatics.BarrelNode) && p.Kind != pneumatics.Relief && p.OpeningAtLast(&s.Sc) > 0 {
			return p.Name
		}
	}
	return ""
}
