package figure

import (
	"image/color"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
)

// actuators stand on the left and right edges of a valve's squares: a lever, a coil and
// a spring, or a coil on either side.
func (p pen) actuators(left, right, y vg.Length, lever, both bool) {
	switch {
	case lever:
		p.line(left, y, left-2*mm, y)
		p.line(left-2*mm, y-1*mm, left-1*mm, y+2.6*mm)
		return
	case both: // no spring
		p.coil(right, y)
	default:
		p.spring(right, y)
	}
	p.coil(left-3*mm, y)
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
	p.actuators(x+left-2*half, x+left+2*half, y, part.Kind == ThreeWayHandSymbol, part.Kind == ThreeWayStaysSymbol)
	p.exhaustPort(x+portGap, y+inlet, inlet, part.Exhaust)
}

// blocked is the bar of a shut port inside a square.
func (p pen) blocked(x, y, side vg.Length) {
	p.line(x, y+side, x, y+side/2)
	p.line(x-1*mm, y+side/2, x+1*mm, y+side/2)
}

// exhaustPort is the triangle of an exhaust at the port at y, outwards in the sense of
// side; or the name of where a line from it leads.
func (p pen) exhaustPort(x, y, side vg.Length, to string) {
	out := side / half // one millimetre outwards per millimetre
	p.line(x, y, x, y+out*1*mm)
	if to != "" {
		p.text(x+1*mm, y+out*2*mm, fit("to "+to, lanePitch/2, 7), 7, text.XLeft, color.Gray{0x40})
		return
	}
	base := y + out*1*mm
	p.lines(ink(), vg.Point{X: x - 1.2*mm, Y: base}, vg.Point{X: x + 1.2*mm, Y: base}, vg.Point{X: x, Y: base + out*2*mm},
		vg.Point{X: x - 1.2*mm, Y: base})
}
