package wave

import (
	"fmt"
	"math"

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

// connect joins the breech to its vessel: line, valve, line.
func (r *runner) connect(path int) error {
	p := &r.c.Paths[path]
	far := int(p.From)
	if p.From == pneumatics.BarrelNode {
		far = int(p.To)
	}
	barrel := port{g: &r.g, area: r.breech.area[0]}
	before, after := r.o.Before, r.o.After
	if len(before)+len(after) == 0 {
		r.joints = append(r.joints, joint{tube: r.breech, node: far, path: path, port: barrel})
		return nil
	}
	source, err := r.takeOut(far, before)
	if err != nil {
		return err
	}
	inside := r.barrelCondition()
	up, down := r.layLine(before, source), r.layLine(after, inside)
	r.inlet(far, before, up)
	if p.Kind == pneumatics.Hose {
		if len(before) == 0 {
			r.inlet(far, after, down)
		} else if len(after) > 0 {
			r.follow(before[len(before)-1], after[0], up[len(up)-1], down[0])
		}
	} else {
		r.valves[path].full, r.valves[path].hose = p.Flow, false
		r.fitValve(path, far, up, down)
	}
	last, end := r.lastPiece(up, down)
	if len(after) > 0 || p.Kind == pneumatics.Hose {
		r.follow(last, Hose{}, end, r.breech)
	}
	return nil
}

// lastPiece is the piece of hose next to the barrel, and its tube.
func (r *runner) lastPiece(up, down []*tube) (Hose, *tube) {
	if n := len(down); n > 0 {
		return r.o.After[n-1], down[n-1]
	}
	n := len(up)
	return r.o.Before[n-1], up[n-1]
}

// takeOut takes the air of a line out of the vessel that has it in the circuit,
// and gives the line's condition at the start.
func (r *runner) takeOut(from int, line []Hose) (pneumatics.Condition, error) {
	if from == outside {
		return pneumatics.Condition{Pressure: r.pa, Temperature: r.ta}, nil
	}
	cond, v := r.sc.Volumes[from], &r.nodes[from]
	if len(line) == 0 {
		return cond, nil
	}
	rest := v.volume - volumeOf(line)
	if !(rest > 0) {
		return cond, fmt.Errorf("wave: volume %q of %.4g mL holds less than the hose before the valve, %.4g mL",
			r.c.Volumes[from].Name, 1e6*v.volume, 1e6*volumeOf(line))
	}
	*v = r.nodeAt(cond, rest)
	return cond, nil
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
	darcy := h.Darcy + extra
	if h.Friction == PipeFriction {
		t.pipe = pipeWall{on: true, bore: h.Bore, rough: roughTerm(h.Roughness / h.Bore), extra: extra}
		t.friction = true
		darcy = 0
	}
	t.lay(0, n, 0, h.Length, 0, 0, func(float64) float64 { return area }, darcy)
	t.place(0)
	return t
}

// inlet opens the first tube of a line to a vessel, if there is a line.
func (r *runner) inlet(node int, line []Hose, tubes []*tube) {
	if len(line) == 0 {
		return
	}
	r.joints = append(r.joints, joint{tube: tubes[0], node: node, path: -1,
		port: port{g: &r.g, area: tubes[0].area[0], open: true, loss: line[0].Entry}})
}

// follow joins the right end of one tube to the left end of the next.
func (r *runner) follow(a, b Hose, from, to *tube) {
	r.steps = append(r.steps, newStep(&r.g, from, to, a.Entry, b.Entry))
}

// fitValve puts the valve between two lines, between a line and the barrel, or
// between the vessel and a line.
func (r *runner) fitValve(path, far int, up, down []*tube) {
	to := r.breech
	if len(down) > 0 {
		to = down[0]
	}
	end := port{g: &r.g, area: to.area[0]}
	if len(down) > 0 {
		end.loss = r.o.After[0].Entry
	}
	if len(up) == 0 {
		r.joints = append(r.joints, joint{tube: to, node: far, path: path, port: end})
		return
	}
	from := up[len(up)-1]
	start := port{g: &r.g, area: from.area[from.n], loss: r.o.Before[len(up)-1].Entry}
	r.bridges = append(r.bridges, bridge{hose: start, barrel: end, from: from, to: to, path: path})
}
