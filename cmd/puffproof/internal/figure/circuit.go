package figure

import (
	"image/color"
	"slices"
	"strconv"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Circuit is a pneumatic circuit to draw: every volume is a level line, every
// part hangs below the upper one of the two volumes that it joins. Symbols
// follow ISO 1219-1; what that standard does not have (barrel and projectile) is
// drawn as what it looks like. Valves are drawn without power.
type Circuit struct {
	Nodes []CircuitNode // in the order drawn, the barrel last
	Parts []CircuitPart
}

// CircuitNode is a volume or the barrel.
type CircuitNode struct {
	Name, Note  string
	Barrel      bool
	Instruments []Instrument
}

// Instrument stands on a volume.
type Instrument struct {
	Kind       InstrumentKind
	Name, Note string
}

// InstrumentKind is the kind of an instrument.
type InstrumentKind uint8

const (
	CompressorSymbol InstrumentKind = iota
	HandPumpSymbol
	CylinderSymbol
	GaugeSymbol
	SwitchSymbol
)

// CircuitPart is a path.
type CircuitPart struct {
	Number     int // of the parts list
	Name, Note string
	Kind       PartKind
	From, To   int    // indices of nodes; Outside: the atmosphere
	Hose       bool   // one is in series with it
	HoseNote   string // its size
	// Exhaust is where the third port of a part with three leads: "" into the
	// atmosphere, else the name of a node.
	Exhaust string
	Piloted bool // a pilot moves it
}

// Outside is the atmosphere as an end of a part.
const Outside = -1

// PartKind is the kind of a part, and for valves what it does without power.
type PartKind uint8

const (
	OrificeSymbol PartKind = iota
	HoseSymbol
	ValveClosedSymbol // solenoid valve, closed without power
	ValveOpenSymbol   // solenoid valve, open without power
	ValveStaysSymbol  // solenoid valve that keeps its position
	HandValveSymbol
	ThreeWayClosedSymbol // three ports; without power the inlet is shut
	ThreeWayOpenSymbol   // without power the inlet is open
	ThreeWayStaysSymbol
	ThreeWayHandSymbol
	QuickExhaustSymbol // a shuttle between inlet and exhaust
	CheckSymbol
	ReliefSymbol
	RegulatorSymbol
)

const (
	lanePitch = 24 * vg.Millimeter
	laneLeft  = 15 * vg.Millimeter // from the edge to the first lane
	above     = 21 * vg.Millimeter // for volume and instruments
	below     = 31 * vg.Millimeter // for parts
	barrelLow = 17 * vg.Millimeter
	tubeAxis  = 6 * vg.Millimeter // of the barrel, below its level
	tubeHalf  = 2.6 * vg.Millimeter
	tubeLow   = tubeAxis + tubeHalf
)

// Draw makes the drawing. ErrNoCurve where the circuit has no volume.
func (c Circuit) Draw() (*Drawing, error) {
	if len(c.Nodes) == 0 {
		return nil, ErrNoCurve
	}
	l := c.lay()
	height := vg.Length(0)
	for n := range c.Nodes {
		height += c.nodeHeight(n)
	}
	return newDrawing(c.width(l), height+2*vg.Millimeter, func(dc draw.Canvas) error {
		c.paint(pen{dc}, l)
		return nil
	})
}

// width is that of the drawing.
func (c Circuit) width(l laid) vg.Length {
	return max(chartWidth+6*vg.Millimeter, laneLeft+lanePitch*vg.Length(l.lanes)-6*vg.Millimeter)
}

// nodeHeight is the room of a node: a barrel has parts below it only where it
// vents to the atmosphere by itself.
func (c Circuit) nodeHeight(n int) vg.Length {
	switch {
	case !c.Nodes[n].Barrel:
		return above + below
	case slices.ContainsFunc(c.Parts, func(p CircuitPart) bool {
		return p.From == n && p.To == Outside || p.From == Outside && p.To == n
	}):
		return barrelLow + below
	}
	return barrelLow
}

// laid is where everything goes: a lane for each part, and for each node the
// lanes of its volume and instruments.
type laid struct {
	lanes       int
	part        []int
	instruments [][]int
}

// lay gives every part the first lane that is free on all the levels it crosses.
func (c Circuit) lay() laid {
	l := laid{part: make([]int, len(c.Parts)), instruments: make([][]int, len(c.Nodes))}
	taken := map[[2]int]bool{}   // lane and level below a node
	arrives := map[[2]int]bool{} // lane and node above which a line comes down
	place := func(i int, from, to int) {
		for lane := 0; ; lane++ {
			free := true
			for n := from; n < to; n++ {
				free = free && !taken[[2]int{lane, n}]
			}
			if !free {
				continue
			}
			for n := from; n < to; n++ {
				taken[[2]int{lane, n}] = true
				arrives[[2]int{lane, n + 1}] = n+1 < len(c.Nodes)
			}
			l.part[i], l.lanes = lane, max(l.lanes, lane+1)
			return
		}
	}
	// Lines between volumes first: they need the same lane on every level.
	for i, p := range c.Parts {
		if p.From != Outside && p.To != Outside && p.From != p.To {
			place(i, min(p.From, p.To), max(p.From, p.To))
		}
	}
	for i, p := range c.Parts {
		switch {
		case p.From == Outside:
			place(i, p.To, p.To+1)
		case p.To == Outside:
			place(i, p.From, p.From+1)
		}
		if p.From == Outside || p.To == Outside {
			delete(arrives, [2]int{l.part[i], max(p.From, p.To) + 1})
		}
	}
	// An outlet ends before the next level: no line comes down there.
	for i, p := range c.Parts {
		if p.From != Outside && p.To != Outside {
			for n := min(p.From, p.To); n < max(p.From, p.To); n++ {
				arrives[[2]int{l.part[i], n + 1}] = true
			}
		}
	}
	for n, node := range c.Nodes {
		lane := 0
		for range len(node.Instruments) + 1 { // the volume itself is the first
			for arrives[[2]int{lane, n}] {
				lane++
			}
			l.instruments[n] = append(l.instruments[n], lane)
			l.lanes = max(l.lanes, lane+1)
			lane++
		}
	}
	return l
}

func laneAt(lane int) vg.Length { return laneLeft + lanePitch*vg.Length(lane) }

// paint draws levels from the top.
func (c Circuit) paint(p pen, l laid) {
	levels := make([]vg.Length, len(c.Nodes))
	y := p.dc.Max.Y - 1*vg.Millimeter
	for n, node := range c.Nodes {
		levels[n] = y - above
		if node.Barrel {
			levels[n] = y - 4*vg.Millimeter
		}
		y -= c.nodeHeight(n)
	}
	for n, node := range c.Nodes {
		if node.Barrel {
			p.barrel(node, levels[n], c.reach(l, n))
			continue
		}
		from, to := c.span(l, n)
		p.line(from, levels[n], to, levels[n])
		for k, lane := range l.instruments[n] {
			x := laneAt(lane)
			if k == 0 {
				p.vessel(node, x, levels[n])
				continue
			}
			p.instrument(node.Instruments[k-1], x, levels[n])
		}
	}
	for i, part := range c.Parts {
		c.paintPart(p, part, laneAt(l.part[i]), levels)
	}
}

// span is the extent of a volume's line: from the first to the last lane on it.
func (c Circuit) span(l laid, n int) (from, to vg.Length) {
	first, last := l.instruments[n][0], l.instruments[n][0]
	for _, lane := range append(append([]int{}, l.instruments[n]...), c.joined(l, n)...) {
		first, last = min(first, lane), max(last, lane)
	}
	return laneAt(first), laneAt(last)
}

// reach is where the lines into the barrel come down.
func (c Circuit) reach(l laid, n int) []vg.Length {
	var out []vg.Length
	for i, p := range c.Parts {
		if (p.From == n || p.To == n) && p.From != Outside && p.To != Outside {
			out = append(out, laneAt(l.part[i]))
		}
	}
	return out
}

// joined lists the lanes of the parts that touch a node.
func (c Circuit) joined(l laid, n int) []int {
	var out []int
	for i, p := range c.Parts {
		if p.From == n || p.To == n {
			out = append(out, l.part[i])
		}
	}
	return out
}

// paintPart draws a part below the upper of its ends, and the line to the lower.
func (c Circuit) paintPart(p pen, part CircuitPart, x vg.Length, levels []vg.Length) {
	upper, lower := part.From, part.To
	reversed := upper == Outside || lower != Outside && lower < upper
	if reversed {
		upper, lower = lower, upper
	}
	top := levels[upper]
	if c.Nodes[upper].Barrel {
		top -= tubeLow
	}
	middle := top - 10*vg.Millimeter
	if !c.Nodes[upper].Barrel {
		p.dot(x, top)
	}
	p.line(x, top, x, middle+3*vg.Millimeter)
	p.symbol(part, x, middle, reversed)
	end := top - 24*vg.Millimeter
	if lower != Outside {
		end = levels[lower]
		if !c.Nodes[lower].Barrel {
			p.dot(x, end)
		}
	}
	p.line(x, middle-3*vg.Millimeter, x, end)
	if part.Hose {
		p.hoseMark(x, top-17*vg.Millimeter)
	}
	if lower == Outside {
		p.outlet(x, end)
	}
	if part.HoseNote != "" {
		p.note(x+2*vg.Millimeter, top-22.8*vg.Millimeter, part.HoseNote)
	}
	p.label(x+2*vg.Millimeter, top-16.5*vg.Millimeter, strconv.Itoa(part.Number)+" "+part.Name, part.Note)
}

// label writes a name and a smaller note under it, to the right of a line.
func (p pen) label(x, y vg.Length, name, note string) {
	p.text(x, y, fit(name, p.room(x), 8), 8, text.XLeft, color.Black)
	if note != "" {
		p.note(x, y-3.4*vg.Millimeter, note)
	}
}

// note writes a small line to the right of x.
func (p pen) note(x, y vg.Length, t string) {
	p.text(x, y, fit(t, p.room(x), 7), 7, text.XLeft, color.Gray{0x40})
}

// room is how wide a text from x may be.
func (p pen) room(x vg.Length) vg.Length {
	return min(lanePitch-4*vg.Millimeter, p.dc.Max.X-x-vg.Points(1))
}

// text writes one line; y is its middle.
func (p pen) text(x, y vg.Length, t string, points float64, align text.XAlignment, ink color.Color) {
	p.dc.FillText(words(points, ink, align, text.YCenter),
		vg.Point{X: x, Y: y}, t)
}
