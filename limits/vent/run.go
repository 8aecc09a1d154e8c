package vent

import (
	"fmt"
	"math"
	"slices"

	"puffproof/limits/launcher"
	"puffproof/limits/recall"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// End is which end of the tolerances a run of emptying takes.
type End uint8

const (
	SlowEnd     End = iota // narrow, large, cold
	NominalEnd             // as stated
	FastEnd                // wide, small, hot
	NarrowStuck            // SlowEnd, with a projectile held in the barrel
)

func (e End) slow() bool { return e == SlowEnd || e == NarrowStuck }

// AtEnd moves every band that bears on emptying to one end.
func AtEnd(l *launcher.Launcher, end End) *launcher.Launcher {
	w := l.Clone()
	if end == NominalEnd {
		return w
	}
	pick := func(b *launcher.Band, slow float64) {
		if !b.Set {
			return
		}
		u := slow
		if end == FastEnd {
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
		pick(&p.SeatShare, 1)
		pick(&p.OpensAt, 1)
		pick(&p.FullAt, 1)
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
	if end != FastEnd {
		w.Ambient.Temperature.Nominal = w.Coldest()
	}
	if end.slow() {
		target, _ := Target(l, math.Inf(1))
		for i := range w.Paths {
			w.HoldBack(&w.Paths[i], target)
		}
	}
	if end == NarrowStuck {
		tightest(w)
	}
	return w
}

// AtEndInAnyAir is AtEnd at both ends of the barometer's band: one volume empties
// later in thin air, but with several, and with hoses, nothing says which end is the worse.
func AtEndInAnyAir(l *launcher.Launcher, end End) []*launcher.Launcher {
	w := AtEnd(l, end)
	b := l.Ambient.Pressure
	if end == NominalEnd || b.Low == b.High {
		return []*launcher.Launcher{w}
	}
	other := w.Clone()
	w.Ambient.Pressure.Nominal, other.Ambient.Pressure.Nominal = b.Low, b.High
	return []*launcher.Launcher{w, other}
}

// pilot makes a piloted valve let go no more than its least differential allows:
// below it, it may stay shut. A diaphragm minds it by its own balance.
func pilot(p *launcher.PathSpec, end End) {
	if !p.SeatShare.Set && p.MinDifferential.Set && p.MinDifferential.High > 0 && end != FastEnd && end != NominalEnd {
		p.CrackingPressure = launcher.Exact(p.MinDifferential.Key, p.MinDifferential.High)
	}
}

// tightest gives the projectile its closest fit and the firmest hold.
func tightest(l *launcher.Launcher) {
	l.ClosestFit()
	const forGood = 1e9 // [N]: it does not move whatever the pressure
	p := &l.Projectile
	p.Breakaway.Nominal, p.Restart.Nominal = forGood, forGood
}

// Scenario is one way of emptying.
type Scenario struct {
	Kind Kind
	From pneumatics.State
}

func (v Scenario) String() string { return fmt.Sprintf("%s from %s", v.Kind, v.From) }

// scenarios lists the ways of emptying: both kinds, from every state that
// can hold air.
func scenarios() []Scenario {
	var out []Scenario
	for _, k := range []Kind{Shutdown, PowerLost} {
		for _, s := range []pneumatics.State{pneumatics.Charging, pneumatics.Armed, pneumatics.Loading, pneumatics.Firing} {
			out = append(out, Scenario{k, s})
		}
	}
	return out
}

// Emptier runs scenarios of emptying on one launcher.
type Emptier struct {
	Start  []float64 // of the volumes [Pa gauge]
	Target float64   // [Pa gauge]
	Sim    pneumatics.Sim
	stop   func() bool    // ends its runs; nil: nothing does
	known  *recall.Memory // asked before a run is computed; nil in the program itself
	// slowStart and fastStart replace start at the ends of the tolerances; nil: they do not.
	slowStart, fastStart []float64
}

// startAt are the pressures of the volumes at an end of the tolerances [Pa gauge].
func (e *Emptier) startAt(end End) []float64 {
	switch {
	case end.slow() && e.slowStart != nil:
		return e.slowStart
	case end == FastEnd && e.fastStart != nil:
		return e.fastStart
	}
	return e.Start
}

// Setup is a circuit with a scenario of emptying, ready to run.
type Setup struct {
	Circuit  pneumatics.Circuit
	scenario pneumatics.Scenario
}

// Residual is what stays for good in each volume, and last in the barrel, by the graph
// [Pa gauge]; +Inf: all of it.
func (s *Setup) Residual() []float64 { return pneumatics.Residual(&s.Circuit, &s.scenario) }

// Setup makes the circuit and scenario of one way of emptying from the launcher
// w. Nothing is loaded, or a projectile that does not move. At a slow end the
// relief valves stay shut: one that is stuck or set high must not shorten a time.
func (e *Emptier) Setup(w *launcher.Launcher, v Scenario, end End) *Setup {
	return e.entering(w, v, end, pneumatics.Off)
}

// entering is Setup with another state commanded than off.
func (e *Emptier) entering(w *launcher.Launcher, v Scenario, end End, to pneumatics.State) *Setup {
	s := new(Setup)
	w.Fill(&s.Circuit)
	s.scenario = pneumatics.Scenario{From: v.From, To: to, PowerLost: v.Kind == PowerLost, NoProjectile: end != NarrowStuck,
		Heat: pneumatics.Isothermal}
	gauge := slices.Clone(e.startAt(end))
	if v.From == pneumatics.Firing {
		spreadFiring(&s.Circuit, gauge)
	}
	for _, g := range gauge {
		around := s.Circuit.Ambient
		s.scenario.Volumes = append(s.scenario.Volumes, pneumatics.Condition{Pressure: around.Pressure + g, Temperature: around.Temperature})
	}
	for i := range s.Circuit.Paths {
		p := &s.Circuit.Paths[i]
		if p.Kind == pneumatics.Relief && end.slow() {
			s.scenario.Stuck = append(s.scenario.Stuck, pneumatics.Stuck{Path: i})
		}
		// A piloted valve passes only above its least differential, in its direction.
		if (p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve) && p.CrackingPressure > 0 {
			if p.OpeningAtLast(&s.scenario) > 0 {
				p.Kind = pneumatics.Check
			} else {
				s.scenario.Stuck = append(s.scenario.Stuck, pneumatics.Stuck{Path: i})
			}
		}
	}
	return s
}

// spreadFiring fills what only opens while firing to the highest pressure next
// to it: after a shot it may hold air.
func spreadFiring(c *pneumatics.Circuit, gauge []float64) {
	links, level := c.Links(), graph.NewPerNode(len(c.Volumes), 0.0)
	copy(level, gauge)
	graph.Reach(links, level, launcher.Higher, func(i int, way graph.Way, at float64) float64 {
		k := links[i]
		if way == graph.Against || !k.BetweenVolumes() || !c.Paths[i].OpenIn.Has(pneumatics.Firing) || gauge[k.To] > 0 {
			return 0
		}
		return at
	})
	copy(gauge, level)
}

// Run empties for so long, with a watch on every volume; samples of the trace
// end at until.
func (e *Emptier) Run(s *Setup, walls Walls, until float64, samples int) (*pneumatics.Result, error) {
	s.scenario.Heat, s.scenario.Coefficient, s.scenario.Until = walls.Heat, walls.Coefficient, until
	o := pneumatics.Options{Settle: true, Tolerance: 1e-6, Samples: samples, Stop: e.stop}
	for i := range s.Circuit.Volumes {
		o.Watch = append(o.Watch, pneumatics.Watch{Volume: i, Pressure: s.Circuit.Ambient.Pressure + e.Target})
	}
	r := e.known.Run(&e.Sim, &s.Circuit, &s.scenario, o).Clone()
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
func (s *Setup) positions() string {
	b := fmt.Sprint(s.scenario.NoProjectile)
	for i := range s.Circuit.Paths {
		p := &s.Circuit.Paths[i]
		b += fmt.Sprint("|", p.OpenIn.Has(s.scenario.From), p.OpeningAtLast(&s.scenario))
	}
	for _, v := range s.scenario.Volumes {
		b += fmt.Sprint("|", v.Pressure)
	}
	return b
}

// intoBarrel names a path that is open into the barrel at last; "" none.
func (s *Setup) intoBarrel() string {
	for i := range s.Circuit.Paths {
		p := &s.Circuit.Paths[i]
		if (p.To == pneumatics.BarrelNode || p.From == pneumatics.BarrelNode) && p.Kind != pneumatics.Relief && p.OpeningAtLast(&s.scenario) > 0 {
			return p.Name
		}
	}
	return ""
}

// SlowRuns empties by every one of the slow walls.
func (e *Emptier) SlowRuns(s *Setup, until float64, samples int) ([]*pneumatics.Result, error) {
	return e.runs(s, slowWalls(), until, samples)
}

// runs empties once for each of some walls.
func (e *Emptier) runs(s *Setup, walls []Walls, until float64, samples int) (out []*pneumatics.Result, err error) {
	for _, w := range walls {
		r, err := e.Run(s, w, until, samples)
		if err != nil {
			return nil, err
		}
		out = append(out, r)
	}
	return out, nil
}

// Slowest are the longest times of the volumes to the target [s], by the slowest of what
// the walls can do; +Inf: not by the end of the run.
func (e *Emptier) Slowest(s *Setup, until float64) ([]float64, error) {
	runs, err := e.SlowRuns(s, until, 0)
	if err != nil {
		return nil, err
	}
	out := make([]float64, len(s.Circuit.Volumes))
	for i := range out {
		for _, r := range runs {
			out[i] = max(out[i], OrInf(r.WatchTimes[i]))
		}
	}
	return out, nil
}
