// Package hops foretells the rests of a projectile that creeps: it rests until the pressure behind it has risen, moves on a little, and
// rests again, hundreds of times. Each hop is much like the last, so the states at its rests are a smooth series, and those to come
// follow from the last ones by Newton's backward differences. Such multirevolution methods are old (for instance Petzold, SIAM Journal
// on Numerical Analysis 18 (1981) 455, from memory). What is linear in the state, as the balances of mass and energy are, closes over
// a leap as it did before.
package hops

import "math"

const (
	kept    = 4    // rests that a leap is foretold from
	most    = 64   // hops that one leap takes
	least   = 4    // hops below which a leap does not pay
	allowed = 3e-4 // what the third difference may add to a component, in parts of its size [-]
	far     = 0.3  // how far a component may go in one leap, in parts of its size [-]
)

// Series is the states at the last rests. The zero value is empty.
type Series struct {
	at   [kept][]float64
	then []float64
	n    int
}

// Clear forgets all rests.
func (s *Series) Clear() { s.n = 0 }

// Add notes the state at a rest, and after it what else grows from hop to hop.
func (s *Series) Add(y []float64, more ...float64) {
	first := s.at[0]
	copy(s.at[:], s.at[1:])
	s.at[kept-1] = append(append(first[:0], y...), more...)
	s.n = min(s.n+1, kept)
}

// At foretells a component after so many hops more.
func (s *Series) At(i, hops int) float64 {
	n, last := float64(hops), s.at[kept-1][i]
	d1, d0 := last-s.at[kept-2][i], s.at[kept-2][i]-s.at[kept-3][i]
	return last + n*d1 + n*(n+1)/2*(d1-d0)
}

// State foretells the state after so many hops more, of n components. It holds until the next call.
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
	if s.n < kept {
		return 0
	}
	n := most
	for i, scale := range scales {
		y := [kept]float64{s.at[0][i], s.at[1][i], s.at[2][i], s.at[3][i]}
		size := scale + math.Abs(y[3])
		third := math.Abs(y[3]-3*y[2]+3*y[1]-y[0]) / 6
		for ; n >= least; n-- {
			if k := float64(n); k*(k+1)*(k+2)*third <= allowed*size && math.Abs(s.At(i, n)-y[3]) <= far*size {
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
