// Package hops foretells the rests of a projectile that creeps: it rests until the pressure behind it has risen, moves on a little, and
// rests again, hundreds of times. Each hop is much like the last, so what a hop changes is a smooth function of its number, and the
// sum over hops to come follows from a parabola through three of those that were made. Such multirevolution methods are old (for
// instance Petzold, SIAM Journal on Numerical Analysis 18 (1981) 455, from memory). What is linear in the state, as the balances of
// mass and energy are, closes over a leap as it did before.
package hops

import "math"

const (
	most    = 64   // hops that one leap takes
	least   = 4    // hops below which a leap does not pay
	allowed = 3e-4 // what the parabola's bend may add to a component, in parts of its size [-]
	far     = 0.3  // how far a component may go in one leap, in parts of its size [-]
	base    = 4    // hops between those that are measured, at least
	settles = 1    // hops after a leap that are not yet like the others
)

// hop is what one hop changes.
type hop struct {
	at   int // its number
	from []float64
}

// Series is the states at the rests so far. The zero value is empty.
type Series struct {
	hops  [3]hop // measured ones, the latest at the end
	known int    // how many of them there are
	last  []float64
	at    int // the number of the last rest; 0: none
	skip  int // hops still to come that settle
	then  []float64
}

// Clear forgets all rests.
func (s *Series) Clear() { s.at, s.known, s.skip = 0, 0, 0 }

// Add notes the state at a rest, and after it what else grows from hop to hop.
func (s *Series) Add(y []float64, more ...float64) {
	s.then = append(append(s.then[:0], y...), more...)
	s.at++
	if s.skip > 0 {
		s.skip--
	} else if s.at > 1 {
		s.measure()
	}
	s.last, s.then = s.then, s.last
}

// measure notes the hop from the last rest to the one in then. It takes the place of the latest until that is some hops behind the one
// before: a long base foretells better.
func (s *Series) measure() {
	h := &s.hops
	if s.known < len(h) || h[2].at < s.at-1 || h[2].at-h[1].at >= base {
		h[0], h[1], h[2] = h[1], h[2], h[0]
		s.known = min(s.known+1, len(h))
	}
	h[2].at, h[2].from = s.at, h[2].from[:0]
	for i, y := range s.then {
		h[2].from = append(h[2].from, y-s.last[i])
	}
}

// Leap goes on from the state that At foretells after so many hops.
func (s *Series) Leap(hops int) {
	s.State(len(s.last), hops)
	s.last, s.then = s.then, s.last
	s.at, s.skip = s.at+hops, settles
}

// At foretells a component after so many hops more.
func (s *Series) At(i, hops int) float64 {
	straight, bent := s.sum(i, hops)
	return s.last[i] + straight + bent
}

// sum adds up a component's changes over the hops to come: along a straight line through the last two, and what the parabola through
// three adds. By Newton's divided differences, j hops on: D + a j + b j (j + g), g hops between the last two.
func (s *Series) sum(i, hops int) (straight, bent float64) {
	h := &s.hops
	g, before := float64(h[2].at-h[1].at), float64(h[1].at-h[0].at)
	a := (h[2].from[i] - h[1].from[i]) / g
	b := (a - (h[1].from[i]-h[0].from[i])/before) / (g + before)
	k := float64(hops)
	one, two := k*(k+1)/2, k*(k+1)*(2*k+1)/6 // sums of j and of its square
	return k*h[2].from[i] + one*a, b * (two + g*one)
}

// State foretells the first n components after so many hops more. It holds until the next call.
func (s *Series) State(n, hops int) []float64 {
	s.then = s.then[:0]
	for i := range n {
		s.then = append(s.then, s.At(i, hops))
	}
	return s.then
}

// Reach is the most hops over which every component that has a scale is foretold well, and no more than may tells; 0: none. A
// component's size is its scale and its value.
func (s *Series) Reach(scales []float64, may func(hops int) bool) int {
	if s.known < len(s.hops) || s.hops[2].at != s.at {
		return 0
	}
	n := most
	for i, scale := range scales {
		size := scale + math.Abs(s.last[i])
		for ; n >= least; n-- {
			if straight, bent := s.sum(i, n); math.Abs(bent) <= allowed*size && math.Abs(straight) <= far*size {
				break
			}
		}
	}
	for ; n >= least; n-- {
		if may(n) {
			return n
		}
	}
	return 0
}
