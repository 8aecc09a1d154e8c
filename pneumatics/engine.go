package pneumatics

import (
	"fmt"
	"math"

	"puffproof/pneumatics/ode"
)

// The engine is a circuit and a scenario made ready for the integrator: flat
// arrays, one right-hand side, one set of events. Its state vector is
//
//	[m, U] of each rigid volume, [m, U] of each cell of the lines, [m, U] of the
//	barrel, [m, U] of the air ahead of a projectile in a closed barrel, x, v of the
//	projectile, q of the lines between their cells, then the book:
//	mass and energy given to the atmosphere, wall heat, supply mass, energy of
//	the air that left the muzzle, work of the jet
//
// with only the entries the scenario needs. Indices are -1 where an entry is
// absent.
type engine struct {
	c  *Circuit
	sc *Scenario
	o  Options

	gas                  Gas
	cp, cv, gm1, sqrtCv  float64
	pa, ta               float64
	nodes                int // atmosphere's index: one after the last node
	volumes              int // how many of the nodes are rigid volumes
	bar, ahead           int // node indices
	iBar, iAhead, iX     int // indices into the state vector
	iAtm, iHeat, iSupply int
	iColumn, iJet        int
	n                    int

	invV       []float64 // [1/m3] of the rigid volumes, then of the lines' cells
	walls      []wall
	p, temp, w []float64 // pressure, temperature, p/sqrt(T) of every node, atmosphere included
	state      []float64
	work       []float64
	scales     []float64

	moves  []schedule // of the circuit's paths
	lifts  []float64  // of the circuit's relief valves, held between their lines
	paths  []activePath
	leak   int // index into paths of the gap around the projectile; -1
	escape flow

	runs   []lineRun
	cells  []cell
	faces  []face
	pieces []piece
	shorts []shortLine
	ends   [2]lineEnd // of the part in hand
	extra  []float64  // air of short lines in the rigid volumes [m3]

	viscosity     float64 // at ambient temperature [Pa s]
	viscosityRise float64 // its rise per kelvin, over it [1/K]
	sonicOnset    float64 // speed squared over temperature from which a shock stands in the way [m2/(s2 K)]
	sonicSpan     float64 // and over which it takes up all of the pressure [m2/(s2 K)]
	inlet         flow    // its phi is that of a line's open end
	sonicShare    float64 // sonic flow from rest over that of the same pressure and temperature at the sonic section

	b         *Barrel
	dead      float64 // the barrel's dead volume with short lines' air [m3]
	mode      mode
	sign      float64 // direction of motion
	heat      Heat
	tw        float64
	supplyOn  bool
	inertia   bool
	column    bool
	columnRho float64 // rho A of the air ahead [kg/m]
	jetD      float64 // diameter of the opening [m]
	until     float64

	directions []ode.Direction
	threshold  float64          // force that holds the projectile at rest [N]
	reach      float64          // highest pressure that can still reach the barrel [Pa]
	connected  PerNode[bool]    // nodes with a path to the barrel, now or later
	caps       PerNode[float64] // what regulators let through of their pressure [Pa]
	sealed     bool             // no air from the atmosphere gets to them
	links      []Link           // the ways between nodes, for that walk
	linkPath   []int            // the path whose part each of them is; -1: none, an open way
}

// mode is what the projectile is doing.
type mode uint8

const (
	noProjectile mode = iota
	held              // at rest behind its friction
	moving
	afterMuzzle
	gone // it left and its push is over; the barrel is the atmosphere
)

// activePath is a path that can pass flow in the present phase.
type activePath struct {
	from, to int // nodes
	flow     flow
	index    int // in Circuit.Paths, -1 for the gap
	kind     PathKind
	src      *Path

	opening, rate, t0 float64 // opening(t) = opening + rate (t - t0)
	ramp              bool
	hoseC, hoseB      float64 // hose in series; 0: none
	hoseFirst         bool    // it lies on the From side
	c, b              float64 // the part's own ellipse, for a hose in series
	forward, backward pair    // part and hose where the part stands still
	lift              float64 // Relief: lift held between the lines
	before, after     int     // lines on its sides, in engine.runs; -1: none
	lined             bool
	donor             int // node whose gas flows, where the engine holds it; -1: the one of higher pressure
}

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
	e.lifts = resize(e.lifts, len(c.Paths))
	clear(e.lifts)
	for i := range c.Paths {
		e.moves[i] = c.Paths[i].movement(sc)
	}
	for _, s := range sc.Stuck {
		e.moves[s.Path] = constant(s.Opening)
	}
	e.lineConstants()
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
	e.escape = newFlow(Nozzle(1, escapeCd), &e.gas, o.laminar())
	e.begin()
	e.phase(0)
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
	e.lines()
	e.placeLines()
	e.volumes, e.nodes, e.n = nv, nv+len(e.cells), 2*(nv+len(e.cells))
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
	e.placeFlows()
	controlled := e.n
	e.iAtm = take(e.touchesAtmosphere(loaded), 2)
	e.iHeat = take(sc.Heat != Adiabatic && !sc.Parts.NoWallHeat, 1)
	e.iSupply = take(sc.SupplyRuns && c.Supply != nil, 1)
	// Over a tube no bore holds the air ahead.
	e.iColumn = take(loaded && c.Barrel.Fit == InBore && !sc.MuzzleClosed && !sc.Parts.NoAirAhead, 1)
	e.iJet = take(loaded && !sc.MuzzleClosed && !sc.Parts.NoAfterMuzzle, 1)

	e.invV = resize(e.invV, nv+len(e.cells))
	e.walls = resize(e.walls, nv+len(e.cells))
	e.p = resize(e.p, e.nodes+1)
	e.temp = resize(e.temp, e.nodes+1)
	e.w = resize(e.w, e.nodes+1)
	e.state = resize(e.state, e.n)
	e.scales = resize(e.scales, e.n)
	for i, v := range c.Volumes {
		e.invV[i] = 1 / (v.Volume + e.extra[i])
		if sc.Heat == Convection {
			e.walls[i] = wallOf(v, &e.gas)
		}
	}
	for i := range e.cells {
		e.invV[nv+i] = 1 / e.cells[i].volume
		if sc.Heat == Convection {
			e.walls[nv+i] = e.cells[i].wall(&e.gas)
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

// node turns a circuit's node into an index.
func (e *engine) node(n Node) int {
	switch {
	case n == Atmosphere, n == BarrelNode && (e.bar < 0 || e.mode == gone):
		return e.nodes
	case n == BarrelNode:
		return e.bar
	}
	return int(n)
}

// phase readies the paths for the time from t to the next knot of any schedule.
func (e *engine) phase(t float64) {
	e.paths = e.paths[:0]
	e.endNodes()
	for i := range e.c.Paths {
		src := &e.c.Paths[i]
		opening, rate := e.moves[i].at(t)
		if src.Flow.IsZero() || (opening == 0 && rate <= 0) {
			continue
		}
		a := activePath{from: e.node(src.From), to: e.node(src.To), index: i, kind: src.Kind, src: src,
			opening: opening, rate: rate, t0: t, ramp: rate != 0, donor: -1}
		if !e.attach(&a) {
			continue // a line without a part
		}
		if e.isStuck(i) {
			a.kind = Orifice // no spring moves it
		}
		if a.from == a.to {
			continue
		}
		a.lift = e.lifts[i]
		e.shape(&a)
		e.paths = append(e.paths, a)
	}
	e.leak = -1
	if e.bar >= 0 && e.b.LeakArea > 0 && (e.mode == held || e.mode == moving) {
		to := e.nodes
		if e.ahead >= 0 {
			to = e.ahead
		}
		e.leak = len(e.paths)
		e.paths = append(e.paths, activePath{from: e.bar, to: to, index: -1, kind: Orifice, opening: 1, donor: -1,
			flow: newFlow(Nozzle(e.b.LeakArea, e.b.LeakCd), &e.gas, e.o.laminar())})
	}
}

// pairFrom gives a part at a fraction of its opening with its hose, for flow that
// comes from the node up.
func (a *activePath) pairFrom(up int, opening float64) pair {
	if (up == a.from) == a.hoseFirst {
		return newPair(a.hoseC, a.hoseB, a.c*opening, a.b)
	}
	return newPair(a.c*opening, a.b, a.hoseC, a.hoseB)
}

func (e *engine) isStuck(path int) bool {
	for i := range e.sc.Stuck {
		if e.sc.Stuck[i].Path == path {
			return true
		}
	}
	return false
}

// shape sets the flow law of an active path: the part alone, or in series with
// its hose; while the part moves, the pair is formed anew at every evaluation.
func (e *engine) shape(a *activePath) {
	part, hose, first := e.resistances(a)
	if hose.IsZero() {
		a.flow = newFlow(part, &e.gas, e.o.laminar())
		if !a.ramp {
			a.flow.k *= a.opening
		}
		return
	}
	a.hoseFirst = first
	a.hoseC, a.hoseB = hose.Conductance(e.gas)
	a.c, a.b = part.Conductance(e.gas)
	a.flow = newFlow(SonicConductance(1, a.b), &e.gas, e.o.laminar())
	if !a.ramp {
		a.forward, a.backward = a.pairFrom(a.from, a.opening), a.pairFrom(a.to, a.opening)
	}
}

// nextKnot is the next time at which a schedule bends.
func (e *engine) nextKnot(t float64) float64 {
	next := math.Inf(1)
	for i := range e.moves {
		next = min(next, e.moves[i].next(t))
	}
	return next
}

// scratch lends a vector of n components.
func (e *engine) scratch(n int) []float64 {
	e.work = resize(e.work, n)
	return e.work
}

func resize[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, max(n, 8))
	}
	return s[:n]
}
