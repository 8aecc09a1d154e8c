// Package wall is the heat between a vessel's wall and the gas in it: natural convection, and convection stirred up by a jet.
package wall

import (
	"math"

	"puffproof/pneumatics/flow"
)

// Wall is the inside of a vessel as natural convection sees it.
type Wall struct {
	Area   float64 // [m2]
	Length float64 // characteristic length [m]: the inner diameter
	// laminar is (1 + (0.492/Pr)^(9/16))^(4/9) of the gas inside [-].
	laminar float64
}

// Of gives the wall of a volume [m3] of gas g: a cylinder of its inner diameter d [m],
// closed by two flat ends. Without a diameter, d zero, the cylinder is three diameters long.
func Of(volume, d float64, g *flow.Gas) Wall {
	if d <= 0 {
		d = math.Cbrt(4 * volume / (3 * math.Pi))
	}
	section := math.Pi * d * d / 4
	return Wall{Area: math.Pi*d*volume/section + 2*section, Length: d,
		laminar: math.Pow(1+math.Pow(0.492/g.Prandtl, 9.0/16), 4.0/9)}
}

// HeatFlow gives the heat from the wall into the gas [W] by natural convection:
//
//	Nu = max(0.68 + 0.67 Ra^(1/4)/(1 + (0.492/Pr)^(9/16))^(4/9), 0.13 Ra^(1/3))
//	Ra = g beta |Tw - T| L^3 rho^2 cp/(mu k),  h = Nu k/L
//
// gas properties at the gas's temperature, beta = 1/T, L the inner diameter.
// Source: Churchill and Chu (1975), laminar part, and Geankoplis, Transport
// Processes, table 4.7-1, turbulent part; the combination is checked against a
// measured tank discharge (TestMeasuredTankDischarge).
func (w Wall) HeatFlow(g *flow.Gas, p, t, tw float64) float64 {
	dt := tw - t
	if dt == 0 {
		return 0
	}
	ra := w.Rayleigh(g, p, t, dt)
	nu := max(0.68+0.67*math.Sqrt(math.Sqrt(ra))/w.laminar, 0.13*math.Cbrt(ra))
	return w.flowAt(nu, g, t, dt)
}

// Rayleigh is the Rayleigh number of gas at p [Pa] and t [K] with walls warmer by dt [K].
func (w Wall) Rayleigh(g *flow.Gas, p, t, dt float64) float64 {
	rho, mu, cp := p/(g.R*t), g.Viscosity(t), g.Cp()
	k := mu * cp / g.Prandtl
	return flow.StandardGravity / t * math.Abs(dt) * w.Length * w.Length * w.Length * rho * rho * cp / (mu * k)
}

// flowAt is the heat into gas at t [K] from walls warmer by dt [K] at a Nusselt number [W].
func (w Wall) flowAt(nu float64, g *flow.Gas, t, dt float64) float64 {
	return nu * g.Conductivity(t) / w.Length * w.Area * dt
}

// StirredFlow is HeatFlow where the jet of what flows in stirs the gas:
//
//	Nu = 0.56 Re^0.67 + 0.104 Ra^0.352,  Re = 4 q/(pi mu d)
//
// q the inflow [kg/s], d the bore of the inlet [m], mu at the temperature of the gas; jet
// is the first term, of all inflows together. For the filling of small vessels. Source:
// P. L. Woodfield, M. Monde and T. Takano, J. Thermal Science and Technology 3 (2008) 241
// (from memory).
func (w Wall) StirredFlow(g *flow.Gas, p, t, tw, jet float64) float64 {
	dt := tw - t
	return w.flowAt(jet+0.104*math.Pow(w.Rayleigh(g, p, t, dt), 0.352), g, t, dt)
}
