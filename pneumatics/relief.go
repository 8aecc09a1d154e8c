package pneumatics

import (
	"math"

	"puffproof/pneumatics/internal/spring"
	"puffproof/pneumatics/ode"
)

// relief is what a relief valve remembers of its pressure: a run stops at every turn.
type relief struct {
	path   int // index in Circuit.Paths
	lift   spring.Lift
	turned float64 // pressure at the last turn [Pa]; NaN: none yet
	sign   float64 // +1: it has risen since, -1: it has fallen
}

// at is the lift at a gauge pressure on the present stretch.
func (r *relief) at(s *Path, gauge float64) spring.Lift {
	return r.lift.At(gauge, s.ReseatPressure, s.SetPressure, s.FullFlowPressure)
}

// listReliefs finds the relief valves that their springs move, shut.
func (e *engine) listReliefs() {
	e.reliefs = e.reliefs[:0]
	for i := range e.c.Paths {
		if e.c.Paths[i].Kind == Relief && !e.sc.sticks(i) {
			e.reliefs = append(e.reliefs, relief{path: i, turned: math.NaN()})
		}
	}
}

// reliefOf is the place of a path among the relief valves.
func (e *engine) reliefOf(path int) int {
	for k := range e.reliefs {
		if e.reliefs[k].path == path {
			return k
		}
	}
	return -1
}

// follow brings the relief valves to where the pressures of y have them. One that a run
// starts with above its set pressure stands on its rising line.
func (e *engine) follow(y []float64) {
	if len(e.reliefs) == 0 {
		return
	}
	e.conditions(y)
	for i := range e.paths {
		if a := &e.paths[i]; a.kind == Relief {
			r := &e.reliefs[a.relief]
			r.lift = r.at(a.src, e.p[a.from]-e.pa)
		}
	}
}

// aimReliefs asks for the turns of the pressure before each relief valve.
func (e *engine) aimReliefs(d []ode.Direction) {
	for k := range e.reliefs {
		d[k] = ode.Never
		if e.active(e.reliefs[k].path) != nil {
			d[k] = ode.Either
		}
	}
}

// sameTurn is how far the pressure goes from a turn before the next one counts, in parts of
// it and of the tolerance: at rest its rate is rounding, whose sign flips for ever. The
// lift forgets no more than that.
const sameTurn = 100

// turnValue is the value of the event of a relief valve: above zero while the pressure rises.
// Below the reseat pressure it is shut whatever the pressure did: the next turn that counts is
// the end of a rise.
func (e *engine) turnValue(r *relief, t float64, y, dydt []float64) float64 {
	a := e.active(r.path)
	if a == nil {
		return 1
	}
	dydt = e.rates(t, y, dydt)
	p := e.p[a.from]
	switch {
	case p-e.pa < a.src.ReseatPressure:
		return 1
	case math.Abs(p-r.turned) <= sameTurn*e.o.Tolerance*p:
		return r.sign
	case a.from == e.bar:
		return e.pressureRate(t, y, dydt)
	}
	return dydt[2*a.from+1] / y[2*a.from+1]
}

// turn notes that the pressure before a relief valve has turned at y.
func (e *engine) turn(r *relief, t float64, y []float64) {
	r.turned = math.NaN()
	r.sign = math.Copysign(1, e.turnValue(r, t, y, nil))
	if a := e.active(r.path); a != nil {
		r.turned = e.p[a.from]
	}
}
