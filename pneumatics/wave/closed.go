package wave

import "math"

// ShockAhead gives the pressure ratio p2/p1 [-] ahead of a piston that moves at
// constant Mach number m into gas at rest:
//
//	p2/p1 = 1 + gamma m Ms,  Ms = (gamma+1) m/4 + sqrt(1 + ((gamma+1) m/4)^2)
//
// the Rankine-Hugoniot relations; Ms is the shock's Mach number. Source: any gas
// dynamics text, for instance Liepmann and Roshko, Elements of Gasdynamics
// (1957), section 3.2 (from memory).
func ShockAhead(gamma, m float64) float64 {
	h := 0.25 * (gamma + 1) * m
	return 1 + gamma*m*(h+math.Sqrt(1+h*h))
}

// FannoLength gives f L*/D [-], f Darcy's friction factor, L* the length of
// constant duct of diameter D over which adiabatic flow of Mach number m ends
// sonic:
//
//	f L*/D = (1 - m^2)/(gamma m^2) + (gamma+1)/(2 gamma) ln((gamma+1) m^2/(2 + (gamma-1) m^2))
//
// Source: Shapiro, The Dynamics and Thermodynamics of Compressible Fluid Flow
// (1953), chapter 6 (from memory).
func FannoLength(gamma, m float64) float64 {
	mm := m * m
	return (1-mm)/(gamma*mm) + (gamma+1)/(2*gamma)*math.Log((gamma+1)*mm/(2+(gamma-1)*mm))
}
