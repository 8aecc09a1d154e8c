package wave

import (
	"math"

	"puffproof/pneumatics/flow"
)

// holeCells is the least number of cells over which a hole at a tube's left end is
// spread. In one cell the gas would lose the whole of its speed at once, and the
// scheme would answer with a pressure step of half rho a u.
const holeCells = 4

// holed tells how many cells a hole at the left end is spread over: those of one
// bore, at least holeCells.
func (t *tube) holed() int {
	bore := 2 * math.Sqrt(t.section[0]/math.Pi)
	n := holeCells
	for n < t.n && t.x[n]-t.x[0] < bore {
		n++
	}
	return min(n, t.n)
}

// sideHole passes gas through holes in the wall at a tube's left end, out of the
// tube to a space at p2 [Pa], t2 [K], and gives mass [kg/s] and energy [W] per
// second. The wall feels the static pressure. What leaves takes its total enthalpy
// and its momentum along; what comes has none along the tube.
func (s *system) sideHole(t *tube, law flow.Restriction, p2, t2 float64) (mass, energy float64) {
	n := t.holed()
	law = law.Scaled(1 / float64(n))
	for i := range n {
		p, u := t.p[i], t.u[i]
		static := p / (s.g.R * t.rho[i])
		q := law.MassFlow(s.g.Gas, p, static, p2, t2)
		h := q * (s.g.cp*static + 0.5*u*u)
		if q < 0 {
			h, u = q*s.g.cp*t2, 0
		}
		// A source of cell i is one more flow through all faces left of it.
		for k := 0; k <= i; k++ {
			t.fm[k] -= q
			t.fq[k] -= q * u
			t.fe[k] -= h
		}
		mass += q
		energy += h
	}
	return mass, energy
}
