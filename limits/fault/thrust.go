package fault

import (
	"math"
)

// Thrust is the force of a jet from an open end [N]:
//
//	choked:   F = A (2 (2/(g+1))^(1/(g-1)) p - pa)
//	subsonic: F = A pa 2g/(g-1) ((p/pa)^((g-1)/g) - 1)
//
// p the absolute pressure inside, section A [m2] with no loss. Source: momentum
// balance of the ideal convergent nozzle (for instance Shapiro, Compressible
// Fluid Flow, chapter 4, from memory).
func Thrust(section, gauge, ambient, gamma float64) float64 {
	p := ambient + gauge
	critical := math.Pow((gamma+1)/2, gamma/(gamma-1))
	if p/ambient >= critical {
		return section * (2*math.Pow(2/(gamma+1), 1/(gamma-1))*p - ambient)
	}
	return section * ambient * 2 * gamma / (gamma - 1) * (math.Pow(p/ambient, (gamma-1)/gamma) - 1)
}
