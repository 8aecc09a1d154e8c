package wave

import (
	"math"

	"puffproof/pneumatics"
)

// HoseLike is a hose of a bore and a length [m] whose friction is such that it
// passes, steady and choked, what the restriction r passes: so the lumped model's
// hose and this one differ in nothing but the gas stored in it and the waves.
// Entry losses count as friction. Its friction is 0 where r passes more than an
// ideal inlet of the bore.
func HoseLike(bore, length float64, r pneumatics.Restriction, g pneumatics.Gas) Hose {
	h := Hose{Bore: bore, Length: length}
	want, _ := r.Conductance(g)
	// Friction length f L/D by bisection on a logarithmic scale; 1e5 is a hose of
	// kilometres.
	low, high := 1e-6, 1e5
	if chokedConductance(bore, low, g) <= want {
		return h
	}
	for range 100 {
		mid := math.Sqrt(low * high)
		if chokedConductance(bore, mid, g) > want {
			low = mid
		} else {
			high = mid
		}
	}
	h.Darcy = low * bore / length
	return h
}

// chokedConductance is the sonic conductance [m3/(s Pa)] of a duct with an
// isentropic inlet and a friction length fl = f L/D, from Fanno flow into a
// vacuum.
func chokedConductance(bore, fl float64, g pneumatics.Gas) float64 {
	const p0, t0 = 1e5, pneumatics.ReferenceTemperature
	flux, _, _ := FannoFlux(g.Gamma, g.R, p0, t0, 0, fl)
	return flux * math.Pi / 4 * bore * bore / (g.ReferenceDensity * p0)
}
