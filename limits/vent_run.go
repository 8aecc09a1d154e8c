package limits

import (
	"fmt"
	"math"
	"slices"

	"puffproof/pneumatics"
)

// ventEnd is which end of the tolerances a run of emptying takes.
type ventEnd uint8

const (
	slowEnd     ventEnd = iota // narrow, large, cold
	nominalEnd                 // as stated
	fastEnd                    // wide, small, hot
	narrowStuck                // slowEnd, with a projectile held in the barrel
)

func (e ventEnd) slow() bool { return e == slowEnd || e == narrowStuck }

// ventLauncher moves every band that bears on emptying to one end.
func (l *Launcher) ventLauncher(end ventEnd) *Launcher {
	w := l.Clone()
	if end == nominalEnd {
		return w
	}
	pick := func(b *Band, slow float64) {
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
		for _, b := range []*Band{&p.Flow.Value, &p.Flow.CriticalRatio, &p.Flow.PressureDropRatio, &p.Flow.DischargeCoefficient} {
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
		p.pilot(end)
	}
	w.Ambient.Temperature.Nominal = w.hottest()
	if end != fastEnd {
		w.Ambient.Temperature.Nominal = w.coldest()
	}
	if end.slow() {
		target, _ := l.ventTarget(math.Inf(1))
		for i := range w.Paths {
			w.holdBack(&w.Paths[i], target)
		}
	}
	if end == narrowStuck {
		w.tightest()
	}
	return w
}

// ventLaunchers is ventLauncher at both ends of the barometer's band: one volume empties
// later in thin air, but with several, and with hoses, nothing says which end is the worse.
func (l *Launcher) ventLaunchers(end ventEnd) []*Launcher {
	w := l.ventLauncher(end)
	b := l.Ambient.Pressure
	if end == nominalEnd || b.Low == b.High {
		return []*Launcher{w}
	}
	other := w.Clone()
	w.Ambient.Pressure.Nominal, other.Ambient.Pressure.Nominal = b.Low, b.High
	return []*Launcher{w, other}
}

// pilot makes a piloted valve let go no more than its least differential allows:
// below it, it may stay shut.
func (p *PathSpec) pilot(end ventEnd) {
	if p.MinDifferential.Set && p.MinDifferential.High > 0 && end != fastEnd && end != nominalEnd {
		p.CrackingPressure = Exact(p.MinDifferential.Key, p.MinDifferential.High)
	}
}

// tightest gives the projectile its closest fit and the firmest hold.
func (l *Launcher) tightest() {
	b, p := &l.Barrel, &l.Projectile
	p.Clearance.Nominal = p.Clearance.Low
	p.Diameter.Nominal, b.Bore.Nominal = p.Diameter.High, b.Bore.Low
	p.InsideDiameter.Nominal, b.TubeOuterDiameter.Nominal = p.InsideDiameter.Low, b.TubeOuterDiameter.High
	const forGood = 1e9 // [N]: it does not move whatever the pressure
	p.Breakaway.Nominal, p.Restart.Nominal = forGood, forGood
}

// ventScenario is one way of emptying.
type ventScenario struct {
	kind VentKind
	from pneumatics.State
}

func (v ventScenario) String() string { return fmt.Sprintf("%s from %s", v.kind, v.from) }

// ventScenarios lists the ways of emptying: both kinds, from every state that
// can hold air.
func ventScenarios() []ventScenario {
	var out []ventScenario
	for _, k := range []VentKind{Shutdown, PowerLost} {
		for _, s := range []pneumatics.State{pneumatics.Charging, pneumatics.Armed, pneumatics.Loading, pneumatics.Firing} {
			out = append(out, ventScenario{k, s})
		}
	}
	return out
}

// emptier runs scenarios of emptying on one launcher.
type emptier struct {
	start  []float64 // of the volumes [Pa gauge]
	target float64   // [Pa gauge]
	sim    pneumatics.Sim
	// slowStart and fastStart replace start at the ends of the tolerances; nil: they do not.
	slowStart, fastStart []float64
}

// startAt are the pressures of the volumes at an end of the tolerances [Pa gauge].
func (e *emptier) startAt(end ventEnd) []float64 {
	switch {
	case end.slow() && e.slowStart != nil:
		return e.slowStart
	case end == fastEnd && e.fastStart != nil:
		return e.fastStart
	}
	return e.start
}

// ventSetup is a circuit with a scenario of emptying, ready to run.
type ventSetup struct {
	c  pneumatics.Circuit
	sc pneumatics.Scenario
}

// setup makes the circuit and scenario of one way of emptying from the launcher
// w. Nothing is loaded, or a projectile that does not move. At a slow end the
// relief valves stay shut: one that is stuck or set high must not shorten a time.
func (e *emptier) setup(w *Launcher, v ventScenario, end ventEnd) *ventSetup {
	return e.entering(w, v, end, pneumatics.Off)
}

// entering is setup with another state commanded than off.
func (e *emptier) entering(w *Launcher, v ventScenario, end ventEnd, to pneumatics.State) *ventSetup {
	s := new(ventSetup)
	w.Fill(&s.c)
	s.sc = pneumatics.Scenario{From: v.from, To: to, PowerLost: v.kind == PowerLost, NoProjectile: end != narrowStuck,
		Heat: pneumatics.Isothermal}
	gauge := slices.Clone(e.startAt(end))
	if v.from == pneumatics.Firing {
		spreadFiring(&s.c, gauge)
	}
	for _, g := range gauge {
		s.sc.Volumes = append(s.sc.Volumes, pneumatics.Condition{Pressure: s.c.Ambient.Pressure + g, Temperature: s.c.Ambient.Temperature})
	}
	for i := range s.c.Paths {
		p := &s.c.Paths[i]
		if p.Kind == pneumatics.Relief && end.slow() {
			s.sc.Stuck = append(s.sc.Stuck, pneumatics.Stuck{Path: i})
		}
		// A piloted valve passes only above its least differential, in its direction.
		if (p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve) && p.CrackingPressure > 0 {
			if p.OpeningAtLast(&s.sc) > 0 {
				p.Kind = pneumatics.Check
			} else {
				s.sc.Stuck = append(s.sc.Stuck, pneumatics.Stuck{Path: i})
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
	pneumatics.Reach(links, level, higher, func(i int, way pneumatics.Way, at float64) float64 {
		k := links[i]
		if way == pneumatics.Against || !k.BetweenVolumes() || !c.Paths[i].OpenIn.Has(pneumatics.Firing) || gauge[k.To] > 0 {
			return 0
		}
		return at
	})
	copy(gauge, level)
}

// run empties for so long, with a watch on every volume; samples of the trace
// end at until.
func (e *emptier) run(s *ventSetup, heat pneumatics.Heat, until float64, samples int) (*pneumatics.Result, error) {
	s.sc.Heat, s.sc.Until = heat, until
	o := pneumatics.Options{Settle: true, Tolerance: 1e-6, Samples: samples}
	for i := range s.c.Volumes {
		o.Watch = append(o.Watch, pneumatics.Watch{Volume: i, Pressure: s.c.Ambient.Pressure + e.target})
	}
	r := e.sim.Run(&s.c, &s.sc, o).Clone()
	if r.Reason != "" {
		return nil, &WithheldError{"the emptying", r.Reason}
	}
	if r.Time < until*(1-1e-9) {
		return nil, &WithheldError{"the emptying", "it did not come to its end"}
	}
	return r, nil
}

// orInf makes a watch that never fired infinitely late.
func orInf(t float64) float64 {
	if math.IsNaN(t) {
		return math.Inf(1)
	}
	return t
}

// positions tells two ways of emptying apart by what the valves do, not by name.
func (s *ventSetup) positions() string {
	b := fmt.Sprint(s.sc.NoProjectile)
	for i := range s.c.Paths {
		p := &s.c.Paths[i]
		b += fmt.Sprint("|", p.OpenIn.Has(s.sc.From), p.OpeningAtLast(&s.sc))
	}
	for _, v := range s.sc.Volumes {
		b += fmt.Sprint("|", v.Pressure)
	}
	return b
}

// intoBarrel names a path that is open into the barrel at last; "" none.
func (s *ventSetup) intoBarrel() string {
	for i := range s.c.Paths {
		p := &s.c.Paths[i]
		if (p.To == pneumatics.BarrelNode || p.From == pneumatics.BarrelNode) && p.Kind != pneumatics.Relief && p.OpeningAtLast(&s.sc) > 0 {
			return p.Name
		}
	}
	return ""
}
