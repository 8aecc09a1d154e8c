package pneumatics

import (
	"fmt"
	"math"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/internal/opening"
	"puffproof/pneumatics/internal/row"
	"puffproof/pneumatics/internal/wall"
)

// compile lays out the arrays. It allocates only where a circuit is larger than
// every one before.
func (e *engine) compile(c *Circuit, sc *Scenario, o Options) {
	e.c, e.sc, e.o = c, sc, o
	e.gas = c.Gas
	e.cp, e.cv = c.Gas.Cp(), c.Gas.Cv()
	e.gm1 = c.Gas.Gamma - 1
	e.sqrtCv = math.Sqrt(e.cv)
	e.pa, e.ta = c.Ambient.Pressure, c.Ambient.Temperature
	e.b = &c.Barrel
	if len(sc.Volumes) != len(c.Volumes) {
		panic(fmt.Sprintf("pneumatics: scenario with %d start conditions for %d volumes", len(sc.Volumes), len(c.Volumes)))
	}
	e.moves = resize(e.moves, len(c.Paths))
	for i := range c.Paths {
		e.moves[i] = c.Paths[i].movement(sc)
	}
	for _, s := range sc.Stuck {
		e.moves[s.Path] = opening.Constant(s.Opening)
	}
	e.layout()
	e.heat, e.tw = sc.Heat, sc.WallTemperature
	if sc.Parts.NoWallHeat {
		e.heat = Adiabatic
	}
	if e.tw <= 0 {
		e.tw = e.ta
	}
	e.supplyOn = sc.SupplyRuns && c.Supply != nil && !(sc.Switch != nil && sc.Switch.Stopped)
	e.inertia = e.bar >= 0 && !sc.Parts.NoGasInertia
	e.column = e.iColumn >= 0
	e.columnRho = e.gas.Density(e.pa, e.ta) * e.b.Area
	e.jetD = 2 * math.Sqrt(e.b.Area/math.Pi)
	e.until = sc.Until
	if e.until <= 0 {
		e.until = 10
	}
	e.escape = flow.NewLaw(flow.Nozzle(1, escapeCd), &e.gas, o.laminar())
	e.begin()
	e.listBalances()
	e.listReliefs()
	e.phase(0)
	e.follow(e.state)
	e.settleBalances(0, e.state)
}

// escapeCd is the discharge coefficient of the opening between a projectile
// that has left and the muzzle (from memory; the low side pushes longer).
const escapeCd = 0.6

// maxJetTravel is how far the jet of the muzzle pushes, in diameters of the
// opening. An assumption of this project, no published source; the ceiling
// covers it.
const maxJetTravel = 10.0

func (e *engine) layout() {
	c, sc := e.c, e.sc
	nv := len(c.Volumes)
	loaded := c.Barrel.Present && !sc.NoProjectile
	e.layLines()
	e.volumes, e.nodes, e.n = nv, nv+len(e.rows.Cells), 2*(nv+len(e.rows.Cells))
	take := func(want bool, width int) int {
		if !want {
			return -1
		}
		i := e.n
		e.n += width
		return i
	}
	e.bar, e.ahead = -1, -1
	e.iBar = take(loaded, 2)
	if loaded {
		e.bar = e.nodes
		e.nodes++
	}
	e.iAhead = take(loaded && sc.MuzzleClosed, 2)
	if e.iAhead >= 0 {
		e.ahead = e.nodes
		e.nodes++
	}
	e.iX = take(loaded, 2)
	e.flows, e.n = e.n, e.rows.PlaceFlows(e.n)
	controlled := e.n
	e.iAtm = take(e.touchesAtmosphere(loaded), 2)
	e.iHeat = take(sc.Heat != Adiabatic && !sc.Parts.NoWallHeat, 1)
	e.iSupply = take(sc.SupplyRuns && c.Supply != nil, 1)
	// Over a tube no bore holds the air ahead.
	e.iColumn = take(loaded && c.Barrel.Fit == InBore && !sc.MuzzleClosed && !sc.Parts.NoAirAhead, 1)
	e.iJet = take(loaded && !sc.MuzzleClosed && !sc.Parts.NoAfterMuzzle, 1)

	e.invV = resize(e.invV, nv+len(e.rows.Cells))
	e.walls = resize(e.walls, nv+len(e.rows.Cells))
	e.p = resize(e.p, e.nodes+1)
	e.temp = resize(e.temp, e.nodes+1)
	e.w = resize(e.w, e.nodes+1)
	e.rows.Nodes = row.Nodes{P: e.p, T: e.temp, W: e.w, Book: e.iAtm}
	e.state = resize(e.state, e.n)
	e.scales = resize(e.scales, e.n)
	walled := sc.Heat != Adiabatic && sc.Heat != Isothermal
	if e.stirred = e.stirred[:0]; sc.Heat == Stirring {
		e.stirred = resize(e.stirred, nv)
	}
	for i, v := range c.Volumes {
		e.invV[i] = 1 / (v.Volume + e.extra[i])
		if walled {
			e.walls[i] = wall.Of(v.Volume, v.InnerDiameter, &e.gas)
		}
	}
	for i := range e.rows.Cells {
		e.invV[nv+i] = 1 / e.rows.Cells[i].Volume
		if walled {
			e.walls[nv+i] = wallOfCell(&e.rows.Cells[i], &e.gas)
		}
	}
	e.scales = e.scales[:controlled]
}

// touchesAtmosphere tells whether the book needs the atmosphere's entries.
func (e *engine) touchesAtmosphere(loaded bool) bool {
	if e.sc.SupplyRuns && e.c.Supply != nil {
		return true
	}
	if loaded && (e.b.LeakArea > 0 || !e.sc.Parts.NoAfterMuzzle) {
		return true
	}
	if e.c.Barrel.Present && !loaded {
		return true
	}
	for i := range e.c.Paths {
		if e.c.Paths[i].From == Atmosphere || e.c.Paths[i].To == Atmosphere {
			return true
		}
	}
	return e.o.Settle
}

// begin fills the state at time 0.
func (e *engine) begin() {
	y := e.state
	clear(y)
	put := func(i int, cond Condition, volume float64) {
		y[i] = cond.Pressure * volume / (e.gas.R * cond.Temperature)
		y[i+1] = cond.Pressure * volume / e.gm1
		// Natural sizes near zero: what the volume holds at ambient pressure.
		e.scales[i] = 0.1 * e.pa * volume / (e.gas.R * e.ta)
		e.scales[i+1] = 0.1 * e.pa * volume / e.gm1
	}
	for i, cond := range e.sc.Volumes {
		if e.heat == Isothermal {
			cond.Temperature = e.tw // that gas is never at another
		}
		put(2*i, cond, e.c.Volumes[i].Volume+e.extra[i])
	}
	e.beginLines(put)
	e.mode = noProjectile
	if e.bar >= 0 {
		x := min(max(e.sc.Seat, 0), e.b.Travel)
		cond := e.sc.Barrel
		if cond.Pressure <= 0 {
			cond = Condition{e.pa, e.ta}
		}
		put(e.iBar, cond, e.dead+e.b.Area*x)
		if e.ahead >= 0 {
			put(e.iAhead, Condition{e.pa, e.ta}, e.aheadVolume(x))
		}
		y[e.iX] = x
		e.scales[e.iX] = 0.1 * e.b.Travel
		e.scales[e.iX+1] = 0.3 // [m/s]: far below any speed that matters
		e.mode = held
	}
	e.p[e.nodes], e.temp[e.nodes], e.w[e.nodes] = e.pa, e.ta, e.pa/math.Sqrt(e.ta)
	e.sign = 1
}

// aheadVolume is the air between the projectile and a closed muzzle, with a
// hundredth of the barrel left when it touches (its rounded face).
func (e *engine) aheadVolume(x float64) float64 {
	return e.b.Area * (max(e.b.Travel-x, 0) + 0.01*e.b.Travel)
}
