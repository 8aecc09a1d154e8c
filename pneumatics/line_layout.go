package pneumatics

import (
	"fmt"
	"math"

	"puffproof/pneumatics/flow"
)

// lineRun is a row of pieces on one side of a part, or a path without a part. Its
// cells are nodes of the engine. Face k lies before cell k; the first and the last
// face are the run's ends.
type lineRun struct {
	path         int
	after        bool // on the part's To side
	first        int  // node of its first cell
	split        int  // without a part: the number of cells that start as From's
	cell, n      int  // first entry in engine.cells, number of cells
	face         int  // first of n+1 entries in engine.faces
	left, right  Node // what its open ends open into
	partL, partR bool // the end is at the part, or blocked
	nodeL, nodeR int  // left and right as nodes of the present phase
}

// cell is what a line's cell needs beside mass and energy.
type cell struct {
	area    float64 // section [m2]
	invArea float64 // [1/m2]
	invGM1  float64 // (gamma-1)/volume [1/m3]
	choke   float64 // sqrt(gamma/R) A [m2 sqrt(kg K/J)]: sonic flow over p/sqrt(T)
	volume  float64 // [m3]
}

// face is the gas between two cells' centres, or between a centre and the run's
// open end: a mass flow q with inertia.
type face struct {
	kind     faceKind
	iq       int     // index of q in the state; -1: at the part, where q is no state
	mobility float64 // section over length: rate of q over what drives it [m]
	length   float64 // of both halves [m]
	la, sa   float64 // length of its half in the cell before it [m], share of that cell's gas
	lb, sb   float64 // the same in the cell behind it
	loss     float64 // of the area change, either way, in dynamic heads of the narrower side [-]
	drag     float64 // what friction and fittings hold it back with over |q| u times the length, of this evaluation [1/m]
	dragB    float64 // the same of the half in the cell behind it
	area     float64 // section of the cell before it, at a run's left end of that behind it [m2]
	invArea  float64 // [1/m2]
	q        float64 // [kg/s]
	ua, ub   float64 // speed in the two halves [m/s]
	ma, mb   float64 // gas of the two halves [kg]
	pressure float64 // what drives q so far [Pa]
	half     float64 // the same of a joint's first half, without the pressure at its mouth [Pa]
	step     float64 // fall of pressure across a joint [Pa]
}

type faceKind uint8

const (
	inner faceKind = iota // inside a piece
	joint                 // between two pieces
	mouth                 // at an open end
	atPart
)

// piece is the friction of one piece: that of faces first to last, of which the first
// and the last may be shared with the next piece.
type piece struct {
	first, last int     // in engine.faces
	cell        int     // node of its first cell, and
	cells       int     // their number
	share       float64 // 1 over the number of its faces whose flow is a state
	reynolds    float64 // Re over |q| at ambient viscosity [s/kg]
	factor      float64 // losses/(2 D) [1/m]
	fixed       float64 // of the fittings: losses Loss/(2 L) [1/m]
}

// lines lays out the lines that are more than a resistance: runs, cells and faces
// but for their place in the state.
func (e *engine) lines() {
	e.runs, e.cells, e.faces, e.pieces = e.runs[:0], e.cells[:0], e.faces[:0], e.pieces[:0]
	e.extra = resize(e.extra, len(e.c.Volumes))
	clear(e.extra)
	e.dead = e.b.DeadVolume
	e.shorts = resize(e.shorts, len(e.c.Paths))
	for i := range e.c.Paths {
		p := &e.c.Paths[i]
		e.shorts[i] = shortLine{}
		if len(p.Before)+len(p.After) == 0 {
			continue
		}
		if p.Kind == Hose {
			e.wholeLine(i, p)
			continue
		}
		e.sideLine(i, p, false)
		e.sideLine(i, p, true)
	}
}

// division is how many cells a run has per length [1/m]; 0 for one that is only a
// resistance. A piece with a stated number of cells is never that.
func (e *engine) division(path int, pieces, more []Line) float64 {
	if e.sc.Parts.SteadyLines {
		return 0
	}
	length, stated := 0.0, false
	for _, row := range [...][]Line{pieces, more} {
		for i := range row {
			l := &row[i]
			if !(l.Bore > 0 && l.Length > 0) {
				panic(fmt.Sprintf("pneumatics: line of bore %g m and length %g m", l.Bore, l.Length))
			}
			length += l.Length
			stated = stated || l.Cells > 0
		}
	}
	n := e.cellsFor(path, length)
	if n == 0 && stated {
		n = 1
	}
	return float64(n) / length
}

// shortLine is what is left of the lines of a path that are only a resistance.
type shortLine struct {
	before, after flow.Restriction
}

// sideLine takes the pieces on one side of a part.
func (e *engine) sideLine(path int, p *Path, after bool) {
	pieces, node := p.Before, p.From
	if after {
		pieces, node = p.After, p.To
	}
	if len(pieces) == 0 {
		return
	}
	perLength := e.division(path, pieces, nil)
	if perLength == 0 {
		e.store(node, volumeOf(pieces))
		if after {
			e.shorts[path].after = steadyOf(pieces, &e.gas, headsAfter)
		} else {
			e.shorts[path].before = steadyOf(pieces, &e.gas, headsBefore)
		}
		return
	}
	r := lineRun{path: path, after: after, left: node, right: node, partL: after, partR: !after}
	e.openRun(&r)
	e.addPieces(&r, pieces, perLength, true)
	e.closeRun(&r)
}

// wholeLine takes a path that is a line and nothing else.
func (e *engine) wholeLine(path int, p *Path) {
	perLength := e.division(path, p.Before, p.After)
	if perLength == 0 {
		e.store(p.From, volumeOf(p.Before))
		e.store(p.To, volumeOf(p.After))
		e.shorts[path].before = inSeries(steadyOf(p.Before, &e.gas, headsAlone), steadyOf(p.After, &e.gas, headsAlone), e.gas)
		return
	}
	r := lineRun{path: path, left: p.From, right: p.To, partR: e.blocked(path)}
	e.openRun(&r)
	e.addPieces(&r, p.Before, perLength, len(p.After) == 0)
	r.split = len(e.cells) - r.cell
	e.addPieces(&r, p.After, perLength, true)
	e.closeRun(&r)
}

// squeezedShut is the opening below which a line without a part counts as shut [-]:
// its losses grow with the inverse square.
const squeezedShut = 1e-3

// blocked tells that a path without a part passes nothing.
func (e *engine) blocked(path int) bool {
	if e.c.Paths[path].Flow.IsZero() {
		return true
	}
	for _, s := range e.sc.Stuck {
		if s.Path == path && s.Opening < squeezedShut {
			return true
		}
	}
	return false
}

// store adds a short line's air to the node on its side.
func (e *engine) store(n Node, volume float64) {
	switch {
	case n == BarrelNode:
		e.dead += volume
	case n >= 0:
		e.extra[n] += volume
	}
}

func (e *engine) openRun(r *lineRun) {
	r.cell, r.face = len(e.cells), len(e.faces)
	e.faces = append(e.faces, face{})
}

// addPieces appends the cells of pieces in the order of the path, each piece with
// whole cells but for a half one at the part. toTheEnd: no pieces follow.
func (e *engine) addPieces(r *lineRun, pieces []Line, perLength float64, toTheEnd bool) {
	scale := 1.0
	for _, s := range e.sc.Stuck { // a line that is squeezed passes its share
		if s.Path == r.path && e.c.Paths[r.path].Kind == Hose && s.Opening >= squeezedShut {
			scale = 1 / (s.Opening * s.Opening)
		}
	}
	for i := range pieces {
		l := &pieces[i]
		n := l.Cells
		if n <= 0 {
			n = max(1, int(math.Round(perLength*l.Length)))
		}
		halfL := r.partL && len(e.cells) == r.cell
		halfR := r.partR && toTheEnd && i == len(pieces)-1
		parts := float64(n)
		if halfL || halfR {
			parts -= 0.5
		}
		dx, area := l.Length/parts, l.Area()
		if n == 1 { // one cell, whose gas all moves through its open side
			dx = l.Length
		}
		e.pieces = append(e.pieces, piece{first: len(e.faces) - 1, last: len(e.faces) - 1 + n, cell: len(e.c.Volumes) + len(e.cells), cells: n,
			reynolds: l.Bore / (area * e.viscosity), factor: scale * l.losses() / (2 * l.Bore), fixed: scale * l.losses() * l.Loss / (2 * l.Length)})
		for k := range n {
			length, share := dx, 0.5
			lastL, lastR := halfL && k == 0, halfR && k == n-1
			if lastL || lastR {
				share = 1
				if n > 1 {
					length = 0.5 * dx
				}
			}
			e.addCell(area, length, share, lastL, lastR)
		}
	}
}

// addCell appends a cell and the face behind it.
func (e *engine) addCell(area, length, share float64, partL, partR bool) {
	volume := area * length
	e.cells = append(e.cells, cell{area: area, invArea: 1 / area, volume: volume, invGM1: e.gm1 / volume,
		choke: math.Sqrt(e.gas.Gamma/e.gas.R) * area})
	before := &e.faces[len(e.faces)-1]
	behind := face{area: area, invArea: 1 / area}
	if before.area == 0 {
		before.area, before.invArea = area, 1/area
	}
	if !partL {
		before.lb, before.sb = share*length, share
	}
	if !partR {
		behind.la, behind.sa = share*length, share
	}
	e.faces = append(e.faces, behind)
}

// closeRun settles what each face is.
func (e *engine) closeRun(r *lineRun) {
	r.n = len(e.cells) - r.cell
	last := r.face + r.n
	for k := r.face; k <= last; k++ {
		f := &e.faces[k]
		f.length = f.la + f.lb
		i := r.cell + k - r.face
		switch {
		case k == r.face && r.partL, k == last && r.partR:
			f.kind = atPart
		case k == r.face:
			f.kind, f.loss, f.mobility = mouth, EntryLoss, e.cells[i].area/f.lb
		case k == last:
			f.kind, f.loss, f.mobility = mouth, EntryLoss, e.cells[i-1].area/f.la
		default:
			a, b := e.cells[i-1].area, e.cells[i].area
			f.mobility = 1 / (f.la/a + f.lb/b)
			if a != b {
				f.kind, f.loss = joint, EntryLoss*(1-min(a, b)/max(a, b))
			}
		}
	}
	e.runs = append(e.runs, *r)
	for i := range e.pieces {
		p := &e.pieces[i]
		if p.first < r.face {
			continue
		}
		flows := p.last - p.first + 1
		if e.faces[p.first].kind == atPart {
			flows--
		}
		if e.faces[p.last].kind == atPart {
			flows--
		}
		p.share = 1 / float64(flows)
	}
}
