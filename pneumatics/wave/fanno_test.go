package wave

import "math"

// fannoMach inverts FannoLength on the subsonic side: the Mach number from which
// the friction length fl = f L*/D [-] leads to sonic flow.
func fannoMach(gamma, fl float64) float64 {
	low, high := 1e-6, 1.0
	for range 200 {
		mid := 0.5 * (low + high)
		if mid <= low || mid >= high {
			break
		}
		if FannoLength(gamma, mid) > fl {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// fannoFlux gives the mass flow per area [kg/(m2 s)] of air from rest at p0 [Pa],
// T0 [K] through an isentropic inlet and a duct of friction length fl = f L/D
// [-] into a space at p2 [Pa], and the Mach numbers at its two ends.
func fannoFlux(gamma, r, p0, t0, p2, fl float64) (flux, inlet, outlet float64) {
	static := func(m float64) (t, p float64) {
		t = t0 / (1 + 0.5*(gamma-1)*m*m)
		return t, p0 * math.Pow(t/t0, gamma/(gamma-1))
	}
	// pressure at the outlet over p2 for an inlet Mach number; falls with it
	outletOf := func(m float64) (m2, p float64) {
		m2 = fannoMach(gamma, max(0, FannoLength(gamma, m)-fl))
		t1, p1 := static(m)
		t2, _ := static(m2)
		return m2, p1 * m / m2 * math.Sqrt(t2/t1)
	}
	low, high := 0.0, fannoMach(gamma, fl)
	inlet = high
	if _, p := outletOf(high); p < p2 {
		for range 200 {
			inlet = 0.5 * (low + high)
			if inlet <= low || inlet >= high {
				break
			}
			if _, p := outletOf(inlet); p > p2 {
				low = inlet
			} else {
				high = inlet
			}
		}
	}
	outlet, _ = outletOf(inlet)
	t, p := static(inlet)
	return p / (r * t) * inlet * math.Sqrt(gamma*r*t), inlet, outlet
}
