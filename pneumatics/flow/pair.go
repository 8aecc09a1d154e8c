package flow

import "math"

// Pair is two ISO 6358 ellipses of index 0.5 passed one after the other: a part
// and its hose. Its flow is exact, not that of an ellipse through the pair's C
// and b, which near C1 = b1 C2 would be up to 7 % too low.
type Pair struct {
	c1, b1, c2, b2 float64 // first and second in the direction of flow
	c, b           float64 // of the whole: choked flow, and the ratio up to which it chokes
}

// NewPair gives the pair of two ellipses in series by C [m3/(s Pa)] and b [-], the first in the
// direction of flow first.
func NewPair(c1, b1, c2, b2 float64) Pair {
	p := Pair{c1: c1, b1: b1, c2: c2, b2: b2}
	p.c, p.b = seriesPair(c1, b1, c2, b2)
	return p
}

// Conductance is C times the flow function at a pressure ratio r [m3/(s Pa)].
// Above laminar it is the chord to 1. Below the choking ratio it is C; between,
// with y = pm/p1 the balance of two ellipses is a quadratic:
//
//	C1^2 (1 - ((y-b1)/(1-b1))^2) = C2^2 (y^2 - ((r - b2 y)/(1-b2))^2)
//
// Source: ISO 6358-3:2014 (one mass flow, one stagnation temperature), re-derived.
func (p *Pair) Conductance(r, laminar float64) float64 {
	switch {
	case p.c1 == 0 || p.c2 == 0:
		return 0
	case r <= p.b:
		return p.c
	case r > laminar:
		return p.subsonic(laminar) * (1 - r) / (1 - laminar)
	}
	return p.subsonic(r)
}

func (p *Pair) subsonic(r float64) float64 {
	u1, u2 := 1-p.b1, 1-p.b2
	k1 := p.c1 * p.c1 / (u1 * u1)
	k2 := p.c2 * p.c2 / (u2 * u2)
	// f(y) = a y^2 + 2 h y + d falls from above zero at y = r to below it at its end.
	a := -k1 - k2*(u2*u2-p.b2*p.b2)
	h := p.b1*k1 - p.b2*r*k2
	d := k1*(u1*u1-p.b1*p.b1) + k2*r*r
	high := 1.0
	if p.b2 > r {
		high = r / p.b2 // beyond it the second element would choke
	}
	y := quadraticIn(a, h, d, r, high)
	// Both elements pass the same. The narrower one has the larger fall of pressure, whose
	// rounding counts less.
	if p.c2 < p.c1 {
		s := max(0, r-p.b2*y) / u2
		return p.c2 * math.Sqrt(max(0, (y-s)*(y+s)))
	}
	s := (y - p.b1) / u1
	if s <= 0 {
		return p.c1
	}
	return p.c1 * math.Sqrt(max(0, 1-s*s))
}

// quadraticIn gives the root of a y^2 + 2 h y + d that lies in [low, high]; there
// is one, up to rounding.
func quadraticIn(a, h, d, low, high float64) float64 {
	root := math.Sqrt(max(0, h*h-a*d))
	// The form without cancellation for one root, the product of roots for the other.
	q := -(h + math.Copysign(root, h))
	first, second := q/a, d/q
	outside := func(y float64) float64 { return max(low-y, y-high, 0) }
	if !(outside(first) <= outside(second)) { // NaN where a or q is zero
		first = second
	}
	return min(max(first, low), high)
}
