package flow

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// carbonDioxide has R from the molar mass 44.0095 g/mol: a gas of another gamma, and a
// poor perfect gas, whose gamma drifts.
func carbonDioxide() Gas {
	g := diatomic("carbon dioxide", 44.0095e-3, 1.2967)
	// Sutherland constants of White, Viscous Fluid Flow, table 1-2 (from memory).
	g.viscosity0, g.viscosityT, g.viscosityS, g.Prandtl = 1.370e-5, 273.15, 222, 0.77
	return g
}

// TestPerfectGasAgainstEquationsOfState holds the gas model to the published
// equations of state: Lemmon et al. 2000 (air), Span et al. 2000 (nitrogen),
// Span and Wagner 1996 (carbon dioxide), evaluated at the states listed.
//
// Nothing here is expected to agree to rounding: each tolerance is the model's
// known error, stated beside the gas. The largest errors found in air are 0.47 %
// in density (250 K, 5 bar), 1.3 % in gamma, 1.7 % in cp (both 10 bar) and
// 0.32 % in the speed of sound.
func TestPerfectGasAgainstEquationsOfState(t *testing.T) {
	type point struct {
		gas                               Gas
		tempK, bar                        float64
		rho, cp, gamma, sound, viscosity  float64 // kg/m3, J/(kg K), -, m/s, uPa s (0: not given)
		tolRho, tolCp, tolGamma, tolSound float64
	}
	air, n2, co2 := Air(), Nitrogen(), carbonDioxide()
	points := []point{
		// Air and nitrogen: non-ideality within a percent or two up to 10 bar.
		{air, 293.15, 1, 1.18882, 1006.12, 1.40194, 343.343, 18.206, 0.005, 0.018, 0.014, 0.0035},
		{air, 293.15, 5, 5.95259, 1012.81, 1.40925, 343.757, 18.265, 0.005, 0.018, 0.014, 0.0035},
		{air, 293.15, 10, 11.92498, 1021.22, 1.41843, 344.337, 18.343, 0.005, 0.018, 0.014, 0.0035},
		{air, 250, 5, 7.00010, 1015.43, 1.41430, 317.108, 16.104, 0.005, 0.018, 0.014, 0.0035},
		{air, 330, 1, 1.05577, 1007.81, 1.40033, 364.176, 19.953, 0.005, 0.018, 0.014, 0.0035},
		{n2, 293.15, 5, 5.75322, 1048.160, 1.40859, 349.691, 0, 0.005, 0.018, 0.014, 0.0035},
		// Carbon dioxide is a poor perfect gas: compressibility 0.973 at 5 bar.
		{co2, 293.15, 1, 1.81516, 845.958, 1.29667, 266.566, 0, 0.03, 0.07, 0.02, 0.02},
		{co2, 293.15, 5, 9.27606, 877.049, 1.32215, 263.296, 0, 0.03, 0.07, 0.02, 0.02},
	}
	for _, p := range points {
		t.Run(p.gas.Name, func(t *testing.T) {
			assert.InEpsilon(t, p.rho, p.gas.Density(p.bar*1e5, p.tempK), p.tolRho, "density")
			assert.InEpsilon(t, p.cp, p.gas.Cp(), p.tolCp, "cp")
			assert.InEpsilon(t, p.gamma, p.gas.Gamma, p.tolGamma, "gamma")
			assert.InEpsilon(t, p.sound, p.gas.SoundSpeed(p.tempK), p.tolSound, "sound")
			if p.viscosity > 0 {
				// Sutherland knows no pressure: 1.2 % covers 10 bar.
				assert.InEpsilon(t, p.viscosity*1e-6, p.gas.Viscosity(p.tempK), 0.012, "viscosity")
			}
		})
	}
}

// TestSutherland checks the viscosity law where the atmosphere standard prints
// it: U.S. Standard Atmosphere 1976, sea level, 288.15 K: 1.7894e-5 Pa s. The
// constants of this project are rounded to 1.716e-5 at 273.15 K; 0.1 % covers it.
func TestSutherland(t *testing.T) {
	assert.InEpsilon(t, 1.7894e-5, Air().Viscosity(288.15), 1e-3)
}

// TestConductivityOfAir: 0.02587 W/(m K) at 300 K, 1 atm is in reach of every
// heat-transfer table (0.0263 Incropera, 0.02625 Geankoplis; from memory). A
// constant Prandtl number costs up to 2 %.
func TestConductivityOfAir(t *testing.T) {
	assert.InEpsilon(t, 0.0263, Air().Conductivity(300), 0.02)
}

// TestIsentropicFunctions: NACA Report 1135 (1953), table I, and the choked
// constants computed from its equations to eight digits.
func TestIsentropicFunctions(t *testing.T) {
	air := Air()
	assert.InDelta(t, 0.68473146, air.NozzleConstant(), 5e-9) // digits printed
	assert.InDelta(t, 0.52828179, air.CriticalRatio(), 5e-9)
	// The flow function is A*/A at the pressure ratio p/p0.
	for _, p := range []struct{ mach, ratio, area float64 }{
		{0.3, 0.93946970, 2.0350653},
		{0.5, 0.84301918, 1.3398438},
	} {
		f := NewLaw(Nozzle(1, 1), &air, 1)
		assert.InEpsilon(t, 1/p.area, f.Phi(p.ratio), 1e-7, "Mach %g: eight digits printed", p.mach)
	}
}

// TestSpecificHeats: cp - cv = R and cp/cv = gamma are definitions; rounding.
func TestSpecificHeats(t *testing.T) {
	for _, g := range []Gas{Air(), Nitrogen(), carbonDioxide()} {
		assert.InEpsilon(t, g.R, g.Cp()-g.Cv(), 1e-13, g.Name)
		assert.InEpsilon(t, g.Gamma, g.Cp()/g.Cv(), 1e-13, g.Name)
	}
	// From the molar gas constant of the SI (2019) and the molar masses:
	// 296.803 and 188.924 J/(kg K) in every table (six digits printed).
	assert.InDelta(t, 296.803, Nitrogen().R, 1e-3)
	assert.InDelta(t, 188.924, carbonDioxide().R, 1e-3)
}
