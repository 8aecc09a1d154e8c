package benchmark

import (
	"fmt"
	"math"
)

// StoredEnergy is the energy [J] that gas in a vessel of a volume [m3 >= 0] at a
// gauge pressure [Pa >= 0] over an ambient pressure [Pa absolute > 0] can give up as
// it expands to ambient pressure, ideal gas with gamma [> 1]; p = ambient + gauge:
//
//	p V/(gamma-1) (1 - (pa/p)^((gamma-1)/gamma))
//
// This is the isentropic definition. Others differ: at 1 bar and ambient 101325 Pa
// Brode's, (p - pa) V/(gamma-1), is 2.8 times as much. It panics outside these
// ranges. Sources: W. E. Baker et al., Explosion Hazards and Evaluation (1983), and
// ASME PCC-2, mandatory appendix 501-II; H. L. Brode, J. Appl. Phys. 26 (1955) 766;
// titles from memory.
func StoredEnergy(volume, gauge, ambient, gamma float64) float64 {
	if !(volume >= 0 && gauge >= 0 && ambient > 0 && gamma > 1) || math.IsInf(volume+gauge+ambient+gamma, 1) {
		panic(fmt.Sprintf("limits: stored energy of %v m3 at %v Pa gauge, ambient %v Pa, gamma %v", volume, gauge, ambient, gamma))
	}
	// -expm1(-y) is 1 - e^-y without cancellation at low pressure.
	return -(ambient + gauge) * volume / (gamma - 1) * math.Expm1(-(gamma-1)/gamma*math.Log1p(gauge/ambient))
}
