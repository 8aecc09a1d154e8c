package row

import (
	"math"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// Nodes is the gas that the rows see: of the rigid volumes, of the cells, of whatever
// else there is, and last of the surroundings. Mass and energy of node i stand at 2 i and
// 2 i + 1 of state and rates.
type Nodes struct {
	P, T, W []float64 // pressure [Pa], temperature [K], P/sqrt(T)
	Book    int       // place of the balance of the last node; -1: it is not kept
}

// give books mass and energy to a node.
func (n *Nodes) give(d []float64, node int, q, h float64) {
	i := 2 * node
	if node == len(n.P)-1 {
		i = n.Book
		if i < 0 {
			return
		}
	}
	d[i] += q
	d[i+1] += h
}

// Rows is all the rows of a circuit. The zero value has none.
type Rows struct {
	Nodes
	Cells []Cell
	Faces []Face
	rows  []row
	first int // node of the first cell

	gas                flow.Gas
	cp, cv, invCv, gm1 float64
	perCp              float64 // 1/(2 cp): temperature of motion over speed squared [kg K/J]
	sonic              float64 // temperature at the speed of sound over that at rest [-]
	ta                 float64 // ambient temperature [K]
	viscosity          float64 // at ambient temperature [Pa s]
	viscosityRise      float64 // its rise per kelvin, over it [1/K]
	// Speed squared over temperature from which a shock stands in the way, and over which it
	// takes up all of the pressure [m2/(s2 K)].
	sonicOnset, sonicSpan float64
	inlet                 flow.Law // its phi is that of an open end
	still, perChord       float64  // the ratio above which laws are their chord to no flow, and 1 over how far that goes
	sonicShare            float64  // sonic flow from rest over that of the same pressure and temperature at the sonic section [-]
	inletSonic            float64  // least pressure inside an open end over that before it [-]
	pieces                []piece
}

// row is pieces one behind the other. Face k lies before cell k; the first and the last
// face are its ends.
type row struct {
	first        int  // node of its first cell
	cell, n      int  // first entry in Cells, number of cells
	face         int  // first of n+1 entries in Faces
	piece        int  // first entry in pieces, and
	pieces       int  // their number
	shutL, shutR bool // the end is at a part, or blocked
	left, right  int  // nodes that its open ends open into
}

// Cell is what a cell is beside its mass and energy.
type Cell struct {
	Area    float64 // section [m2]
	Volume  float64 // [m3]
	invArea float64 // [1/m2]
	invGM1  float64 // (gamma-1)/volume [1/m3]
	choke   float64 // sqrt(gamma/R) A [m2 sqrt(kg K/J)]: sonic flow over p/sqrt(T)
}

// Face is the gas between two cells' centres, or between a centre and the row's
// open end: a mass flow with inertia.
type Face struct {
	Flow     float64 // [kg/s]
	Before   float64 // speed in its half in the cell before it [m/s]
	Behind   float64 // the same in the cell behind it
	pressure float64 // what drives the flow so far [Pa]
	Index    int     // of its flow in the state; -1: at a part, where the flow is no state
	kind     faceKind
	length   float64 // of both halves [m]
	mobility float64 // section over length: rate of the flow over what drives it [m]
	sa, sb   float64 // shares of the gas of the cells before and behind that are its halves [-]
	area     float64 // section of the cell before it, at a row's left end of that behind it [m2]
	invArea  float64 // [1/m2]
	la, lb   float64 // lengths of its halves in the cells before and behind [m]
	loss     float64 // of the area change, either way, in dynamic heads of the narrower side [-]
	half     float64 // what drives a joint's first half, without the pressure at its mouth [Pa]
	step     float64 // fall of pressure across a joint [Pa]
}

type faceKind uint8

const (
	inner faceKind = iota // inside a piece, or between two of one bore
	mouth                 // at an open end
	joint                 // between pieces of two bores
	atPart
)

// piece is the friction of one piece: that of faces first to last, of which the first
// and the last may be shared with the next piece.
type piece struct {
	first, last int     // in Faces
	cell, cells int     // its first cell, in Cells, and their number
	end         int     // its last cell, in its row
	share       float64 // 1 over the number of its faces whose flow is a state
	reynolds    float64 // Re over |q| at ambient viscosity [s/kg]
	factor      float64 // losses/(2 D) [1/m]
	fixed       float64 // of the fittings: losses Loss/(2 L) [1/m]
	drag        float64 // what holds its gas back, over |q| u times the length, of this evaluation [1/m]
}

// Clear takes all rows away.
func (r *Rows) Clear() {
	r.rows, r.Cells, r.Faces, r.pieces = r.rows[:0], r.Cells[:0], r.Faces[:0], r.pieces[:0]
}

// Ready says which gas the rows to come hold, at what ambient temperature [K], and the
// laminar ratio of open ends as flow.NewLaw has it.
func (r *Rows) Ready(g *flow.Gas, ambient, laminar float64) {
	k := g.Gamma
	r.gas, r.ta = *g, ambient
	r.cp, r.cv, r.invCv, r.gm1 = g.Cp(), g.Cv(), 1/g.Cv(), k-1
	r.perCp, r.sonic = 0.5/r.cp, 2/(k+1)
	r.viscosity, r.viscosityRise = g.Viscosity(ambient), g.ViscosityRise(ambient)
	// No flow in a line of one bore passes the speed of sound steadily; where a strong front would
	// be faster for a moment, a drag that grows from M^2 0.95 to all of the pressure at 1
	// takes the place of the shock.
	r.sonicOnset, r.sonicSpan = 0.95*k*g.R, 0.05*k*g.R
	r.inlet = flow.NewLaw(flow.Nozzle(1, 1), g, laminar)
	r.still, r.perChord = 2, 0
	if laminar < 1 {
		r.still, r.perChord = laminar, 1/(1-laminar)
	}
	r.inletSonic = r.inlet.B / (1 + line.EntryLoss*(1-r.inlet.B))
	r.sonicShare = math.Pow(2/(k+1), (k+1)/(2*(k-1)))
}

// Len is the number of rows.
func (r *Rows) Len() int { return len(r.rows) }

// First is the node of a row's first cell.
func (r *Rows) First(i int) int { return r.rows[i].first }

// Last is the node of a row's last cell.
func (r *Rows) Last(i int) int { return r.rows[i].first + r.rows[i].n - 1 }

// CellsOf is the cells of a row.
func (r *Rows) CellsOf(i int) []Cell { return r.Cells[r.rows[i].cell : r.rows[i].cell+r.rows[i].n] }

// FacesOf is the faces of a row: the first before its first cell.
func (r *Rows) FacesOf(i int) []Face { return r.Faces[r.rows[i].face : r.rows[i].face+r.rows[i].n+1] }

// Place makes the cells the nodes from first on.
func (r *Rows) Place(first int) {
	r.first = first
	for i := range r.rows {
		r.rows[i].first = first
		first += r.rows[i].n
	}
}

// PlaceFlows gives the flows their places in the state from index on, and the index
// behind them.
func (r *Rows) PlaceFlows(index int) int {
	for k := range r.Faces {
		f := &r.Faces[k]
		f.Index = -1
		if f.kind != atPart {
			f.Index = index
			index++
		}
	}
	return index
}

// Open says which nodes the ends of a row open into; what it says of an end at a part
// does not matter.
func (r *Rows) Open(i, left, right int) { r.rows[i].left, r.rows[i].right = left, right }

// Steady tells that no flow changes, in a second, by more than a share of its size in
// scales [1/s].
func (r *Rows) Steady(d, scales []float64, share float64) bool {
	for i := range r.Faces {
		if f := &r.Faces[i]; f.Index >= 0 && math.Abs(d[f.Index]) > share*scales[f.Index] {
			return false
		}
	}
	return true
}
