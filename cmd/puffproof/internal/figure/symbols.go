package figure

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Symbols after ISO 1219-1:2012 (from memory), drawn with a module of 6 mm
// squares. Flow goes from the top to the bottom.

// pen draws symbols.
type pen struct{ dc draw.Canvas }

const mm = vg.Millimeter

// half is half the side of a valve's square.
const half = 3 * mm

func ink() draw.LineStyle  { return draw.LineStyle{Color: color.Black, Width: vg.Points(0.9)} }
func thin() draw.LineStyle { return draw.LineStyle{Color: color.Black, Width: vg.Points(0.6)} }

func (p pen) line(x0, y0, x1, y1 vg.Length) { p.dc.StrokeLine2(ink(), x0, y0, x1, y1) }

func (p pen) lines(style draw.LineStyle, pts ...vg.Point) { p.dc.StrokeLines(style, pts) }

func (p pen) box(x, y, w, h vg.Length) {
	p.lines(ink(), vg.Point{X: x, Y: y}, vg.Point{X: x + w, Y: y}, vg.Point{X: x + w, Y: y + h}, vg.Point{X: x, Y: y + h},
		vg.Point{X: x, Y: y})
}

func (p pen) dot(x, y vg.Length) { p.disc(x, y, 0.7*mm) }

func (p pen) disc(x, y, r vg.Length) {
	p.dc.SetColor(color.Black)
	p.dc.Fill(circleAt(x, y, r))
}

func (p pen) circle(x, y, r vg.Length) {
	p.dc.SetLineStyle(ink())
	p.dc.Stroke(circleAt(x, y, r))
}

func circleAt(x, y, r vg.Length) vg.Path {
	var path vg.Path
	path.Move(vg.Point{X: x + r, Y: y})
	path.Arc(vg.Point{X: x, Y: y}, r, 0, 2*math.Pi)
	path.Close()
	return path
}

// arrow is a line with a full head at its end.
func (p pen) arrow(x0, y0, x1, y1 vg.Length) {
	p.lines(thin(), vg.Point{X: x0, Y: y0}, vg.Point{X: x1, Y: y1})
	d := math.Hypot(float64(x1-x0), float64(y1-y0))
	ux, uy := vg.Length(float64(x1-x0)/d), vg.Length(float64(y1-y0)/d)
	const long, wide = 1.8 * mm, 0.7 * mm
	bx, by := x1-long*ux, y1-long*uy
	p.dc.FillPolygon(color.Black, []vg.Point{{X: x1, Y: y1}, {X: bx - wide*uy, Y: by + wide*ux}, {X: bx + wide*uy, Y: by - wide*ux}})
}

// spring is a zigzag to the right of x.
func (p pen) spring(x, y vg.Length) {
	pts := []vg.Point{{X: x, Y: y}}
	for k := range 6 {
		dy := 1.2 * mm
		if k%2 == 1 {
			dy = -dy
		}
		pts = append(pts, vg.Point{X: x + vg.Length(k+1)*0.7*mm, Y: y + dy})
	}
	p.lines(thin(), pts...)
}

// outlet is the open triangle of an exhaust to the atmosphere, below y.
func (p pen) outlet(x, y vg.Length) {
	p.lines(ink(), vg.Point{X: x - 1.6*mm, Y: y}, vg.Point{X: x + 1.6*mm, Y: y}, vg.Point{X: x, Y: y - 2.8*mm}, vg.Point{X: x - 1.6*mm, Y: y})
}

// hoseMark is the bow of a flexible line.
func (p pen) hoseMark(x, y vg.Length) {
	var path vg.Path
	path.Move(vg.Point{X: x - 2.6*mm, Y: y + 2*mm})
	path.Arc(vg.Point{X: x, Y: y + 3.5*mm}, 3*mm, math.Pi*1.2, math.Pi*0.6)
	p.dc.SetLineStyle(thin())
	p.dc.Stroke(path)
}

// vessel is an air receiver: a capsule on a short line above its level.
func (p pen) vessel(n CircuitNode, x, y vg.Length) {
	p.dot(x, y)
	p.line(x, y, x, y+4*mm)
	const r, w = 3 * mm, 5 * mm
	cy := y + 4*mm + r
	var path vg.Path
	path.Move(vg.Point{X: x - w, Y: cy - r})
	path.Line(vg.Point{X: x + w, Y: cy - r})
	path.Arc(vg.Point{X: x + w, Y: cy}, r, -math.Pi/2, math.Pi)
	path.Line(vg.Point{X: x - w, Y: cy + r})
	path.Arc(vg.Point{X: x - w, Y: cy}, r, math.Pi/2, math.Pi)
	path.Close()
	p.dc.SetLineStyle(ink())
	p.dc.Stroke(path)
	p.header(x, y+16.6*mm, n.Name, n.Note)
}

// header writes a name and a note above a symbol, upwards where they need more lines.
func (p pen) header(x, y vg.Length, name, note string) {
	lines := headerLines(name, note)
	if len(lines) > 1 {
		y += linePitch * vg.Length(len(lines)-2)
	}
	p.label(x, y, lines, text.XCenter)
}

// instrument stands on a level.
func (p pen) instrument(in Instrument, x, y vg.Length) {
	p.dot(x, y)
	p.line(x, y, x, y+4*mm)
	cy := y + 7*mm
	switch in.Kind {
	case GaugeSymbol:
		p.circle(x, cy, half)
		p.arrow(x-1.6*mm, cy-1.6*mm, x+1.9*mm, cy+1.9*mm)
	case SwitchSymbol:
		p.box(x-half, y+4*mm, 2*half, 2*half)
		p.lines(thin(), vg.Point{X: x - 2.2*mm, Y: cy - 0.6*mm}, vg.Point{X: x - 0.8*mm, Y: cy - 0.6*mm}, vg.Point{X: x + 1.2*mm, Y: cy + 1.2*mm})
		p.lines(thin(), vg.Point{X: x + 1*mm, Y: cy - 0.6*mm}, vg.Point{X: x + 2.2*mm, Y: cy - 0.6*mm})
		p.spring(x+half, cy)
	case CylinderSymbol:
		p.lines(ink(), vg.Point{X: x - 2*mm, Y: y + 4*mm}, vg.Point{X: x - 2*mm, Y: y + 9*mm}, vg.Point{X: x, Y: y + 11*mm},
			vg.Point{X: x + 2*mm, Y: y + 9*mm}, vg.Point{X: x + 2*mm, Y: y + 4*mm}, vg.Point{X: x - 2*mm, Y: y + 4*mm})
	default: // compressor, hand pump: a circle with an open triangle towards the line
		p.circle(x, cy, half)
		p.lines(ink(), vg.Point{X: x - 1.5*mm, Y: cy - 0.9*mm}, vg.Point{X: x, Y: cy - half}, vg.Point{X: x + 1.5*mm, Y: cy - 0.9*mm},
			vg.Point{X: x - 1.5*mm, Y: cy - 0.9*mm})
		if in.Kind == HandPumpSymbol {
			p.line(x+half, cy, x+half+3*mm, cy)
			p.line(x+half+3*mm, cy-1.5*mm, x+half+3*mm, cy+1.5*mm)
		}
	}
	p.header(x, y+16.6*mm, in.Name, in.Note)
}

// symbol draws a part; x, y is the middle of the square that the line runs into.
func (p pen) symbol(part CircuitPart, x, y vg.Length, reversed bool) {
	switch k := part.Kind; k {
	case ThreeWayClosedSymbol, ThreeWayOpenSymbol, ThreeWayStaysSymbol, ThreeWayHandSymbol:
		p.threeWay(part, x, y, reversed)
	case QuickExhaustSymbol:
		p.quickExhaust(part, x, y, reversed)
	case OrificeSymbol:
		p.line(x, y-half, x, y+half)
		p.bow(x-3.4*mm, y, 2.4*mm, -0.3*math.Pi)
		p.bow(x+3.4*mm, y, 2.4*mm, 0.7*math.Pi)
	case HoseSymbol:
		p.line(x, y-half, x, y+half)
		p.hoseMark(x, y)
	case CheckSymbol:
		p.check(x, y, reversed)
	case ReliefSymbol, RegulatorSymbol:
		p.pressureValve(k, x, y)
	default:
		p.valve(part, x, y)
	}
}

// bow is one side of a restriction.
func (p pen) bow(x, y, r vg.Length, start float64) {
	var path vg.Path
	path.Move(vg.Point{X: x + vg.Length(math.Cos(start))*r, Y: y + vg.Length(math.Sin(start))*r})
	path.Arc(vg.Point{X: x, Y: y}, r, start, 0.6*math.Pi)
	p.dc.SetLineStyle(ink())
	p.dc.Stroke(path)
}

// check is a ball in its seat: it passes from the seat's narrow side.
func (p pen) check(x, y vg.Length, reversed bool) {
	s := vg.Length(1)
	if reversed {
		s = -1
	}
	p.circle(x, y, 1.4*mm)
	p.line(x, y+s*2*mm, x-2*mm, y)
	p.line(x, y+s*2*mm, x+2*mm, y)
	p.line(x, y+s*2*mm, x, y+s*half)
	p.line(x, y-s*1.4*mm, x, y-s*half)
}

// valve is a 2/2 valve: the square with the connections is its position without
// power, next to the spring.
func (p pen) valve(part CircuitPart, x, y vg.Length) {
	k := part.Kind
	p.box(x-half, y-half, 2*half, 2*half)
	p.box(x-3*half, y-half, 2*half, 2*half)
	open, shut := x-2*half, x
	if k == ValveOpenSymbol {
		open, shut = shut, open
	}
	p.arrow(open, y+half, open, y-half)
	for _, s := range []vg.Length{1, -1} {
		p.line(shut, y+s*half, shut, y+s*1.5*mm)
		p.line(shut-1*mm, y+s*1.5*mm, shut+1*mm, y+s*1.5*mm)
	}
	p.actuators(x-3*half, x+half, y, actuation{lever: k == HandValveSymbol, both: k == ValveStaysSymbol, piloted: part.Piloted})
}

// coil is a solenoid 3 mm wide from x.
func (p pen) coil(x, y vg.Length) {
	p.box(x, y-1.8*mm, 3*mm, 3.6*mm)
	p.lines(thin(), vg.Point{X: x, Y: y + 1.8*mm}, vg.Point{X: x + 3*mm, Y: y - 1.8*mm})
}

// pressureValve is a relief valve, shut until its inlet lifts it, or a
// regulator, open until its outlet is high enough.
func (p pen) pressureValve(k PartKind, x, y vg.Length) {
	p.box(x-half, y-half, 2*half, 2*half)
	p.spring(x+half, y)
	p.arrow(x+half+0.4*mm, y-2.2*mm, x+half+3.8*mm, y+2.4*mm) // adjustable
	dashed := thin()
	dashed.Dashes = []vg.Length{vg.Points(2), vg.Points(1.5)}
	if k == ReliefSymbol {
		p.arrow(x-1.4*mm, y+half, x-1.4*mm, y-half)
		p.lines(dashed, vg.Point{X: x, Y: y + half + 1.5*mm}, vg.Point{X: x - half - 2*mm, Y: y + half + 1.5*mm},
			vg.Point{X: x - half - 2*mm, Y: y}, vg.Point{X: x - half, Y: y})
		return
	}
	p.arrow(x, y+half, x, y-half)
	p.lines(dashed, vg.Point{X: x, Y: y - half - 1.5*mm}, vg.Point{X: x - half - 2*mm, Y: y - half - 1.5*mm},
		vg.Point{X: x - half - 2*mm, Y: y}, vg.Point{X: x - half, Y: y})
}

// barrel is a tube with its projectile, open to the right; not in the standard.
func (p pen) barrel(n CircuitNode, y vg.Length, lines []vg.Length) {
	breech := 4 * mm
	axis := y - tubeAxis
	for _, x := range lines {
		p.line(x, y, x, axis+tubeHalf)
	}
	end := max(46*mm, p.dc.Max.X-44*mm)
	p.lines(ink(), vg.Point{X: end, Y: axis + tubeHalf}, vg.Point{X: breech, Y: axis + tubeHalf}, vg.Point{X: breech, Y: axis - tubeHalf},
		vg.Point{X: end, Y: axis - tubeHalf})
	ball := breech + 26*mm
	p.dc.SetColor(color.Gray{0xC8})
	p.dc.Fill(circleAt(ball, axis, 2.5*mm))
	p.circle(ball, axis, 2.5*mm)
	p.labelled(end+2*mm, axis+1.2*mm, lined(lined(nil, n.Name, 40*mm, 8), n.Note, 40*mm, 7))
}

// rocket is a launch tube with its mouth to the right and a hollow rocket slid over it, cut open along its axis; not in the
// standard.
func (p pen) rocket(n CircuitNode, y vg.Length, lines []vg.Length, tail vg.Length) {
	const breech, outer, bore = 4 * mm, 4.2 * mm, tubeHalf + 0.35*mm // half the rocket's width, and of its bore
	axis := y - tubeAxis
	for _, x := range lines {
		p.line(x, y, x, axis+tubeHalf)
	}
	mouth, shoulder, nose := tail+14*mm, tail+16*mm, tail+rocketLong
	var foam vg.Path
	foam.Move(vg.Point{X: tail, Y: axis + bore})
	foam.Line(vg.Point{X: tail, Y: axis + outer + 1.4*mm}) // a fin
	foam.Line(vg.Point{X: tail + 4*mm, Y: axis + outer})
	foam.Line(vg.Point{X: shoulder, Y: axis + outer})
	foam.CubeTo(vg.Point{X: shoulder + 5*mm, Y: axis + outer}, vg.Point{X: nose, Y: axis + 0.5*outer}, vg.Point{X: nose, Y: axis})
	foam.CubeTo(vg.Point{X: nose, Y: axis - 0.5*outer}, vg.Point{X: shoulder + 5*mm, Y: axis - outer}, vg.Point{X: shoulder, Y: axis - outer})
	foam.Line(vg.Point{X: tail + 4*mm, Y: axis - outer})
	foam.Line(vg.Point{X: tail, Y: axis - outer - 1.4*mm})
	foam.Line(vg.Point{X: tail, Y: axis - bore})
	foam.Line(vg.Point{X: shoulder, Y: axis - bore})
	foam.Line(vg.Point{X: shoulder, Y: axis + bore})
	foam.Close()
	p.dc.SetColor(color.Gray{0xC8})
	p.dc.Fill(foam)
	p.dc.SetLineStyle(thin())
	p.dc.Stroke(foam)
	p.lines(ink(), vg.Point{X: mouth, Y: axis + tubeHalf}, vg.Point{X: breech, Y: axis + tubeHalf}, vg.Point{X: breech, Y: axis - tubeHalf},
		vg.Point{X: mouth, Y: axis - tubeHalf})
	p.labelled(nose+2*mm, axis+1.2*mm, lined(lined(nil, n.Name, 22*mm, 8), n.Note, 22*mm, 7))
}
