package setpoint

import "math"

// ladder is the ladder of the answer: the recommended pressures, or those of the
// design where no cut-out works.
func (s *solver) ladder() {
	w := s.chain.launcher
	if !s.out.Works || s.out.Binding == "source.limited" {
		w = s.l
	}
	limit := s.out.Pressure
	if math.IsInf(s.caps.energy, 1) || limit < leastStart { // no such pressure
		limit = math.NaN()
	}
	s.out.Ladder = w.Rungs(limit)
}
