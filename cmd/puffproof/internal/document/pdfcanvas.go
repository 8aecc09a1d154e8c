package document

import (
	"image"
	"image/color"
	"math"

	"codeberg.org/go-pdf/fpdf"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"

	"puffproof/cmd/puffproof/internal/show"
)

// figures writes the figure at i, and the next one beside it where both fit on
// one line; it says how many of the following blocks it wrote.
func (w *pdfWriter) figures(blocks []Block, i int) int {
	first := blocks[i].(Figure)
	if i+1 < len(blocks) {
		if second, ok := blocks[i+1].(Figure); ok && first.width()+second.width() <= textWidth+8 {
			half := (textWidth - 4) / 2
			w.room(max(w.figureHeight(first, half), w.figureHeight(second, half)))
			y := w.pdf.GetY()
			a := w.figure(first, marginSide, y, half)
			b := w.figure(second, marginSide+half+4, y, half)
			w.pdf.SetY(max(a, b) + 2)
			return 1
		}
	}
	width := min(first.width()*1.05, textWidth)
	if smaller := w.fitted(first, pageFloor-w.pdf.GetY()); smaller > 0 && w.figureHeight(first, width) > pageFloor-w.pdf.GetY() {
		width = smaller
	}
	w.room(w.figureHeight(first, width))
	w.pdf.SetY(w.figure(first, marginSide, w.pdf.GetY(), width) + 2)
	return 0
}

// figureAside draws a figure at the right margin, its caption below; what follows goes on beside it.
func (w *pdfWriter) figureAside(f Figure) {
	const gap = 4.0
	width := f.width()
	lines := w.set.lines(Own(f.Caption), 7, width)
	_, height := f.Drawing.Size()
	height += float64(len(lines)) * leading(7)
	w.room(height)
	y := w.pdf.GetY()
	c := newPDFCanvas(w.pdf, &w.set, marginSide+textWidth-width, y, height-float64(len(lines))*leading(7), 1)
	if err := f.Drawing.Replay(c); err != nil && w.err == nil {
		w.err = err
	}
	w.set.ink(toneInk(show.Faint))
	w.set.draw(lines, marginSide+textWidth-width, y+height-float64(len(lines))*leading(7), 7)
	w.set.ink(toneInk(show.Neutral))
	w.aside = [2]float64{width + gap, y + height}
	w.pdf.SetY(y)
}

// leastScale is how small a figure may get to stay on its page: type of 8 pt is then 6.4 pt.
const leastScale = 0.8

// fitted is the width at which a figure fits into a height [mm]; 0 where it would be too small.
func (w *pdfWriter) fitted(f Figure, height float64) float64 {
	dw, dh := f.Drawing.Size()
	caption := w.figureHeight(f, leastScale*dw) - leastScale*dh
	scale := (height - caption) / dh
	if scale < leastScale {
		return 0
	}
	return min(scale*dw, dw*1.05, textWidth)
}

func (f Figure) width() float64 {
	width, _ := f.Drawing.Size()
	return width
}

func (w *pdfWriter) figureHeight(f Figure, width float64) float64 {
	dw, dh := f.Drawing.Size()
	return dh*width/dw + float64(len(w.set.lines(Own(f.Caption), 8, max(width, 80))))*leading(8) + 2
}

// figure draws a figure and its caption and gives the height where it ends.
func (w *pdfWriter) figure(f Figure, x, y, width float64) float64 {
	dw, dh := f.Drawing.Size()
	scale := width / dw
	c := newPDFCanvas(w.pdf, &w.set, x, y, dh, scale)
	if err := f.Drawing.Replay(c); err != nil && w.err == nil {
		w.err = err
	}
	w.pdf.SetDashPattern(nil, 0)
	y += dh*scale + 1
	lines := w.set.lines(Own(f.Caption), 8, max(width, 80))
	w.set.ink(toneInk(show.Faint))
	w.set.draw(lines, x, y, 8)
	w.set.ink(toneInk(show.Neutral))
	return y + float64(len(lines))*leading(8)
}

// pdfCanvas is a canvas of package vg on a page. vg counts points from the lower
// left corner upwards, the page millimetres from the upper left downwards.
type pdfCanvas struct {
	pdf   *fpdf.Fpdf
	set   *typesetter
	now   canvasState
	stack []canvasState
}

// canvasState is what Push saves. A point (px, py) goes to
// (a px + c py + e, b px + d py + f) [mm].
type canvasState struct {
	a, b, c, d, e, f float64
	width            vg.Length
	dash             []vg.Length
	offset           vg.Length
	ink              color.Color
}

func newPDFCanvas(pdf *fpdf.Fpdf, set *typesetter, x, y, height, scale float64) *pdfCanvas {
	k := scale * 25.4 / 72
	return &pdfCanvas{pdf: pdf, set: set, now: canvasState{a: k, d: -k, e: x, f: y + height*scale, width: 1, ink: color.Black}}
}

func (c *pdfCanvas) SetLineWidth(w vg.Length) { c.now.width = w }

func (c *pdfCanvas) SetLineDash(pattern []vg.Length, offset vg.Length) {
	c.now.dash, c.now.offset = append([]vg.Length(nil), pattern...), offset
}

func (c *pdfCanvas) SetColor(ink color.Color) {
	if ink == nil {
		ink = color.Black
	}
	c.now.ink = ink
}

func (c *pdfCanvas) Rotate(rad float64) {
	s, k := math.Sincos(rad)
	n := &c.now
	n.a, n.b, n.c, n.d = n.a*k+n.c*s, n.b*k+n.d*s, n.c*k-n.a*s, n.d*k-n.b*s
}

func (c *pdfCanvas) Translate(p vg.Point) { c.now.e, c.now.f = c.at(p) }

func (c *pdfCanvas) Scale(x, y float64) {
	c.now.a, c.now.b, c.now.c, c.now.d = c.now.a*x, c.now.b*x, c.now.c*y, c.now.d*y
}

func (c *pdfCanvas) Push() { c.stack = append(c.stack, c.now) }

func (c *pdfCanvas) Pop() { c.now, c.stack = c.stack[len(c.stack)-1], c.stack[:len(c.stack)-1] }

// at is the place of a point on the page [mm].
func (c *pdfCanvas) at(p vg.Point) (x, y float64) {
	px, py := float64(p.X), float64(p.Y)
	return c.now.a*px + c.now.c*py + c.now.e, c.now.b*px + c.now.d*py + c.now.f
}

// scale is how long a point is [mm].
func (c *pdfCanvas) scale() float64 { return math.Hypot(c.now.a, c.now.b) }

func (c *pdfCanvas) rgb() (r, g, b int) {
	x, y, z, _ := c.now.ink.RGBA()
	return int(x >> 8), int(y >> 8), int(z >> 8)
}

// Stroke draws a path's line; a width that is not positive draws nothing.
func (c *pdfCanvas) Stroke(p vg.Path) {
	if c.now.width <= 0 {
		return
	}
	k := c.scale()
	c.pdf.SetDrawColor(c.rgb())
	c.pdf.SetLineWidth(float64(c.now.width) * k)
	dash := make([]float64, len(c.now.dash))
	for i, d := range c.now.dash {
		dash[i] = float64(d) * k
	}
	c.pdf.SetDashPattern(dash, float64(c.now.offset)*k)
	c.path(p)
	c.pdf.DrawPath("D")
	c.pdf.SetDashPattern(nil, 0)
}

// Fill fills a path.
func (c *pdfCanvas) Fill(p vg.Path) {
	c.pdf.SetFillColor(c.rgb())
	c.path(p)
	c.pdf.DrawPath("F")
}

func (c *pdfCanvas) path(p vg.Path) {
	drawn := false
	for _, comp := range p {
		x, y := c.at(comp.Pos)
		switch comp.Type {
		case vg.MoveComp:
			c.pdf.MoveTo(x, y)
		case vg.LineComp:
			c.pdf.LineTo(x, y)
		case vg.ArcComp:
			c.arc(comp, drawn)
		case vg.CurveComp:
			c.curve(comp)
		case vg.CloseComp:
			c.pdf.ClosePath()
		}
		drawn = true
	}
}

// arc is drawn in cubic curves of at most a quarter turn: their error is below
// 3e-4 of the radius (a standard construction, handle 4/3 tan(angle/4)).
func (c *pdfCanvas) arc(comp vg.PathComp, joined bool) {
	n := max(1, int(math.Ceil(math.Abs(comp.Angle)/(math.Pi/2)-1e-9)))
	step := comp.Angle / float64(n)
	handle := 4.0 / 3 * math.Tan(step/4)
	r := float64(comp.Radius)
	point := func(angle, along float64) vg.Point {
		s, k := math.Sincos(angle)
		return vg.Point{X: comp.Pos.X + vg.Length(r*(k-along*s)), Y: comp.Pos.Y + vg.Length(r*(s+along*k))}
	}
	x, y := c.at(point(comp.Start, 0))
	if joined {
		c.pdf.LineTo(x, y)
	} else {
		c.pdf.MoveTo(x, y)
	}
	for i := range n {
		from := comp.Start + step*float64(i)
		x1, y1 := c.at(point(from, handle))
		x2, y2 := c.at(point(from+step, -handle))
		x3, y3 := c.at(point(from+step, 0))
		c.pdf.CurveBezierCubicTo(x1, y1, x2, y2, x3, y3)
	}
}

func (c *pdfCanvas) curve(comp vg.PathComp) {
	x, y := c.at(comp.Pos)
	switch len(comp.Control) {
	case 1:
		qx, qy := c.at(comp.Control[0])
		c.pdf.CurveTo(qx, qy, x, y)
	case 2:
		x1, y1 := c.at(comp.Control[0])
		x2, y2 := c.at(comp.Control[1])
		c.pdf.CurveBezierCubicTo(x1, y1, x2, y2, x, y)
	}
}

// FillString writes text from p to the right, turned as the canvas is.
func (c *pdfCanvas) FillString(f font.Face, p vg.Point, s string) {
	size := float64(f.Font.Size) * c.scale() * 72 / 25.4
	if size <= 0 {
		return
	}
	x, y := c.at(p)
	c.pdf.SetFont(fontSans, "", size)
	c.pdf.SetTextColor(c.rgb())
	angle := math.Atan2(-c.now.b, c.now.a) * 180 / math.Pi
	if math.Abs(angle) > 1e-6 {
		c.pdf.TransformBegin()
		c.pdf.TransformRotate(angle, x, y)
		defer c.pdf.TransformEnd()
	}
	c.pdf.Text(x, y, c.set.shown(s))
}

// DrawImage is not used: every figure is made of lines and text.
func (c *pdfCanvas) DrawImage(vg.Rectangle, image.Image) { panic("document: a figure holds an image") }
