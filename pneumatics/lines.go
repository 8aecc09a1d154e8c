package pneumatics

import (
	"math"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/internal/row"
	"puffproof/pneumatics/internal/wall"
	"puffproof/pneumatics/line"
)

// layLines lays the lines that are more than a resistance.
func (e *engine) layLines() {
	e.laid = e.laid[:0]
	e.rows.Clear()
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
		e.rows.Ready(&e.gas, e.ta, e.o.laminar())
		if p.Kind == Hose {
			e.wholeLine(i, p)
			continue
		}
		e.sideLine(i, p, row.Before)
		e.sideLine(i, p, row.After)
	}
	e.rows.Place(len(e.c.Volumes))
}

// sideLine takes the pieces on one side of a part.
func (e *engine) sideLine(path int, p *Path, side row.Side) {
	pieces, node := p.Before, p.From
	if side == row.After {
		pieces, node = p.After, p.To
	}
	if len(pieces) == 0 {
		return
	}
	perLength := e.division(path, pieces, nil)
	if perLength == 0 {
		e.store(node, line.Volume(pieces))
		if side == row.After {
			e.shorts[path].after = line.Steady(pieces, &e.gas, line.After)
		} else {
			e.shorts[path].before = line.Steady(pieces, &e.gas, line.Before)
		}
		return
	}
	e.rows.Lay(row.Run{ShutLeft: side == row.After, ShutRight: side == row.Before, PerLength: perLength, Scale: 1}, pieces, nil)
	e.laid = append(e.laid, laidLine{path: path, side: side, left: node, right: node})
}

// wholeLine takes a path that is a line and nothing else.
func (e *engine) wholeLine(path int, p *Path) {
	perLength := e.division(path, p.Before, p.After)
	if perLength == 0 {
		e.store(p.From, line.Volume(p.Before))
		e.store(p.To, line.Volume(p.After))
		e.shorts[path].before = line.InSeries(line.Steady(p.Before, &e.gas, line.Alone), line.Steady(p.After, &e.gas, line.Alone), e.gas)
		return
	}
	split := e.rows.Lay(row.Run{ShutRight: e.blocked(path), PerLength: perLength, Scale: e.squeeze(path)}, p.Before, p.After)
	e.laid = append(e.laid, laidLine{path: path, split: split, left: p.From, right: p.To})
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

// squeeze is what the losses of a line without a part are multiplied by: one that is
// squeezed passes its share.
func (e *engine) squeeze(path int) float64 {
	scale := 1.0
	for _, s := range e.sc.Stuck {
		if s.Path == path && s.Opening >= squeezedShut {
			scale = 1 / (s.Opening * s.Opening)
		}
	}
	return scale
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

// beginLines fills the state of the lines at time 0: the pieces before a part at
// the condition of From, those after it at that of To, at rest.
func (e *engine) beginLines(put func(i int, cond Condition, volume float64)) {
	// A flow's natural size is the sonic one. A finer one costs steps and gives nothing:
	// what a flow does to the cells is held by their own masses and energies.
	rest := 1.5 * e.gas.Density(e.pa, e.ta) * e.gas.SoundSpeed(e.ta)
	for i := range e.laid {
		l := &e.laid[i]
		p := &e.c.Paths[l.path]
		cells, faces := e.rows.CellsOf(i), e.rows.FacesOf(i)
		behind := len(cells) // from this cell on the air is that of To
		if l.side == row.After {
			behind = 0
		} else if p.Kind == Hose {
			behind = l.split
		}
		from, to := e.startOf(p.From), e.startOf(p.To)
		for k := range cells {
			cond := from
			if k >= behind {
				cond = to
			}
			put(2*(e.rows.First(i)+k), cond, cells[k].Volume)
		}
		for k := range faces {
			if at := faces[k].Index; at >= 0 {
				e.scales[at] = rest * cells[min(k, len(cells)-1)].Area
			}
		}
	}
}

// startOf is the gas in a node at time 0.
func (e *engine) startOf(n Node) Condition {
	cond := Condition{e.pa, e.ta}
	switch {
	case n >= 0:
		cond = e.sc.Volumes[n]
	case n == BarrelNode && e.bar >= 0 && e.sc.Barrel.Pressure > 0:
		cond = e.sc.Barrel
	}
	if e.heat == Isothermal {
		cond.Temperature = e.tw
	}
	return cond
}

// openLines says what the rows' ends open into in the present phase.
func (e *engine) openLines() {
	for i := range e.laid {
		e.rows.Open(i, e.node(e.laid[i].left), e.node(e.laid[i].right))
	}
}

// wallOfCell is a cell's share of its line's wall.
func wallOfCell(c *row.Cell, g *flow.Gas) wall.Wall {
	d := 2 * math.Sqrt(c.Area/math.Pi)
	w := wall.Of(c.Volume, d, g)
	w.Area -= 2 * c.Area // no end faces
	return w
}

// attach puts the ends of a path's lines in the place of its nodes; false for a path
// that is a line and has no part.
func (e *engine) attach(a *activePath) bool {
	a.before, a.after = -1, -1
	for i := range e.laid {
		l := &e.laid[i]
		if l.path != a.index {
			continue
		}
		switch {
		case a.src.Kind == Hose:
			return false
		case l.side == row.After:
			a.after, a.to = i, e.rows.First(i)
		default:
			a.before, a.from = i, e.rows.Last(i)
		}
		a.lined = true
	}
	return true
}

// resistances are a path's part and what lies in series with it: its hose, and lines
// that are too short to be more. A short line alone is the part.
func (e *engine) resistances(a *activePath) (part, hose flow.Restriction, first bool) {
	part, hose, first = a.src.Flow, a.src.Hose, a.src.HoseFirst
	short := &e.shorts[a.index]
	if a.src.Kind == Hose && len(a.src.Before)+len(a.src.After) > 0 {
		return short.before, hose, first
	}
	if !short.before.IsZero() {
		hose, first = line.InSeries(short.before, hose, e.gas), true
	}
	if !short.after.IsZero() {
		hose = line.InSeries(hose, short.after, e.gas)
		first = first && !short.before.IsZero()
	}
	return part, hose, first
}

// lineMotion is the kinetic energy of the gas in the lines [J], at the state last taken.
func (e *engine) lineMotion() float64 {
	sum := 0.0
	for i := range e.laid {
		sum += e.rows.Motion(i)
	}
	return sum
}

// joinedMotion is the same of the lines whose air can reach the barrel.
func (e *engine) joinedMotion() float64 {
	sum := 0.0
	for i := range e.laid {
		if e.connected[e.rows.First(i)] {
			sum += e.rows.Motion(i)
		}
	}
	return sum
}

// surge bounds how far the pressure at the end of a line can pass the highest there
// is [Pa]: by the step it may be thrown back with at a closed end, the range of
// the pressures joined, and by the gas's motion brought to rest there by a pressure
// wave, rho c u, and thrown back as well.
func (e *engine) surge(highest float64) float64 {
	if len(e.laid) == 0 {
		return 0
	}
	lowest, wave := e.p[e.bar], 0.0
	for i := range e.laid {
		first := e.rows.First(i)
		if !e.connected[first] {
			continue
		}
		cells, faces := e.rows.CellsOf(i), e.rows.FacesOf(i)
		for k := range cells {
			lowest = min(lowest, e.p[first+k])
			q := max(math.Abs(faces[k].Flow), math.Abs(faces[k+1].Flow))
			wave = max(wave, q*math.Sqrt(e.gas.Gamma*e.gas.R*e.temp[first+k])/cells[k].Area)
		}
	}
	if lowest == highest && wave == 0 {
		return 0
	}
	return highest - lowest + 2*wave
}

// elimination is the order in which the implicit method takes the state: the lines cell by
// cell, so that each meets its neighbours only, then the rest; nil without lines.
func (e *engine) elimination() []int {
	if len(e.laid) == 0 {
		return nil
	}
	e.order = e.order[:0]
	for i := range e.laid {
		faces := e.rows.FacesOf(i)
		for k := range faces {
			if at := faces[k].Index; at >= 0 {
				e.order = append(e.order, at)
			}
			if node := e.rows.First(i) + k; node <= e.rows.Last(i) {
				e.order = append(e.order, 2*node, 2*node+1)
			}
		}
	}
	first, last := 2*e.rows.First(0), 2*e.rows.Last(len(e.laid)-1)+1
	for k := range e.flows {
		if k < first || k > last {
			e.order = append(e.order, k)
		}
	}
	return e.order
}
