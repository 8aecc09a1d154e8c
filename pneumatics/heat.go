package pneumatics

import (
	"math"

	"puffproof/pneumatics/flow"
)

// wall is the inside of a vessel as natural convection sees it.
type wall struct {
	area   float64 // [m2]
	length float64 // characteristic length [m]: the inner diameter
	// laminar is (1 + (0.492/Pr)^(9/16))^(4/9) of the gas inside [-].
	laminar float64
}

// wallOf gives the wall of a volume of gas g: a cylinder of its inner diameter,
// closed by two flat ends. Without a diameter the cylinder is three diameters long.
func wallOf(v Volume, g *flow.Gas) wall {
	d := v.InnerDiameter
	if d <= 0 {
		d = math.Cbrt(4 * v.Volume / (3 * math.Pi))
	}
	section := math.Pi * d * d / 4
	return wall{area: math.Pi*d*v.Volume/section + 2*section, length: d,
		laminar: math.Pow(1+math.Pow(0.492/g.Prandtl, 9.0/16), 4.0/9)}
}

// heatFlow gives the heat from the wall into the gas [W] by natural convection:
//
//	Nu = max(0.68 + 0.67 Ra^(1/4)/(1 + (0.492/Pr)^(9/16))^(4/9), 0.13 Ra^(1/3))
//	Ra = g beta |Tw - T| L^3 rho^2 cp/(mu k),  h = Nu k/L
//
// gas properties at the gas's temperature, beta = 1/T, L the inner diameter.
// Source: Churchill and Chu (1975), laminar part, and Geankoplis, Transport
// Processes, table 4.7-1, turbulent part; the combination is checked against a
// measured tank discharge (TestMeasuredTankDischarge).
func (w wall) heatFlow(g *flow.Gas, p, t, tw float64) float64 {
	dt := tw - t
	if dt == 0 {
		return 0
	}
	const gravity = 9.80665
	rho := p / (g.R * t)
	mu := g.Viscosity(t)
	cp := g.Cp()
	k := mu * cp / g.Prandtl
	ra := gravity / t * math.Abs(dt) * w.length * w.length * w.length * rho * rho * cp / (mu * k)
	nu := max(0.68+0.67*math.Sqrt(math.Sqrt(ra))/w.laminar, 0.13*math.Cbrt(ra))
	return nu * k / w.length * w.area * dt
}
