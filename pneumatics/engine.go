package pneumatics

import (
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/graph"
	"puffproof/pneumatics/internal/barrier"
	"puffproof/pneumatics/internal/opening"
	"puffproof/pneumatics/internal/row"
	"puffproof/pneumatics/internal/wall"
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

	gas                  flow.Gas
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
	walls      []wall.Wall
	stirred    []float64 // of Stirring: what the jets add to the Nusselt number of each rigid volume [-]; else empty
	p, temp, w []float64 // pressure, temperature, p/sqrt(T) of every node, atmosphere included
	state      []float64
	work       []float64
	scales     []float64

	moves  []opening.Schedule // of the circuit's paths
	paths  []activePath
	leak   int // index into paths of the gap around the projectile; -1
	escape flow.Law

	slopes slopes

	balances []int  // indices into Circuit.Paths of those that a diaphragm decides
	lifted   []bool // by index in Circuit.Paths: the diaphragm is off its seat
	reliefs  []relief

	lines

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
	threshold  float64             // force that holds the projectile at rest [N]
	highest    float64             // pressure behind a projectile that is jammed or plugged in, so far [Pa]
	reach      float64             // highest pressure that can still reach the barrel [Pa]
	connected  graph.PerNode[bool] // nodes with a path to the barrel, now or later
	barriers   barrier.Barriers    // on the way to the barrel
	joined     graph.PerNode[bool] // nodes that bear on the barrel; empty: all are followed
	sealed     bool                // no air from the atmosphere gets to them
	ties       []graph.Link        // for what bears on the barrel
	links      []graph.Link        // the ways between nodes, for that walk
	linkPath   []int               // the path whose part each of them is; -1: none, an open way
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
	flow     flow.Law
	index    int // in Circuit.Paths, -1 for the gap
	kind     PathKind
	src      *Path

	opening, rate, t0 float64 // opening(t) = opening + rate (t - t0)
	ramp              bool
	hoseC, hoseB      float64   // hose in series; 0: none
	hoseFirst         bool      // it lies on the From side
	c, b              float64   // the part's own ellipse, for a hose in series
	forward, backward flow.Pair // part and hose where the part stands still
	relief            int       // Relief: which of the engine's
	balanced          bool      // a diaphragm decides
	pilot             int       // node that its back sees
	before, after     int       // rows on its sides; -1: none
	lined             bool
	jet               float64 // diameter of its jet [m], where that stirs
	donor             int     // node whose gas flows, where the engine holds it; -1: the one of higher pressure
}

// lines is the lines of a circuit as one run sees them.
type lines struct {
	rows   row.Rows
	laid   []laidLine  // beside rows
	shorts []shortLine // beside the circuit's paths
	extra  []float64   // air of short lines in the rigid volumes [m3]
	ends   [2]row.End  // of the part in hand
	flows  int         // place of their first flow in the state, behind all else that is controlled
	order  []int       // of elimination
}

// laidLine is where a row lies in the circuit.
type laidLine struct {
	path        int
	side        row.Side // of the path's part
	split       int      // without a part: the number of cells that start as From's
	left, right Node     // what its open ends open into
}

// shortLine is what is left of the lines of a path that are only a resistance.
type shortLine struct {
	before, after flow.Restriction
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
