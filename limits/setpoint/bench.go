package setpoint

import "math"

// bench tells what bench tests have moved.
func (s *solver) bench() {
	b := s.l.Bench
	if b == nil {
		return
	}
	s.out.Bench, s.out.BenchSilent = b.Replaced, b.Silent
	before := solveChain(pumped(b.Before), s.caps).cutOut
	if s.out.Works && !math.IsNaN(before) {
		s.out.BenchMoved = finite(solveChain(s.l, s.caps).cutOut - before)
	}
}
