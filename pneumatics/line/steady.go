package line

import (
	"math"

	"puffproof/pneumatics/flow"
)

// Heads is how many dynamic heads a line takes steadily beside friction and fittings [-].
type Heads float64

// The heads by where the line lies. Alone it is entered (EntryLoss) and its jet lost.
// Before a part the part has the use of the gas's motion; behind a part the gas arrives in
// motion.
const (
	Alone  Heads = 1 + EntryLoss
	Before Heads = EntryLoss
	After  Heads = 0
)

// SteadyFlow is what a line passes steadily from one volume to another, as a
// restriction: C is that of Fanno flow behind a sharp-edged entry, choked from 5 bar
// at 20 degC, and b such that small pressure differences meet 1.5 + f L/D + losses dynamic heads.
func (p *Piece) SteadyFlow(g flow.Gas) flow.Restriction { return p.steady(&g, Alone) }

func (p *Piece) steady(g *flow.Gas, heads Heads) flow.Restriction {
	const p0 = 5e5
	root := math.Sqrt(g.R * flow.ReferenceTemperature)
	reynolds := p0 / root * p.Bore / g.Viscosity(flow.ReferenceTemperature)
	mach, losses := 0.5, 0.0
	for range 3 { // the friction factor hardly depends on the flow
		losses = p.Losses() * (Friction(inletFlux(g, mach)*reynolds)*p.Length/p.Bore + p.Loss)
		mach = fannoMach(g, losses)
	}
	flux := inletFlux(g, mach)
	// q = C rho0 p0 at the reference temperature; near rest q^2 = 2 rho dp A^2/heads.
	c := flux * p.Area() / (root * g.ReferenceDensity)
	return flow.SonicConductance(c, min(max(0, 1-flux*flux*(float64(heads)+losses)), 0.95))
}

// Steady is what pieces pass one after the other; the zero value without a piece.
func Steady(pieces []Piece, g *flow.Gas, heads Heads) flow.Restriction {
	var r flow.Restriction
	for i := range pieces {
		r = InSeries(r, pieces[i].steady(g, heads), *g)
	}
	return r
}

// inletFlux is q sqrt(R T0)/(A p0) [-] of gas that enters a line at a Mach number from
// rest at p0, T0, with the loss of a sharp edge.
func inletFlux(g *flow.Gas, m float64) float64 {
	z := 1 + 0.5*(g.Gamma-1)*m*m
	return math.Sqrt(g.Gamma*z) * m / (math.Pow(z, g.Gamma/(g.Gamma-1)) + EntryLoss*0.5*g.Gamma*m*m)
}

// fannoMach is the Mach number from which adiabatic flow through a friction length f
// L/D ends sonic, by Newton's method on its logarithm (Shapiro, The Dynamics and Thermodynamics of
// Compressible Fluid Flow, 1953, chapter 6, from memory):
//
//	f L/D = (1 - M^2)/(gamma M^2) + (gamma+1)/(2 gamma) ln((gamma+1) M^2/(2 + (gamma-1) M^2))
func fannoMach(g *flow.Gas, length float64) float64 {
	k := g.Gamma
	x := -math.Log1p(length) // ln M^2, a start below the root
	for range 30 {
		mm := math.Exp(x)
		f := (1-mm)/(k*mm) + (k+1)/(2*k)*math.Log((k+1)*mm/(2+(k-1)*mm)) - length
		slope := -1/(k*mm) + (k+1)/(2*k)*2/(2+(k-1)*mm)
		step := f / slope
		x -= step
		if x > -1e-12 {
			x = -1e-12
		}
		if math.Abs(step) < 1e-12 {
			break
		}
	}
	return math.Exp(0.5 * x)
}

// InSeries is flow.Series where either may be nothing at all.
func InSeries(a, b flow.Restriction, g flow.Gas) flow.Restriction {
	switch {
	case a.IsZero():
		return b
	case b.IsZero():
		return a
	}
	return flow.Series(a, b, g)
}
