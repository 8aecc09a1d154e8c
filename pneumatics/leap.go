package pneumatics

import "puffproof/pneumatics/ode"

const (
	manyRests = 5 // after so many rests a projectile hops: each hop is much like the last
	lastHops  = 6 // are followed one by one: how a projectile leaves hangs on where its last hop begins
)

// leap takes a projectile at rest over many hops at once, where Options.Leap lets it and nothing is wanted on the way.
func (s *Sim) leap() {
	e, r := &s.e, &s.r
	if !e.o.Leap || e.o.Samples > 0 || len(e.o.Watch) > 0 || r.Rests <= manyRests {
		s.hops.Clear()
		return
	}
	t, y := s.solver.Time(), s.solver.State()
	if e.netForce() < -e.threshold { // it bounces, and turns back from here: every hop is taken from where it goes on
		s.top = max(s.top, y[e.iX])
		return
	}
	s.hops.Add(y, t, s.rubbed, r.Account.Impact, float64(r.Rests), max(s.top, y[e.iX]))
	s.top = 0
	knot := min(e.nextKnot(t), e.until)
	hops := s.hops.Reach(e.scales, func(n int) bool {
		x, then := s.hops.At(e.iX, n), s.hops.At(e.n, n)
		hop := x - s.hops.At(e.iX, n-1)
		return x+min(0, lastHops*hop) > 0 && s.hops.At(e.n+4, n)+max(0, lastHops*hop) <= e.b.Travel && then > t && then < knot
	})
	if hops == 0 {
		return
	}
	then, there := s.hops.At(e.n, hops), s.hops.State(e.n, hops)
	for i, direction := range e.aim(t) { // a switch, a diaphragm or what holds the projectile may turn on the way
		if direction == ode.Never || i == evPeak || i >= e.events()-len(e.reliefs) {
			continue
		}
		if e.EventValue(i, t, y) < 0 != (e.EventValue(i, then, there) < 0) {
			return
		}
	}
	copy(y, there)
	s.solver.Leap(then)
	s.rubbed, r.Account.Impact = s.hops.At(e.n+1, hops), s.hops.At(e.n+2, hops)
	r.Rests = int(s.hops.At(e.n+3, hops) + 0.5)
	s.hops.Leap(hops)
	e.follow(y)
}
