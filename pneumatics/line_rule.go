package pneumatics

import (
	"math"

	"puffproof/pneumatics/flow"
)

// alone, before and after are the dynamic heads that a line takes steadily beside
// friction and fittings [-]. Alone it is entered (EntryLoss) and its jet lost. Before
// a part the part has the use of the gas's motion; behind a part the gas arrives in
// motion.
const (
	headsAlone  = 1 + EntryLoss
	headsBefore = EntryLoss
	headsAfter  = 0
)

// SteadyFlow is what a line passes steadily from one volume to another, as a
// restriction: C is that of Fanno flow behind a sharp-edged entry, choked from 5 bar
// at 20 degC, and b such that small pressure differences meet 1.5 + f L/D + losses dynamic heads.
func (l *Line) SteadyFlow(g flow.Gas) flow.Restriction { return l.steady(&g, headsAlone) }

func (l *Line) steady(g *flow.Gas, heads float64) flow.Restriction {
	const p0 = 5e5
	root := math.Sqrt(g.R * flow.ReferenceTemperature)
	reynolds := p0 / root * l.Bore / g.Viscosity(flow.ReferenceTemperature)
	mach, losses := 0.5, 0.0
	for range 3 { // the friction factor hardly depends on the flow
		losses = l.losses() * (PipeFriction(inletFlux(g, mach)*reynolds)*l.Length/l.Bore + l.Loss)
		mach = fannoMach(g, losses)
	}
	flux := inletFlux(g, mach)
	// q = C rho0 p0 at the reference temperature; near rest q^2 = 2 rho dp A^2/heads.
	c := flux * l.Area() / (root * g.ReferenceDensity)
	return flow.SonicConductance(c, min(max(0, 1-flux*flux*(heads+losses)), 0.95))
}

// steadyOf is what pieces pass one after the other.
func steadyOf(pieces []Line, g *flow.Gas, heads float64) flow.Restriction {
	var r flow.Restriction
	for i := range pieces {
		r = inSeries(r, pieces[i].steady(g, heads), *g)
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

// shotTime estimates how long a shot through a path takes [s]: the time to move the
// projectile by the highest pressure there is, or to fill the barrel through the part
// at that pressure, whichever is longer. +Inf where no shot goes through it.
func (e *engine) shotTime(path int) float64 {
	p := &e.c.Paths[path]
	if e.sc.NoProjectile || !e.b.Present || e.o.Settle || p.From == Atmosphere || p.To == Atmosphere || p.Flow.IsZero() ||
		e.moves[path].peak(0) <= 0 {
		return math.Inf(1)
	}
	highest := e.pa
	for i := range e.sc.Volumes {
		highest = max(highest, e.sc.Volumes[i].Pressure)
	}
	way := max(e.b.Travel-max(e.sc.Seat, 0), 0.1*e.b.Travel)
	move := math.Sqrt(2 * e.b.Mass * way / (max(highest-e.pa, 1e3) * e.b.Area))
	if p.Kind == Hose {
		return move
	}
	c, _ := p.Flow.Conductance(e.gas)
	// Volume of free air over the sonic flow of free air; while the part opens, the
	// flow grows with time.
	fill := (e.b.DeadVolume + e.b.Area*way) * e.pa / (flow.ReferencePressure * c * highest)
	if o := p.OpeningTime; fill < 0.5*o {
		fill = math.Sqrt(2 * fill * o)
	} else {
		fill += 0.5 * o
	}
	return max(move, fill)
}

// cellsFor decides how finely a run of pieces is divided: 0 for one that is no more
// than a resistance, else the number of its cells. Sound crosses a run so many times in
// a shot: from 60 times on a resistance differs by 1.5 % of the shot's energy (root mean
// square over 40 random launchers, a hose of 0.7 to 3 times the valve's bore on either
// side), below it 1 + 7/times cells, at most 6, differ by about 1 % from 12 cells
// (common practice, no source; TestLineCellsAreEnough, TestShortLineIsAResistance).
func (e *engine) cellsFor(path int, length float64) int {
	ratio := e.shotTime(path) * e.gas.SoundSpeed(e.ta) / length
	if ratio > 60 {
		return 0
	}
	return min(1+int(math.Round(7/ratio)), 6)
}
