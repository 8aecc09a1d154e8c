package flow

import "math"

// seriesFlow gives the exact mass flow [kg/s] of restrictions in series from
// (p1, t1) to p2 < p1, and the pressures between them [Pa], by bisection on the
// flow. Kinetic energy between the elements is lost.
func seriesFlow(g Gas, p1, t1, p2 float64, elements ...Restriction) (q float64, between []float64) {
	between = make([]float64, max(0, len(elements)-1))
	low, high := 0.0, math.Inf(1)
	flows := make([]Law, len(elements))
	for i, e := range elements {
		if e.IsZero() {
			return 0, between
		}
		flows[i] = NewLaw(e, &g, 1)
		high = min(high, flows[i].K*p1/math.Sqrt(t1))
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
func passes(flows []Law, q, p1, t1, p2 float64, between []float64) bool {
	p := p1
	for i := range flows {
		f := &flows[i]
		want := q / (f.K * p / math.Sqrt(t1)) // phi needed
		if want > 1 {
			return false
		}
		if i == len(flows)-1 {
			return f.Phi(min(1, p2/p)) >= want
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
func (f *Law) ratioFor(phi float64) float64 {
	low, high := f.B, 1.0
	for range 100 {
		mid := 0.5 * (low + high)
		if mid <= low || mid >= high {
			break
		}
		if f.Phi(mid) >= phi {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}
