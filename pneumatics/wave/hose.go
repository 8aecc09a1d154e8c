package wave

import (
	"math"

	"puffproof/pneumatics/flow"
)

// Hose is a straight piece of hose or pipe.
type Hose struct {
	Bore, Length float64 // [m]
	Friction     Friction
	Darcy        float64 // ConstantFriction: the Darcy friction factor [-]
	Roughness    float64 // PipeFriction: height of the wall's roughness [m]; 0: smooth
	Wall         float64 // PipeFriction: times the factor of a clean straight pipe [-]; 0: 1
	// Fittings is the sum of the loss factors of its elbows, couplings and bends
	// [-]: each takes that many times rho u^2/2. They are spread over the length.
	Fittings float64
	// Entry is the loss factor of either end for air that enters there from a
	// vessel [-], of the pressure by which the air falls from rest: 0 well rounded, 0.5
	// sharp-edged; from a wider piece it is less, Entry (1 - narrow/wide section)
	// (handbooks of pressure losses, for instance Idelchik, diagrams 3-1 and 4-9; from
	// memory).
	Entry float64
}

// Friction is how the wall of a hose slows the gas.
type Friction uint8

// The kinds of friction. Both are those of steady flow: a wave that passes finds
// more of it (not modelled).
const (
	ConstantFriction Friction = iota // Hose.Darcy at any flow; 0 is none
	PipeFriction                     // by Reynolds number and roughness: pipeFactor
)

// area is the section [m2].
func (h *Hose) area() float64 { return math.Pi / 4 * h.Bore * h.Bore }

// none tells whether there is no hose.
func (h *Hose) none() bool { return h.Length <= 0 }

// HoseLike is a hose of a bore and a length [m] whose friction is such that it
// passes, steady and choked, what the restriction r passes: so the lumped model's
// hose and this one differ in nothing but the gas stored in it and the waves.
// Entry losses count as friction. Its friction is 0 where r passes more than an
// ideal inlet of the bore.
func HoseLike(bore, length float64, r flow.Restriction, g flow.Gas) Hose {
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
func chokedConductance(bore, fl float64, g flow.Gas) float64 {
	const p0, t0 = 1e5, flow.ReferenceTemperature
	flux, _, _ := FannoFlux(g.Gamma, g.R, p0, t0, 0, fl)
	return flux * math.Pi / 4 * bore * bore / (g.ReferenceDensity * p0)
}
