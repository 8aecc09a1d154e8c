package pneumatics

import "math"

// Exchange is the place whose gas is exchanged fastest: what makes a run short of steps.
type Exchange struct {
	Volume int     // index into Circuit.Volumes; -1: the barrel
	Time   float64 // in which as much gas passes as it holds [s]; 0: not known
}

// fastestExchange looks for it where the run stands. Cells of lines are no places: how
// small they are is the run's own choice.
func (s *Sim) fastestExchange() Exchange {
	e, y := &s.e, s.solver.State()
	e.conditions(y)
	passed := make([]float64, e.nodes+1)
	for i := range e.paths {
		d := e.scratch(len(y))
		clear(d)
		e.pass(&e.paths[i], s.solver.Time(), d)
		for n := range e.nodes {
			passed[n] += math.Abs(d[2*n]) / 2 // what comes in goes out
		}
	}
	var out Exchange
	shortest := math.Inf(1)
	for n := range e.nodes {
		if t := y[2*n] / passed[n]; (n == e.bar || n < len(e.c.Volumes)) && t > 0 && t < shortest {
			shortest, out = t, Exchange{Volume: n, Time: t}
			if n == e.bar {
				out.Volume = -1
			}
		}
	}
	return out
}
