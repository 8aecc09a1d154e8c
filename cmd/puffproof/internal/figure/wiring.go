package figure

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Wiring is the ways that current takes from the source, at the left, through contacts to coils and motors, at the right. It is
// drawn without current, switched off, with nothing pressed. Contacts that two ways begin with are one, and drawn once.
type Wiring struct {
	Ways []WiringWay
}

// WiringWay is the way to one coil or motor.
type WiringWay struct {
	Steps []WiringStep
	End   WiringEnd
}

// WiringStep is what current passes at one place: one contact, or several side by side.
type WiringStep []WiringContact

// WiringContact is a contact, or a fuse.
type WiringContact struct {
	Name   string
	Kind   ContactKind
	Closed bool // without current, switched off, with nothing pressed
}

// WiringEnd is a coil or a motor.
type WiringEnd struct {
	Name, Note string
	Kind       EndKind
}

// ContactKind is what moves a contact.
type ContactKind uint8

// What moves a contact; a fuse is none.
const (
	RelayContact ContactKind = iota
	FuseSymbol
	MushroomContact // an emergency stop
	KeyContact
	PushContact
	RemoteContact
	TimerContact
	MovedContact // by a lever, a lid, a brake
	PressureContact
)

// EndKind is what current ends in.
type EndKind uint8

// What current ends in.
const (
	RelayCoil EndKind = iota
	ValveCoil
	Motor
)

// Symbols of contacts, coils and fuses after IEC 60617 (from memory); the actuators are those of its mechanical controls.
const (
	wiringLeft  = 7 * mm // the source's bus
	wiringTop   = 5 * mm
	wiringAbove = 8 * mm   // a symbol with what moves it
	wiringLead  = 2.5 * mm // from one line of a name to the next
	terminal    = 3 * mm   // from the middle of a contact
	leastColumn = 13 * mm
	mostColumn  = 24 * mm
	endColumn   = 27 * mm
	wiringFont  = 6.5
)

// branch is a step of the ways that begin alike.
type branch struct {
	step WiringStep
	next []*branch
	end  *WiringEnd // of the last step
}

// branches joins ways as far as they begin alike.
func branches(ways []WiringWay) (out []*branch) {
	for i := range ways {
		into, b := &out, (*branch)(nil)
		for _, step := range ways[i].Steps {
			k := slices.IndexFunc(*into, func(b *branch) bool { return b.end == nil && slices.Equal(b.step, step) })
			if k < 0 {
				k = len(*into)
				*into = append(*into, &branch{step: step})
			}
			b = (*into)[k]
			into = &b.next
		}
		*into = append(*into, &branch{end: &ways[i].End})
	}
	return out
}

// extent is how much room the contacts of a branch's first line take downwards, with their names.
func (b *branch) extent(column vg.Length) vg.Length {
	if b.end != nil {
		lines := len(b.end.lines())
		return wiringAbove + 4.6*mm + wiringLead*vg.Length(lines)
	}
	_, own := b.step.drops(column)
	return max(own, b.next[0].extent(column))
}

// height is how much room a branch takes downwards.
func (b *branch) height(column vg.Length) vg.Length {
	h := b.extent(column)
	for i, n := range b.next {
		if i == 0 { // its own contacts stand on this line
			h = max(h, n.height(column))
		} else {
			h += n.height(column)
		}
	}
	return h
}

// drops are how far below the first each contact of a step stands, and all of them reach.
func (s WiringStep) drops(column vg.Length) (drops []vg.Length, reach vg.Length) {
	for _, c := range s {
		drops = append(drops, reach)
		reach += max(13*mm, wiringAbove+2.6*mm+wiringLead*vg.Length(len(nameLines(c.Name, column))))
	}
	return drops, reach
}

func nameLines(name string, column vg.Length) []string {
	return wrapName(name, column-1.5*mm, wiringFont)
}

func (e *WiringEnd) lines() []string {
	return append(wrapName(e.Name, endColumn-2*mm, wiringFont), wrapName(e.Note, endColumn-2*mm, wiringFont)...)
}

func (w Wiring) deepest() (n int) {
	for _, way := range w.Ways {
		n = max(n, len(way.Steps))
	}
	return n
}

// column is the width of a step.
func (w Wiring) column() vg.Length {
	room := claimWidth - wiringLeft - endColumn - 4*mm
	return min(mostColumn, max(leastColumn, room/vg.Length(max(w.deepest(), 1))))
}

func (w Wiring) width() vg.Length {
	return wiringLeft + w.column()*vg.Length(w.deepest()) + endColumn + 4*mm
}

// Draw makes the drawing. ErrNoCurve where there is no way.
func (w Wiring) Draw() (*Drawing, error) {
	if len(w.Ways) == 0 {
		return nil, ErrNoCurve
	}
	roots := branches(w.Ways)
	height := wiringTop
	for _, b := range roots {
		height += b.height(w.column())
	}
	return newDrawing(w.width(), height, func(dc draw.Canvas) error {
		w.paint(pen{dc}, roots)
		return nil
	})
}

func (w Wiring) paint(p pen, roots []*branch) {
	l := ladder{pen: p, column: w.column(), right: p.dc.Max.X - 3*mm}
	y := p.dc.Max.Y - wiringTop - 6*mm
	first, last := y, l.branches(roots, wiringLeft, y)
	p.line(wiringLeft, first+4*mm, wiringLeft, last-2*mm)
	p.line(l.right, first+4*mm, l.right, l.lowest-2*mm)
	p.text(wiringLeft, first+6*mm, "+", 8, text.XCenter, color.Black)
	p.text(l.right, first+6*mm, "0", 8, text.XCenter, color.Black)
}

// ladder draws branches.
type ladder struct {
	pen
	column, right vg.Length
	lowest        vg.Length // line drawn
}

// branches draws what begins at one point, and gives the line of the last.
func (l *ladder) branches(all []*branch, x, y vg.Length) vg.Length {
	first, last := y, y
	for _, b := range all {
		last = y
		if len(all) > 1 || x == wiringLeft {
			l.dot(x, y)
		}
		l.branch(b, x, y)
		y -= b.height(l.column)
	}
	if x > wiringLeft && len(all) > 1 {
		l.line(x, first, x, last)
	}
	return last
}

func (l *ladder) branch(b *branch, x, y vg.Length) {
	l.lowest = y
	if b.end != nil {
		l.end(b.end, x, y)
		return
	}
	to := x + l.column
	l.step(b.step, x, to, y)
	l.branches(b.next, to, y)
}

// step draws contacts side by side between two points of a line.
func (l *ladder) step(s WiringStep, x, to, y vg.Length) {
	middle, inset := (x+to)/2, 1.2*mm
	drops, _ := s.drops(l.column)
	for i, c := range s {
		at, from, until := y-drops[i], x, to
		if i > 0 {
			from, until = x+inset, to-inset
		}
		l.line(from, at, middle-terminal, at)
		l.line(middle+terminal, at, until, at)
		l.contact(c, middle, at)
		l.names(nameLines(c.Name, l.column), middle, at-2.6*mm, color.Black)
	}
	if n := len(s) - 1; n > 0 {
		for _, at := range [...]vg.Length{x + inset, to - inset} {
			l.dot(at, y)
			l.line(at, y, at, y-drops[n])
		}
	}
}

// names writes the lines of a name under a symbol, and gives where the next would stand.
func (l *ladder) names(lines []string, x, y vg.Length, ink color.Color) vg.Length {
	for _, line := range lines {
		l.text(x, y, line, wiringFont, text.XCenter, ink)
		y -= wiringLead
	}
	return y
}

// contact draws a contact between its terminals.
func (l *ladder) contact(c WiringContact, x, y vg.Length) {
	if c.Kind == FuseSymbol {
		l.box(x-terminal, y-1.2*mm, 2*terminal, 2.4*mm)
		l.line(x-terminal, y, x+terminal, y)
		return
	}
	tip := vg.Point{X: x + terminal - 0.6*mm, Y: y + 2.4*mm}
	if c.Closed { // it rests on the far side of its terminal
		l.line(x+terminal, y, x+terminal, y+1.6*mm)
		tip = vg.Point{X: x + terminal + 0.9*mm, Y: y + 1.9*mm}
	}
	l.line(x-terminal, y, tip.X, tip.Y)
	if c.Kind == RelayContact {
		return
	}
	blade, top := y+0.5*(tip.Y-y), y+4.6*mm
	dashed := thin()
	dashed.Dashes = []vg.Length{vg.Points(1.8), vg.Points(1.2)}
	l.lines(dashed, vg.Point{X: x, Y: blade}, vg.Point{X: x, Y: top})
	l.actuator(c.Kind, x, top)
}

// actuator draws what moves a contact, above its dashed link.
func (l *ladder) actuator(k ContactKind, x, y vg.Length) {
	arc := func(r vg.Length, from, angle float64) {
		var path vg.Path
		path.Move(vg.Point{X: x + r*vg.Length(math.Cos(from)), Y: y + r*vg.Length(math.Sin(from))})
		path.Arc(vg.Point{X: x, Y: y}, r, from, angle)
		l.dc.SetLineStyle(thin())
		l.dc.Stroke(path)
	}
	at := func(dx, dy vg.Length) vg.Point { return vg.Point{X: x + dx*mm, Y: y + dy*mm} }
	switch k {
	case MushroomContact:
		arc(1.9*mm, 0, math.Pi)
		l.lines(thin(), at(-1.9, 0), at(1.9, 0))
	case PushContact:
		l.lines(thin(), at(-1.7, -0.8), at(-1.7, 0), at(1.7, 0), at(1.7, -0.8))
	case KeyContact:
		l.dc.SetLineStyle(thin())
		l.dc.Stroke(circleAt(x, y+0.9*mm, 0.9*mm))
		l.lines(thin(), at(-1.4, 0), at(1.4, 0))
	case RemoteContact: // an aerial
		l.lines(thin(), at(0, 0), at(-1.3, 1.6), at(1.3, 1.6), at(0, 0))
	case TimerContact:
		arc(1.5*mm, math.Pi, math.Pi)
	case PressureContact:
		l.lines(thin(), at(-1.4, 0), at(1.4, 0), at(1.4, 2.4), at(-1.4, 2.4), at(-1.4, 0))
		l.text(x, y+1.3*mm, "p", 6, text.XCenter, color.Black)
	default: // a roller
		l.dc.SetLineStyle(thin())
		l.dc.Stroke(circleAt(x, y+0.8*mm, 0.8*mm))
	}
}

// end draws a coil or a motor, up to the other bus.
func (l *ladder) end(e *WiringEnd, x, y vg.Length) {
	middle := l.right - endColumn/2
	side := 2 * mm
	if e.Kind == Motor {
		side = 3 * mm
	}
	l.line(x, y, middle-side, y)
	l.line(middle+side, y, l.right, y)
	l.dot(l.right, y)
	switch e.Kind {
	case Motor:
		l.circle(middle, y, 3*mm)
		l.text(middle, y, "M", 7, text.XCenter, color.Black)
	case ValveCoil:
		l.lines(thin(), vg.Point{X: middle - 2*mm, Y: y - 3*mm}, vg.Point{X: middle + 2*mm, Y: y + 3*mm})
		fallthrough
	default:
		l.box(middle-2*mm, y-3*mm, 4*mm, 6*mm)
	}
	at := l.names(wrapName(e.Name, endColumn-2*mm, wiringFont), middle, y-4.6*mm, color.Black)
	l.names(wrapName(e.Note, endColumn-2*mm, wiringFont), middle, at, color.Gray{0x40})
}
