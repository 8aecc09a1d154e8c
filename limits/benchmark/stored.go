package benchmark

import (
	"fmt"
	"math"
)

// BurstEnergy is the energy [J] that gas in a vessel can give up as it expands
// to ambient pressure, by four definitions. Isentropic is the one judged; the
// others show how far definitions differ.
type BurstEnergy struct {
	Isentropic   float64 // Baker; also ASME PCC-2, mandatory appendix 501-II
	Brode        float64
	Isothermal   float64
	Availability float64
}

// Stored gives the energy stored in a vessel of a volume [m3 >= 0] at a gauge
// pressure [Pa >= 0] over an ambient pressure [Pa absolute > 0], ideal gas with
// gamma [> 1]; p = ambient + gauge:
//
//	isentropic    p V/(gamma-1) (1 - (pa/p)^((gamma-1)/gamma))
//	Brode         (p - pa) V/(gamma-1)
//	isothermal    p V ln(p/pa)
//	availability  p V ln(p/pa) - (p - pa) V
//
// Availability is the isothermal work less that of pushing the atmosphere back.
// It panics outside these ranges. Sources: W. E. Baker et al., Explosion Hazards
// and Evaluation (1983), and ASME PCC-2, 501-II (isentropic); H. L. Brode, J.
// Appl. Phys. 26 (1955) 766 (Brode); both titles from memory.
func Stored(volume, gauge, ambient, gamma float64) BurstEnergy {
	if !(volume >= 0 && gauge >= 0 && ambient > 0 && gamma > 1) || math.IsInf(volume+gauge+ambient+gamma, 1) {
		panic(fmt.Sprintf("limits: stored energy of %v m3 at %v Pa gauge, ambient %v Pa, gamma %v", volume, gauge, ambient, gamma))
	}
	p := ambient + gauge
	isothermal := p * volume * math.Log1p(gauge/ambient)
	return BurstEnergy{
		// -expm1(-y) is 1 - e^-y without cancellation at low pressure.
		Isentropic:   -p * volume / (gamma - 1) * math.Expm1(-(gamma-1)/gamma*math.Log1p(gauge/ambient)),
		Brode:        gauge * volume / (gamma - 1),
		Isothermal:   isothermal,
		Availability: isothermal - gauge*volume,
	}
}
