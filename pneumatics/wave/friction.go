package wave

import (
	"math"

	"puffproof/pneumatics/line"
)

// Reynolds numbers between which a pipe's flow is neither laminar nor turbulent
// for certain (common practice, no source; texts agree on the first).
const (
	laminarReynolds   = 2300.0
	turbulentReynolds = 4000.0
)

// roughTerm is the part of Haaland's formula that the wall sets.
func roughTerm(roughness float64) float64 {
	if roughness <= 0 {
		return 0
	}
	return math.Pow(roughness/3.7, 1.11)
}

// pipeFactor gives the Darcy friction factor [-] of steady flow in a round pipe at
// a Reynolds number above 0, rough the roughTerm of its wall:
//
//	laminar:   f = 64/Re
//	turbulent: 1/sqrt(f) = -1.8 log10(rough + 6.9/Re)
//
// and between 2300 and 4000 the straight line that joins them; a smooth pipe's is
// line.Friction. Range: up to Re 1e8 and roughness 0.05. Source: Hagen-Poiseuille; Haaland, J. Fluids Eng. 105
// (1983) 89 (from memory), within 2 % of Colebrook's equation.
func pipeFactor(re, rough float64) float64 {
	if rough == 0 {
		return line.Friction(re) // one law for both models
	}
	if re <= laminarReynolds {
		return 64 / re
	}
	turbulent := haaland(max(re, turbulentReynolds), rough)
	if re >= turbulentReynolds {
		return turbulent
	}
	const low = 64 / laminarReynolds
	return low + (turbulent-low)*(re-laminarReynolds)/(turbulentReynolds-laminarReynolds)
}

func haaland(re, rough float64) float64 {
	x := 1.8 * math.Log10(rough+6.9/re)
	return 1 / (x * x)
}

// pipeWall is a wall whose friction follows pipeFactor.
type pipeWall struct {
	on                 bool
	bore, rough, extra float64 // [m]; Haaland's term [-]; fittings as a friction factor [-]
	scale              float64 // of the wall's own factor [-]
}

// minReynolds keeps 64/Re finite in still gas, where friction is none anyhow.
const minReynolds = 1e-3

// pipeDrag sets the friction of every cell from its present state.
func (t *tube) pipeDrag(g *gas) {
	w := &t.pipe
	for i := range t.n {
		mu := g.Viscosity(t.p[i] / (g.R * t.rho[i]))
		re := max(t.rho[i]*math.Abs(t.u[i])*w.bore/mu, minReynolds)
		t.drag[i] = (w.scale*pipeFactor(re, w.rough) + w.extra) / (2 * w.bore)
	}
}
