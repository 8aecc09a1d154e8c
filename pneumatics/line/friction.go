package line

import "math"

// The friction factor's laminar and turbulent branches are joined smoothly between
// these Reynolds numbers (pipe flow turns turbulent between 2000 and 4000, any text
// on fluid mechanics).
const (
	laminarEnd     = 2000.0
	turbulentBegin = 4000.0
)

// Friction is Darcy's friction factor of a smooth pipe [-] at a Reynolds
// number: 64/Re, and Haaland's form of the smooth-pipe law above Re 4000:
//
//	f = (1.8 log10(Re/6.9))^-2
//
// between 2000 and 4000 a smooth step from one to the other. Source: Haaland, J.
// Fluids Eng. 105 (1983) 89 (read in a later text).
func Friction(re float64) float64 { return FrictionOfSquare(re * re) }

// FrictionOfSquare is Friction by the square of the Reynolds number, which saves a root
// where the flow is turbulent. It is 0 at rest, where nothing holds the gas.
func FrictionOfSquare(square float64) float64 {
	const low, high = laminarEnd * laminarEnd, turbulentBegin * turbulentBegin
	if square >= high {
		return haaland(square)
	}
	if square < 1e-200 { // rounding, where 64/Re would not be finite
		return 0
	}
	re := math.Sqrt(square)
	if square <= low {
		return 64 / re
	}
	s := (re - laminarEnd) / (turbulentBegin - laminarEnd)
	s *= s * (3 - 2*s)
	return (1-s)*64/re + s*haaland(square)
}

// haaland is (1.8 log10(Re/6.9))^-2 by the square of Re.
func haaland(square float64) float64 {
	const c = 4 * (math.Ln10 / 1.8) * (math.Ln10 / 1.8)
	l := math.Log(square * (1 / (6.9 * 6.9)))
	return c / (l * l)
}
