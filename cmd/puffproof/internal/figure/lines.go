package figure

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Line is one curve, or one cloud of dots, in the units shown.
type Line struct {
	Name string // written beside it
	X, Y []float64
	Dots bool
}

// Lines is a figure of several curves over one axis.
type Lines struct {
	Title string
	X, Y  string // labels of the axes, with their units
	Lines []Line
}

// LinesSVG draws curves as an SVG document.
func LinesSVG(l Lines) ([]byte, error) {
	if err := l.check(); err != nil {
		return nil, err
	}
	return svg(shotWidth, shotHeight, l.draw)
}

// draw draws the curves on a canvas of any kind.
func (l Lines) draw(dc draw.Canvas) error {
	head := title(dc, l.Title)
	p := plot.New()
	house(p)
	p.X.Label.Text, p.Y.Label.Text = l.X, l.Y
	p.Y.Label.Padding = vg.Points(3)
	p.Add(grid())
	low, high := plotter.XY{}, plotter.XY{}
	for i, one := range l.Lines {
		ink := inks()[i%len(inks())]
		pts := points(one.X, one.Y)
		for k := range pts {
			low.X, high.X = math.Min(low.X, pts[k].X), math.Max(high.X, pts[k].X)
			low.Y, high.Y = math.Min(low.Y, pts[k].Y), math.Max(high.Y, pts[k].Y)
		}
		if one.Dots {
			p.Add(&plotter.Scatter{XYs: pts, GlyphStyle: draw.GlyphStyle{Color: ink, Radius: vg.Points(2.2), Shape: draw.CircleGlyph{}}})
		} else {
			p.Add(&plotter.Line{XYs: pts, LineStyle: draw.LineStyle{Color: ink, Width: vg.Points(1.6)}})
		}
	}
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = low.X, 1.02*high.X, low.Y, 1.08*high.Y
	if p.X.Max <= p.X.Min {
		p.X.Max = p.X.Min + 1
	}
	if p.Y.Max <= p.Y.Min {
		p.Y.Max = p.Y.Min + 1
	}
	p.Add(names{l.Lines})
	p.Draw(draw.Crop(dc, 3*vg.Millimeter, -4*vg.Millimeter, 2*vg.Millimeter, -head))
	return nil
}

// names writes the curves' names in their colours, in the corner where the
// fewest points lie, one below the other.
type names struct{ lines []Line }

// Plot draws the names.
func (n names) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	size := vg.Points(9)
	style := func(i int) text.Style {
		return words(9, inks()[i%len(inks())], text.XLeft, text.YTop)
	}
	width, height := vg.Length(0), vg.Length(len(n.lines))*1.3*size
	for i, l := range n.lines {
		width = max(width, style(i).Width(l.Name))
	}
	pad := vg.Points(5)
	corners := []vg.Point{{X: c.Max.X - width - pad, Y: c.Max.Y - pad}, {X: c.Min.X + pad, Y: c.Max.Y - pad},
		{X: c.Max.X - width - pad, Y: c.Min.Y + height + pad}, {X: c.Min.X + pad, Y: c.Min.Y + height + pad}}
	best, fewest := 0, math.MaxInt
	for k, at := range corners {
		hits := 0
		for _, l := range n.lines {
			for i := range l.X {
				x, y := tx(l.X[i]), ty(l.Y[i])
				if x > at.X-pad && x < at.X+width+pad && y < at.Y+pad && y > at.Y-height-pad {
					hits++
				}
			}
		}
		if hits < fewest {
			best, fewest = k, hits
		}
	}
	for i, l := range n.lines {
		c.FillText(style(i), vg.Point{X: corners[best].X, Y: corners[best].Y - vg.Length(i)*1.3*size}, l.Name)
	}
}

// check refuses data that cannot be drawn.
func (l Lines) check() error {
	n := 0
	for _, one := range l.Lines {
		if len(one.X) != len(one.Y) {
			return ErrNoCurve
		}
		n += len(one.X)
		if err := finite(one.X, one.Y); err != nil {
			return err
		}
	}
	if n == 0 {
		return ErrNoCurve
	}
	return nil
}

// finite refuses values that are no numbers.
func finite(all ...[]float64) error {
	for _, values := range all {
		for _, v := range values {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("%w: a value is no number", ErrNoCurve)
			}
		}
	}
	return nil
}

// points are the points of a curve.
func points(x, y []float64) plotter.XYs {
	pts := make(plotter.XYs, len(x))
	for i := range pts {
		pts[i] = plotter.XY{X: x[i], Y: y[i]}
	}
	return pts
}
