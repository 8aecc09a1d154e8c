package wave

import (
	"fmt"
	"math"
	"slices"

	"puffproof/pneumatics"
)

// A line is the pieces of hose on one side of the valve, from the vessel to the
// barrel.

// minLineCells is the least number of cells of a line, minPieceCells that of a
// piece of it.
const (
	minLineCells  = 12
	minPieceCells = 4
)

// lines settles the two lines of the options.
func (o *Options) lines() {
	if len(o.Before) == 0 && !o.Hose.none() {
		o.Before = []Hose{o.Hose}
	}
}

// checkLine lists what is wrong with the pieces of a line.
func checkLine(where string, line []Hose) (bad []error) {
	for i, h := range line {
		if !(h.Bore > 0 && h.Length > 0 && h.Darcy >= 0 && h.Roughness >= 0 && h.Fittings >= 0 && h.Entry >= 0) {
			bad = append(bad, fmt.Errorf("wave: piece %d %s the valve: bore and length must be above zero, nothing below: %+v", i+1, where, h))
		}
	}
	return bad
}

// volumeOf is the volume of a line [m3].
func volumeOf(line []Hose) float64 {
	sum := 0.0
	for i := range line {
		sum += line[i].area() * line[i].Length
	}
	return sum
}

// plumbing is a path with lines on one side of its part, or on both, or with lines
// alone. It runs from left to right, to the barrel where it feeds that.
type plumbing struct {
	path          int
	from, to      int // nodes, outside or breech
	before, after []Hose
	whole         bool // no part: all pieces follow each other
	own           bool // the circuit has the lines' air apart from its volumes
}

// feedOf is the plumbing of the path that feeds the barrel.
func (r *runner) feedOf(path int) plumbing {
	p := &r.c.Paths[path]
	l := plumbing{path: path, from: int(p.From), to: breech, before: r.o.Before, after: r.o.After, whole: p.Kind == pneumatics.Hose}
	if p.From == pneumatics.BarrelNode {
		l.from = int(p.To)
	}
	if len(p.Before)+len(p.After) > 0 {
		l.own = true
		l.before, l.after = hosesOf(p.Before), hosesOf(p.After)
		if p.From == pneumatics.BarrelNode {
			slices.Reverse(l.before)
			slices.Reverse(l.after)
			l.before, l.after = l.after, l.before
		}
	}
	return l
}

// connect joins the breech to its vessel: line, valve, line.
func (r *runner) connect() error {
	l := &r.feed
	if len(l.before)+len(l.after) == 0 {
		r.joints = append(r.joints, joint{tube: r.breech, node: l.from, path: l.path, port: port{g: &r.g, area: r.breech.area[0]}})
		return nil
	}
	if !l.own {
		if err := r.takeOut(l.from, l.before); err != nil {
			return err
		}
		r.valves[l.path].full, r.valves[l.path].hose = r.c.Paths[l.path].Flow, false
	}
	r.plumb(l)
	return nil
}

// plumb lays the lines of a path and joins them to what they lie between.
func (r *runner) plumb(l *plumbing) {
	up, down := r.layLine(l.before, r.conditionOf(l.from)), r.layLine(l.after, r.conditionOf(l.to))
	pieces, tubes := slices.Concat(l.before, l.after), slices.Concat(up, down)
	if len(up) > 0 || l.whole {
		r.mouth(l.from, pieces[0], tubes[0], false)
	}
	if l.whole {
		if len(up) > 0 && len(down) > 0 {
			r.follow(l.before[len(up)-1], l.after[0], up[len(up)-1], down[0])
		}
	} else {
		r.fitValve(l, up, down)
	}
	n := len(tubes) - 1
	switch {
	case len(down) == 0 && !l.whole:
	case l.to == breech:
		r.follow(pieces[n], Hose{}, tubes[n], r.breech)
	default:
		r.mouth(l.to, pieces[n], tubes[n], true)
	}
}

// conditionOf is the gas at the start in a node, outside or in the barrel.
func (r *runner) conditionOf(i int) pneumatics.Condition {
	switch i {
	case outside:
		return pneumatics.Condition{Pressure: r.pa, Temperature: r.ta}
	case breech:
		return r.barrelCondition()
	}
	return r.sc.Volumes[i]
}

// takeOut takes the air of a line out of the vessel that has it in the circuit.
func (r *runner) takeOut(from int, line []Hose) error {
	if from == outside || len(line) == 0 {
		return nil
	}
	v := &r.nodes[from]
	rest := v.volume - volumeOf(line)
	if !(rest > 0) {
		return fmt.Errorf("wave: volume %q of %.4g mL holds less than the hose before the valve, %.4g mL",
			r.c.Volumes[from].Name, 1e6*v.volume, 1e6*volumeOf(line))
	}
	*v = r.nodeAt(r.sc.Volumes[from], rest)
	return nil
}

// layLine makes the tubes of a line and joins them to each other.
func (r *runner) layLine(line []Hose, cond pneumatics.Condition) (tubes []*tube) {
	length := 0.0
	for i := range line {
		length += line[i].Length
	}
	cells := max(minLineCells, int(math.Round(length/r.target)))
	if most := r.o.LineCells; most > 0 {
		cells = max(minPieceCells, min(cells, most))
	}
	inside := State{r.g.Density(cond.Pressure, cond.Temperature), 0, cond.Pressure}
	for i := range line {
		n := max(minPieceCells, int(math.Round(float64(cells)*line[i].Length/length)))
		t := line[i].tube(n)
		t.fill(&r.g, func(float64) State { return inside })
		r.tubes = append(r.tubes, t)
		tubes = append(tubes, t)
		if i > 0 {
			r.follow(line[i-1], line[i], tubes[i-1], t)
		}
	}
	return tubes
}

// tube lays a hose as a tube of n cells.
func (h *Hose) tube(n int) *tube {
	t := newTube(n)
	area := h.area()
	extra := h.Fittings * h.Bore / h.Length
	wall := h.Wall
	if wall == 0 {
		wall = 1
	}
	darcy := h.Darcy + extra
	if h.Friction == PipeFriction {
		t.pipe = pipeWall{on: true, bore: h.Bore, rough: roughTerm(h.Roughness / h.Bore), extra: extra, scale: wall}
		t.friction = true
		darcy = 0
	}
	t.lay(0, n, 0, h.Length, 0, 0, func(float64) float64 { return area }, darcy)
	t.place(0)
	return t
}

// mouth opens an end of a line to a node or the outside.
func (r *runner) mouth(node int, h Hose, t *tube, right bool) {
	end := port{g: &r.g, area: h.area(), open: true, loss: h.Entry}
	r.joints = append(r.joints, joint{tube: t, right: right, node: node, path: -1, port: end})
}

// follow joins the right end of one tube to the left end of the next.
func (r *runner) follow(a, b Hose, from, to *tube) {
	r.steps = append(r.steps, newStep(&r.g, from, to, a.Entry, b.Entry))
}

// fitValve puts the valve between two lines, or between a line and a node or the
// barrel.
func (r *runner) fitValve(l *plumbing, up, down []*tube) {
	var from, to *tube
	left, right := port{g: &r.g}, port{g: &r.g}
	if n := len(up); n > 0 {
		from, left.loss = up[n-1], l.before[n-1].Entry
		left.area = from.area[from.n]
	}
	if len(down) > 0 {
		to, right.loss = down[0], l.after[0].Entry
	} else if l.to == breech {
		to = r.breech
	}
	if to != nil {
		right.area = to.area[0]
	}
	switch {
	case from == nil:
		r.joints = append(r.joints, joint{tube: to, node: l.from, path: l.path, port: right})
	case to == nil:
		r.joints = append(r.joints, joint{tube: from, right: true, node: l.to, path: l.path, port: left})
	default:
		r.bridges = append(r.bridges, bridge{hose: left, barrel: right, from: from, to: to, path: l.path})
	}
}
