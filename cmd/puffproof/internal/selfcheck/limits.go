package selfcheck

import (
	"math"

	"puffproof/limits/benchmark"
)

func limitChecks() []check {
	const factors = "Montgomery and Runger, Applied Statistics, table XII"
	const stored = "Baker et al.; ASME PCC-2, 501-II, closed form"
	const relief = "API Standard 520 Part I, worked example for gas"
	k := func(n int, confidence, coverage float64) func() float64 {
		return func() float64 {
			v, err := benchmark.ToleranceFactor(n, confidence, coverage)
			if err != nil {
				return math.NaN()
			}
			return v
		}
	}
	return []check{
		{"tolerance factor, 5 shots, 95 % confidence, 99 % coverage", factors, "", 5.741, 5e-4, printed, k(5, 0.95, 0.99)},
		{"tolerance factor, 10 shots", factors, "", 3.981, 5e-4, printed, k(10, 0.95, 0.99)},
		{"tolerance factor, 30 shots", factors, "", 3.064, 5e-4, printed, k(30, 0.95, 0.99)},
		{"stored energy of 1 L at 1 bar, isentropic", stored, "J", 89.7, 0.05, printed,
			func() float64 { return benchmark.StoredEnergy(1e-3, 1e5, atmosphere, 1.4) }},
		{"stored energy of 1 L at 10 bar, isentropic", stored, "J", 1360.8, 0.05, printed,
			func() float64 { return benchmark.StoredEnergy(1e-3, 1e6, atmosphere, 1.4) }},
		{"gas constant of relief sizing, C for k 1.35", relief, "", 0.0266942, 5e-8, printed,
			func() float64 { return benchmark.CriticalCoefficient(1.35) }},
		{"subcritical coefficient, F2 for k 1.8 and r 0.7", relief, "", 0.8600724, 5e-8, printed,
			func() float64 { return benchmark.SubcriticalCoefficient(1.8, 0.7) }},
		{"area of a relief valve, 24270 kg/h at 670 kPa", relief, "mm2", 3699.05, 0.02, "inputs of the example are rounded", reliefArea},
	}
}

// reliefArea is the effective area of the API example [mm2]: vapour of molar mass
// 51, k 1.11, Z 0.90 at 348 K.
func reliefArea() float64 {
	return 1e6 * benchmark.GasSizing{MassFlow: 24270.0 / 3600, Temperature: 348, Compressibility: 0.90, MolarMass: 51, Gamma: 1.11,
		Inlet: 670e3, Outlet: atmosphere, Coefficient: 0.975}.Area()
}
