package flow

import "math"

// Series is the composite of two restrictions passed one after the other by one
// mass flow at one stagnation temperature, as one ISO 6358 ellipse:
//
//	alpha = C1/(b1 C2)
//	alpha <= 1: C = C1, else C = C2 alpha (alpha b1 + (1-b1) sqrt(alpha^2 + ((1-b1)/b1)^2 - 1))/(alpha^2 + ((1-b1)/b1)^2)
//
// and as b the pressure ratio at which the pair chokes. C and b are exact for
// two ellipses of index 0.5; between choking and standstill the ellipse through
// them differs from the exact pair (see TestSeriesEllipseAgainstExactPair).
// Source: ISO 6358-3:2014, clause 6, re-derived.
func Series(first, second Restriction, g Gas) Restriction {
	switch {
	case second.IsZero():
		return Restriction{}
	case first.IsZero():
		return Restriction{}
	}
	c1, b1 := first.Conductance(g)
	c2, b2 := second.Conductance(g)
	c, b := seriesPair(c1, b1, c2, b2)
	return SonicConductance(c, b)
}

// seriesPair gives C and b of two ellipses in series.
func seriesPair(c1, b1, c2, b2 float64) (c, b float64) {
	if c1 <= b1*c2 { // the first element chokes
		alpha := c1 / (b1 * c2)
		return c1, b1 * (b2 + (1-b2)*math.Sqrt(1-alpha*alpha))
	}
	// The second element chokes: with rho = c2/c1 and y = pm/p1 the balance
	// phi1(y) = y rho is a quadratic in y. Written without alpha it stays finite
	// at b1 = 0.
	rho := c2 / c1
	u := 1 - b1
	d := 1 + u*u*rho*rho
	y := (b1 + math.Sqrt(b1*b1-d*(b1*b1-u*u))) / d
	return c2 * y, b2 * y
}
