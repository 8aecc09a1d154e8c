package wave

import (
	"math"
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
