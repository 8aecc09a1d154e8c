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
	OverTube    bool // a barrel that is a tube with a hollow rocket slid over it
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
	linePitch = 3.3 * vg.Millimeter // of the lines of a label

	rocketLong = 24 * vg.Millimeter // from tail to nose
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

// width is that of the drawing. A rocket over a tube stands to the right of all lines.
func (c Circuit) width(l laid) vg.Length {
	width := max(chartWidth+6*vg.Millimeter, laneLeft+lanePitch*vg.Length(l.lanes)-1*vg.Millimeter)
	for n, node := range c.Nodes {
		if node.Barrel && node.OverTube {
			width = max(width, c.tail(l, n)+rocketLong+24*vg.Millimeter)
		}
	}
	return width
}

// tail is where the tail of a rocket over its tube is: right of all that is joined to the tube.
func (c Circuit) tail(l laid, n int) vg.Length {
	x := 18 * vg.Millimeter
	for _, lane := range c.joined(l, n) {
		x = max(x, laneAt(lane)+4*vg.Millimeter)
	}
	return x
}

// nodeHeight is the room of a node: a barrel has parts below it only where it
// vents to the atmosphere by itself.
func (c Circuit) nodeHeight(n int) vg.Length {
	switch {
	case !c.Nodes[n].Barrel:
		return c.head(n) + c.foot(n)
	case slices.ContainsFunc(c.Parts, func(p CircuitPart) bool {
		return p.From == n && p.To == Outside || p.From == Outside && p.To == n
	}):
		return barrelLow + c.foot(n)
	}
	return barrelLow
}

// head is the room above a level: names of more than a line push it up.
func (c Circuit) head(n int) vg.Length {
	if c.Nodes[n].Barrel {
		return 4 * vg.Millimeter
	}
	lines := len(headerLines(c.Nodes[n].Name, c.Nodes[n].Note))
	for _, in := range c.Nodes[n].Instruments {
		lines = max(lines, len(headerLines(in.Name, in.Note)))
	}
	return above + linePitch*vg.Length(max(0, lines-2))
}

// foot is the room below a level: the label of a part has three lines in it, more push it down.
func (c Circuit) foot(n int) vg.Length {
	lines := 0
	for _, p := range c.Parts {
		if p.upper() == n {
			lines = max(lines, len(p.label()))
		}
	}
	return below + linePitch*vg.Length(max(0, lines-3))
}

// upper is the node that a part hangs from.
func (p CircuitPart) upper() int {
	if p.From == Outside || p.To != Outside && p.To < p.From {
		return p.To
	}
	return p.From
}

// labelLine is a line of a label.
type labelLine struct {
	text string
	size float64 // [pt]
}

// label is what stands beside a part, line by line: number and name, then its notes.
func (p CircuitPart) label() []labelLine {
	const room = lanePitch - 4*vg.Millimeter
	out := lined(nil, strconv.Itoa(p.Number)+" "+p.Name, room, 8)
	out = lined(out, p.Note, room, 7)
	out = lined(out, p.HoseNote, room, 7)
	if p.Exhaust != "" {
		out = lined(out, "exhaust to "+p.Exhaust, room, 7)
	}
	return out
}

// headerLines are a name and a note above a symbol.
func headerLines(name, note string) []labelLine {
	const room = lanePitch - 2*vg.Millimeter
	return lined(lined(nil, name, room, 8), note, room, 7)
}

// lined adds a text to lines.
func lined(to []labelLine, s string, room vg.Length, size float64) []labelLine {
	for _, l := range wrapName(s, room, size) {
		to = append(to, labelLine{l, size})
	}
	return to
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
	for n := range c.Nodes {
		levels[n] = y - c.head(n)
		y -= c.nodeHeight(n)
	}
	for n, node := range c.Nodes {
		switch {
		case node.Barrel && node.OverTube:
			p.rocket(node, levels[n], c.reach(l, n), c.tail(l, n))
			continue
		case node.Barrel:
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
	label := part.label()
	end := top - 24*vg.Millimeter - linePitch*vg.Length(max(0, len(label)-3))
	if lower != Outside {
		end = levels[lower]
		if !c.Nodes[lower].Barrel {
			p.dot(x, end)
		}
	}
	p.line(x, middle-3*vg.Millimeter, x, end)
	if part.Hose {
		p.hoseMark(x, top-16*vg.Millimeter)
	}
	if lower == Outside {
		p.outlet(x, end)
	}
	p.labelled(x+2*vg.Millimeter, top-16.5*vg.Millimeter, label)
}

// labelled writes the lines of a label downwards, to the right of a line.
func (p pen) labelled(x, y vg.Length, lines []labelLine) { p.label(x, y, lines, text.XLeft) }

// label writes the lines of a label downwards, small ones in grey.
func (p pen) label(x, y vg.Length, lines []labelLine, align text.XAlignment) {
	for _, l := range lines {
		ink := color.Color(color.Black)
		if l.size < 8 {
			ink = color.Gray{0x40}
		}
		p.text(x, y, l.text, l.size, align, ink)
		y -= linePitch
	}
}

// text writes one line; y is its middle.
func (p pen) text(x, y vg.Length, t string, points float64, align text.XAlignment, ink color.Color) {
	p.dc.FillText(words(points, ink, align, text.YCenter),
		vg.Point{X: x, Y: y}, t)
}
