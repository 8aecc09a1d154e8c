package pneumatics

import "puffproof/pneumatics/internal/spring"

// openingOf is how far a path is open [0 … 1] for flow from the node up at p1 against
// p2, pressures at rest.
func (e *engine) openingOf(a *activePath, t float64, up int, p1, p2 float64) float64 {
	switch {
	case a.balanced:
		if up != a.from {
			p1, p2 = p2, p1
		}
		return e.popped(a, t, p1, p2)
	case a.kind >= Check:
		return e.springOpening(a, p1, p2)
	}
	return a.at(t)
}

// springOpening is how far a spring-loaded path is open [0 … 1].
func (e *engine) springOpening(a *activePath, p1, p2 float64) float64 {
	s := a.src
	switch a.kind {
	case Relief:
		return float64(e.reliefs[a.relief].at(s, p1-e.pa))
	case Regulator:
		return spring.Regulator(p2-e.pa, s.SetPressure, s.Droop)
	default:
		return spring.Check(p1-p2, s.CrackingPressure)
	}
}
