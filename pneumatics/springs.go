package pneumatics

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
		gauge := p1 - e.pa
		return min(max(reliefRise(s, gauge), min(e.reliefs[a.relief].lift, reliefFall(s, gauge))), 1)
	case Regulator:
		droop := s.Droop
		if droop <= 0 {
			droop = 0.05 * max(s.SetPressure, 1)
		}
		return min(max((s.SetPressure-(p2-e.pa))/droop, 0), 1)
	default: // Check: fully open a tenth of its cracking pressure, or 1 kPa, above it
		span := max(0.1*s.CrackingPressure, 1000)
		return min(max((p1-p2-s.CrackingPressure)/span, 0), 1)
	}
}
