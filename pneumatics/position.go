package pneumatics

import "math"

// A valve's opening over time is piecewise linear: knots of time [s] and
// opening [0 … 1], constant outside them.
type knot struct{ t, opening float64 }

type schedule struct {
	knots [4]knot
	n     int
}

func constant(opening float64) schedule {
	return schedule{knots: [4]knot{{0, opening}}, n: 1}
}

func (s *schedule) add(t, opening float64) {
	s.knots[s.n] = knot{t, opening}
	s.n++
}

// at gives the opening at time t and its rate from t on [1/s].
func (s *schedule) at(t float64) (opening, rate float64) {
	k := s.knots[:s.n]
	for i := len(k) - 1; i >= 0; i-- {
		if t >= k[i].t {
			if i == len(k)-1 {
				return k[i].opening, 0
			}
			span := k[i+1].t - k[i].t
			rate = (k[i+1].opening - k[i].opening) / span
			return k[i].opening + rate*(t-k[i].t), rate
		}
	}
	return k[0].opening, 0
}

// peak is the largest opening at or after time t.
func (s *schedule) peak(t float64) float64 {
	best, _ := s.at(t)
	for _, k := range s.knots[:s.n] {
		if k.t >= t {
			best = max(best, k.opening)
		}
	}
	return best
}

// next is the first knot after t, +Inf where there is none.
func (s *schedule) next(t float64) float64 {
	for _, k := range s.knots[:s.n] {
		if k.t > t {
			return k.t
		}
	}
	return math.Inf(1)
}

// movement is the schedule of a path in a scenario: from its settled position
// in the state before time 0 to the position asked for at time 0.
func (p *Path) movement(sc *Scenario) schedule {
	switch p.Kind {
	case Valve, HandValve:
	default:
		return constant(1) // always in the circuit; springs decide
	}
	from := fraction(p.OpenIn.Has(sc.From))
	to := fraction(p.OpenIn.Has(sc.To))
	if sc.PowerLost {
		switch {
		case p.Kind == HandValve || p.Unpowered == Stays:
			to = from
		default:
			to = fraction(p.Unpowered == Open)
		}
	}
	return p.ramp(from, to)
}

func (p *Path) ramp(from, to float64) schedule {
	var s schedule
	end := 0.0
	switch {
	case to > from && p.OpeningTime > 0:
		s.add(0, from)
		end = p.OpeningTime * (to - from)
		s.add(end, to)
	case to < from && p.ClosingTime > 0:
		s.add(0, from)
		end = p.ClosingTime * (from - to)
		s.add(end, to)
	default:
		s = constant(to)
	}
	switch {
	case to > from && p.Pulse > 0:
		s = s.turned(p.Pulse, end, 0, p.ClosingTime)
	case to < from && p.Reopens > 0:
		s = s.turned(p.Reopens, end, 1, p.OpeningTime)
	}
	return s
}

// turned adds the command back, at a time after the first one, which is carried out by
// end; the whole way back takes whole [s].
func (s schedule) turned(at, end, back, whole float64) schedule {
	reached := s.knots[s.n-1].opening
	if at < end { // turned before it has arrived
		reached, _ = s.at(at)
		s.n--
	}
	if at > s.knots[s.n-1].t {
		s.add(at, reached)
	}
	if whole > 0 {
		s.add(at+whole*math.Abs(reached-back), back)
	} else {
		s.knots[s.n-1].t = at
		s.add(math.Nextafter(at, math.Inf(1)), back)
	}
	return s
}

func fraction(open bool) float64 {
	if open {
		return 1
	}
	return 0
}
