package figure

import "gonum.org/v1/plot/vg"

// actuation is what moves a valve.
type actuation struct {
	lever   bool // a hand
	both    bool // a coil on either side, no spring
	piloted bool // coil or hand move a pilot
}

// actuators stand on the left and right edges of a valve's squares: a lever, a coil and
// a spring, or a coil on either side; a pilot is a triangle between.
func (p pen) actuators(left, right, y vg.Length, by actuation) {
	if by.piloted {
		p.pilot(left-2.4*mm, y)
		left -= 2.4 * mm
	}
	switch {
	case by.lever:
		p.line(left, y, left-2*mm, y)
		p.line(left-2*mm, y-1*mm, left-1*mm, y+2.6*mm)
		return
	case by.both:
		p.coil(right, y)
	default:
		p.spring(right, y)
	}
	p.coil(left-3*mm, y)
}

// pilot is the box of a pneumatic pilot from x, 2.4 mm wide, with the open triangle of
// air that acts to the right.
func (p pen) pilot(x, y vg.Length) {
	p.box(x, y-1.8*mm, 2.4*mm, 3.6*mm)
	p.lines(thin(), vg.Point{X: x + 0.5*mm, Y: y - 1.1*mm}, vg.Point{X: x + 1.9*mm, Y: y}, vg.Point{X: x + 0.5*mm, Y: y + 1.1*mm},
		vg.Point{X: x + 0.5*mm, Y: y - 1.1*mm})
}

// portGap is the distance of the two ports on one side of a square.
const portGap = 3 * mm

// threeWay is a 3/2 valve: inlet and exhaust on one side, the outlet on the other. The
// line runs through inlet and outlet; the square with the connections is the position
// without power.
func (p pen) threeWay(part CircuitPart, x, y vg.Length, reversed bool) {
	inlet := half // from the middle to the inlet's side
	if reversed {
		inlet = -half
	}
	const left = -1.5 * mm // of the square at rest, from its inlet
	p.box(x+left, y-half, 2*half, 2*half)
	p.box(x+left-2*half, y-half, 2*half, 2*half)
	through, vents := x-2*half, x
	if part.Kind == ThreeWayOpenSymbol {
		through, vents = vents, through
	}
	p.arrow(through, y+inlet, through, y-inlet)
	p.blocked(through+portGap, y, inlet)
	p.arrow(vents, y-inlet, vents+portGap, y+inlet)
	p.blocked(vents, y, inlet)
	p.actuators(x+left-2*half, x+left+2*half, y,
		actuation{lever: part.Kind == ThreeWayHandSymbol, both: part.Kind == ThreeWayStaysSymbol, piloted: part.Piloted})
	p.exhaustPort(x+portGap, y+inlet, inlet, part.Exhaust)
}

// quickExhaust is a shuttle between two seats: that of the inlet, above it, and that of
// the exhaust beside it; the outlet is open to it from below.
func (p pen) quickExhaust(part CircuitPart, x, y vg.Length, reversed bool) {
	s := vg.Length(1)
	if reversed {
		s = -1
	}
	p.box(x-half, y-half, 2*half+2*mm, 2*half)
	p.circle(x, y, 1.3*mm)
	p.line(x, y+s*half, x, y+s*1.9*mm) // inlet
	p.line(x, y+s*1.9*mm, x-1.6*mm, y+s*0.3*mm)
	p.line(x, y+s*1.9*mm, x+1.6*mm, y+s*0.3*mm)
	p.line(x, y-s*half, x, y-s*1.3*mm)                       // outlet
	p.lines(ink(), vg.Point{X: x + 1.8*mm, Y: y - s*1.2*mm}, // exhaust
		vg.Point{X: x + 3.2*mm, Y: y}, vg.Point{X: x + 1.8*mm, Y: y + s*1.2*mm})
	p.line(x+3.2*mm, y, x+half+3*mm, y)
	if part.Exhaust != "" {
		p.dot(x+half+3*mm, y) // a line from it leads on: the label says where to
		return
	}
	right := x + half + 3*mm
	p.lines(ink(), vg.Point{X: right, Y: y - 1.2*mm}, vg.Point{X: right, Y: y + 1.2*mm}, vg.Point{X: right + 2*mm, Y: y},
		vg.Point{X: right, Y: y - 1.2*mm})
}

// blocked is the bar of a shut port inside a square.
func (p pen) blocked(x, y, side vg.Length) {
	p.line(x, y+side, x, y+side/2)
	p.line(x-1*mm, y+side/2, x+1*mm, y+side/2)
}

// exhaustPort is the triangle of an exhaust at the port at y, outwards in the sense of
// side; or the beginning of a line from it: the label says where to.
func (p pen) exhaustPort(x, y, side vg.Length, to string) {
	out := side / half // one millimetre outwards per millimetre
	p.line(x, y, x, y+out*1*mm)
	if to != "" {
		p.dot(x, y+out*1*mm)
		return
	}
	base := y + out*1*mm
	p.lines(ink(), vg.Point{X: x - 1.2*mm, Y: base}, vg.Point{X: x + 1.2*mm, Y: base}, vg.Point{X: x, Y: base + out*2*mm},
		vg.Point{X: x - 1.2*mm, Y: base})
}
