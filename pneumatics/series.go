package pneumatics

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

// SeriesFlow gives the exact mass flow [kg/s] of restrictions in series from
// (p1, t1) to p2 < p1, and the pressures between them [Pa], by bisection on the
// flow. Kinetic energy between the elements is lost.
func SeriesFlow(g Gas, p1, t1, p2 float64, elements ...Restriction) (q float64, between []float64) {
	between = make([]float64, max(0, len(elements)-1))
	low, high := 0.0, math.Inf(1)
	flows := make([]flow, len(elements))
	for i, e := range elements {
		if e.IsZero() {
			return 0, between
		}
		flows[i] = newFlow(e, &g, 1)
		high = min(high, flows[i].k*p1/math.Sqrt(t1))
	}
	for range 200 {
		q = 0.5 * (low + high)
		if q <= low || q >= high {
			break
		}
		if passes(flows, q, p1, t1, p2, between) {
			low = q
		} else {
			high = q
		}
	}
	passes(flows, low, p1, t1, p2, between)
	return low, between
}

// passes marches a flow q through the elements and tells whether it arrives
// with at least p2 before the last element's limit.
func passes(flows []flow, q, p1, t1, p2 float64, between []float64) bool {
	p := p1
	for i := range flows {
		f := &flows[i]
		want := q / (f.k * p / math.Sqrt(t1)) // phi needed
		if want > 1 {
			return false
		}
		if i == len(flows)-1 {
			return f.phi(min(1, p2/p)) >= want
		}
		p *= f.ratioFor(want)
		between[i] = p
		if p < p2 {
			return false
		}
	}
	return true
}

// ratioFor inverts the flow function: the largest ratio that passes phi.
func (f *flow) ratioFor(phi float64) float64 {
	low, high := f.b, 1.0
	for range 100 {
		mid := 0.5 * (low + high)
		if mid <= low || mid >= high {
			break
		}
		if f.phi(mid) >= phi {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}
