package ode

// locate looks for events in the last step. If one happened it cuts the step
// there, sets Event and returns true. Otherwise the values at the step's end
// become the new reference.
func (s *Solver) locate() bool {
	s.watcher.EventValues(s.t, s.y[:s.n], s.k[0][:s.n], s.gNew)
	first, at := -1, s.t
	if s.skeptic != nil && s.skeptic.Doubtful(s.hLast, s.yOld[:s.n], s.k[stages][:s.n], s.y[:s.n], s.k[0][:s.n]) {
		first, at = s.search()
	}
	for i, d := range s.directions {
		if !crosses(s.g[i], s.gNew[i], d) || s.picky != nil && !s.matters(i) {
			continue
		}
		if t := s.root(i, at); first < 0 || t < at {
			first, at = i, t
		}
	}
	if first < 0 {
		s.g, s.gNew = s.gNew, s.g
		return false
	}
	first, at = s.earlier(first, at)
	if !s.trusted(at) {
		s.undo()
		return false
	}
	s.cut(at)
	s.Event = first
	// The event has happened: its value counts as being on the far side, so that
	// it does not happen again at the same place. The step that was cut may have ended back on the near side.
	s.watcher.EventValues(s.t, s.y[:s.n], s.k[0][:s.n], s.gTry)
	after := s.gNew[first]
	if after*s.g[first] > 0 {
		after = -after
	}
	copy(s.g, s.gTry)
	s.g[first] = after
	return true
}

// matters asks whether an event that the ends of the last step show is worth stopping for.
func (s *Solver) matters(i int) bool {
	return s.picky.Matters(i, s.hLast, s.yOld[:s.n], s.k[stages][:s.n], s.y[:s.n], s.k[0][:s.n])
}

// trusted tells whether the dense output at t agrees with the step's ends. A step
// far beyond the explicit method's stability limit, taken while the system stood
// in equilibrium, passes the error control at its end and is wild inside.
func (s *Solver) trusted(t float64) bool {
	if t >= s.t {
		return true
	}
	s.At(t, s.next[:s.n])
	w, h := (t-s.tOld)/s.hLast, s.hLast
	for i := range s.controlled {
		rise, f0, f1 := s.y[i]-s.yOld[i], h*s.k[stages][i], h*s.k[0][i]
		cubic := s.yOld[i] + w*rise + w*(w-1)*((1-2*w)*rise+(w-1)*f0+w*f1)
		// The room: all that the ends know of, and a thousand times the tolerance.
		room := abs(rise) + abs(f0) + abs(f1) + 1e3*s.rtol*(s.scale[i]+abs(s.y[i]))
		if s.stiff.implicit {
			// Its dense output is that cubic, and the derivatives of a stiff
			// component are noise: only the ends count.
			cubic = s.yOld[i] + w*rise
			room = abs(rise) + 1e2*s.rtol*(s.scale[i]+abs(s.y[i]))
		}
		if !(abs(s.next[i]-cubic) <= room) {
			return false
		}
	}
	return true
}

// undo takes the last step back and plans a quarter of its length.
func (s *Solver) undo() {
	s.t = s.tOld
	s.y, s.yOld = s.yOld, s.y
	s.k[0], s.k[stages] = s.k[stages], s.k[0]
	s.h = 0.25 * s.hLast
	s.derivative, s.denseReady = true, false
	s.accepted--
	s.rejected++
}

// searched is into how many parts a doubtful step is divided.
const searched = 8

// search looks for the first event at points inside the last step.
func (s *Solver) search() (first int, at float64) {
	first, at = -1, s.t
	for j := 1; j < searched && first < 0; j++ {
		t := s.tOld + s.hLast*float64(j)/searched
		s.valueAt(0, t)
		copy(s.gScan, s.gTry)
		for i, d := range s.directions {
			if !crosses(s.g[i], s.gScan[i], d) {
				continue
			}
			if r := s.root(i, min(t, at)); first < 0 || r < at {
				first, at = i, r
			}
		}
	}
	return first, at
}

// earlier looks for events that happen before time at and are undone again at
// the step's end, where locate cannot see them.
func (s *Solver) earlier(first int, at float64) (int, float64) {
	for found := true; found; {
		found = false
		s.valueAt(first, at)
		for i, d := range s.directions {
			if i == first || !crosses(s.g[i], s.gTry[i], d) {
				continue
			}
			if t := s.root(i, at); t < at {
				first, at, found = i, t, true
				break
			}
			s.valueAt(first, at) // root has used gTry
		}
	}
	return first, at
}

// crosses tells whether a value going from a to b passes zero in direction d.
// A value that starts at exactly zero has already passed.
func crosses(a, b float64, d Direction) bool {
	switch d {
	case Rising:
		return a < 0 && b >= 0
	case Falling:
		return a > 0 && b <= 0
	case Either:
		return (a < 0 && b >= 0) || (a > 0 && b <= 0)
	}
	return false
}

// rootError is how closely an event is located, in lengths of its step and in parts of the
// tolerance [-]: what the dense output is wrong by moves it further.
const rootError = 1e-4

// root finds the time in (tOld, before] at which event i passes zero: regula
// falsi with the Illinois rule on the dense output. An estimate that falls on an end of the
// bracket is put rootError inside it, so that both ends close in.
// The point returned is on the far side of the crossing.
func (s *Solver) root(i int, before float64) float64 {
	a, b := s.tOld, before
	fa, fb := s.g[i], s.gNew[i]
	if before < s.t { // an earlier event is known: this one counts only before it
		fb = s.oneAt(i, before)
		if !crosses(fa, fb, s.directions[i]) {
			return s.t
		}
	}
	eps := max(4e-16*max(abs(s.tOld), abs(s.t)), rootError*s.rtol*s.hLast)
	side := 0
	for range 60 {
		if b-a <= eps || fb == 0 {
			break
		}
		t := b - fb*(b-a)/(fb-fa)
		switch inside := min(0.5*eps, 0.25*(b-a)); {
		case !(t > a && t < b):
			t = 0.5 * (a + b)
		case t < a+inside:
			t = a + inside
		case t > b-inside:
			t = b - inside
		}
		f := s.oneAt(i, t)
		if (f > 0) == (fb > 0) || f == 0 {
			b, fb = t, f
			if side == +1 {
				fa *= 0.5
			}
			side = +1
		} else {
			a, fa = t, f
			if side == -1 {
				fb *= 0.5
			}
			side = -1
		}
	}
	return b
}

// oneAt is valueAt where only that event's value is wanted.
func (s *Solver) oneAt(i int, t float64) float64 {
	if s.single == nil {
		return s.valueAt(i, t)
	}
	from, to := s.single.Sees(i)
	s.between(t, s.next, from, to)
	return s.single.EventValue(i, t, s.next[:s.n])
}

func (s *Solver) valueAt(i int, t float64) float64 {
	s.At(t, s.next[:s.n])
	s.watcher.EventValues(t, s.next[:s.n], nil, s.gTry)
	return s.gTry[i]
}

// cut ends the last step at time t inside it.
func (s *Solver) cut(t float64) {
	if t >= s.t {
		return
	}
	if s.stiff.implicit && s.add.made {
		s.redo(t - s.tOld)
	} else {
		s.At(t, s.next[:s.n])
	}
	s.y, s.next = s.next, s.y
	s.t, s.tOld = t, t // what lies before can no longer be interpolated
	s.sys.Derivatives(s.t, s.y[:s.n], s.k[0][:s.n])
	s.calls++
	s.derivative, s.denseReady = true, false
}

// redo makes the last step, one of the additive method, again with another length and leaves its
// end in next: the cubic between the ends of a step is coarser than the step.
func (s *Solver) redo(h float64) {
	s.t = s.tOld
	s.y, s.yOld = s.yOld, s.y
	s.k[0], s.k[stages] = s.k[stages], s.k[0]
	s.additiveTrial(h)
}

// Dips tells that a positive value may have passed zero and come back inside a step, of the values at its ends and the rates there times
// its length: the cubic through them turns down inside and comes near zero (within 0.7 of the larger end, found by trying; the cubic is
// far better than that).
func Dips(v0, v1, a0, a1 float64) bool {
	// v(s) = v0 + a0 s + c2 s^2 + c3 s^3 on 0..1
	c2 := 3*(v1-v0) - 2*a0 - a1
	c3 := a0 + a1 - 2*(v1-v0)
	lowest, falls := min(v0, v1), a0 < 0 || a1 < 0
	const parts = 8
	for i := 1; i < parts; i++ {
		s := float64(i) / parts
		falls = falls || a0+s*(2*c2+s*3*c3) < 0
		lowest = min(lowest, v0+s*(a0+s*(c2+s*c3)))
	}
	return falls && lowest < 0.7*max(v0, v1)
}
