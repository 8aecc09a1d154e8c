// Package opening is how far a valve is open over time.
package opening

import "math"

type knot struct{ t, opening float64 }

// Schedule is a valve's opening over time, piecewise linear: knots of time [s] and
// opening [0 … 1], constant outside them.
type Schedule struct {
	knots [4]knot
	n     int
}

// Constant is the same opening at all times.
func Constant(opening float64) Schedule {
	return Schedule{knots: [4]knot{{0, opening}}, n: 1}
}

func (s *Schedule) add(t, opening float64) {
	s.knots[s.n] = knot{t, opening}
	s.n++
}

// At gives the opening at time t and its rate from t on [1/s].
func (s *Schedule) At(t float64) (opening, rate float64) {
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

// Peak is the largest opening at or after time t.
func (s *Schedule) Peak(t float64) float64 {
	best, _ := s.At(t)
	for _, k := range s.knots[:s.n] {
		if k.t >= t {
			best = max(best, k.opening)
		}
	}
	return best
}

// Next is the first knot after t, +Inf where there is none.
func (s *Schedule) Next(t float64) float64 {
	for _, k := range s.knots[:s.n] {
		if k.t > t {
			return k.t
		}
	}
	return math.Inf(1)
}

// Last is where the schedule ends.
func (s *Schedule) Last() float64 { return s.knots[s.n-1].opening }

// Motion is how a valve's part moves, and whether the command is taken back.
type Motion struct {
	Opening, Closing float64 // from the command to fully open, and to shut, linear [s]
	Pulse            float64 // after the command to open, the command to close follows [s]; 0: none
	Reopens          float64 // after the command to close, the command to open follows [s]; 0: it does not
}

// Ramp is the schedule of a valve that is told at time 0 to go from one opening to another.
func (m Motion) Ramp(from, to float64) Schedule {
	var s Schedule
	end := 0.0
	switch {
	case to > from && m.Opening > 0:
		s.add(0, from)
		end = m.Opening * (to - from)
		s.add(end, to)
	case to < from && m.Closing > 0:
		s.add(0, from)
		end = m.Closing * (from - to)
		s.add(end, to)
	default:
		s = Constant(to)
	}
	switch {
	case to > from && m.Pulse > 0:
		s = s.turned(m.Pulse, end, 0, m.Closing)
	case to < from && m.Reopens > 0:
		s = s.turned(m.Reopens, end, 1, m.Opening)
	}
	return s
}

// turned adds the command back, at a time after the first one, which is carried out by
// end; the whole way back takes whole [s].
func (s Schedule) turned(at, end, back, whole float64) Schedule {
	reached := s.knots[s.n-1].opening
	if at < end { // turned before it has arrived
		reached, _ = s.At(at)
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
