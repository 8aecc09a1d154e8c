package figure

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Chart is one panel: curves and bands over a common axis, with limits.
type Chart struct {
	X, Y   string // the axes with their units, such as "Time, s"
	Lines  []ChartLine
	Limits []ChartLimit
}

// ChartLine is one curve, with the band around it where Low and High are given.
type ChartLine struct {
	Name      string // written beside the curve; "" writes none
	X, Y      []float64
	Low, High []float64 // nil: no band
	Before    bool      // what was before: pale, and not counted among the others
	Dots      bool      // each point is marked
}

// ChartLimit is a straight line that a curve is held against.
type ChartLimit struct {
	Name     string
	At       float64
	Vertical bool // at a value of x, not of y
}

// The size of a chart: it stays legible on a phone 360 pixels wide, and two of
// them fill the width of a printed page.
const (
	chartWidth  = 9 * vg.Centimeter
	chartHeight = 6.2 * vg.Centimeter
)

// lineInks are the colours of curves, dark enough for a printed page; dashes tell
// them apart in grey print.
func lineInks() []color.Color { return inks()[:len(lineDashes())] }

func lineDashes() [][]vg.Length {
	return [][]vg.Length{nil, {vg.Points(5), vg.Points(2)}, {vg.Points(2), vg.Points(1.5)},
		{vg.Points(7), vg.Points(2), vg.Points(1.5), vg.Points(2)}}
}

// beforeInk is the ink of what was before: it stays visible below a line of now.
func beforeInk() color.Color { return color.NRGBA{0xC0, 0xC4, 0xCC, 0xFF} }

func limitInk() color.Color { return color.NRGBA{0xA0, 0x00, 0x20, 0xFF} }

// Draw makes the drawing of a chart. ErrNoCurve where there is nothing to draw.
func (c Chart) Draw() (*Drawing, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	p := plot.New()
	house(p)
	p.X.Label.Text, p.Title.Text = c.X, c.Y
	p.Title.TextStyle.XAlign = text.XCenter
	p.Add(grid())
	xTop, yTop := c.tops()
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = 0, xTop, math.Min(0, c.bottom()), 1.08*yTop
	now := 0
	for _, l := range c.Lines {
		if l.Before {
			p.Add(&plotter.Line{XYs: points(l.X, l.Y), LineStyle: draw.LineStyle{Color: beforeInk(), Width: vg.Points(3)}})
			continue
		}
		c.line(p, l, now)
		now++
	}
	for _, m := range c.Limits {
		p.Add(limitMark{m})
	}
	p.Add(chartNames{c})
	var within draw.Canvas
	d, err := newDrawing(chartWidth, chartHeight, func(dc draw.Canvas) error {
		dc = draw.Crop(dc, 2*vg.Millimeter, -4*vg.Millimeter, 1*vg.Millimeter, -1*vg.Millimeter)
		p.Draw(dc)
		within = p.DataCanvas(dc)
		return nil
	})
	if err != nil {
		return nil, err
	}
	d.from, d.to, d.top = float64(within.Min.X/chartWidth), float64(within.Max.X/chartWidth), p.X.Max
	return d, nil
}

func (c Chart) line(p *plot.Plot, l ChartLine, i int) {
	ink := lineInks()[i%len(lineInks())]
	if len(l.Low) == len(l.X) && len(l.High) == len(l.X) {
		var ring plotter.XYs
		for k := range l.X {
			ring = append(ring, plotter.XY{X: l.X[k], Y: l.High[k]})
		}
		for k := len(l.X) - 1; k >= 0; k-- {
			ring = append(ring, plotter.XY{X: l.X[k], Y: l.Low[k]})
		}
		p.Add(&plotter.Polygon{XYs: []plotter.XYs{ring}, Color: paler(ink), LineStyle: draw.LineStyle{Color: ink, Width: vg.Points(0.4)}})
	}
	p.Add(&plotter.Line{XYs: points(l.X, l.Y),
		LineStyle: draw.LineStyle{Color: ink, Width: vg.Points(1.5), Dashes: lineDashes()[i%len(lineDashes())]}})
	if l.Dots {
		p.Add(&plotter.Scatter{XYs: points(l.X, l.Y), GlyphStyle: draw.GlyphStyle{Color: ink, Radius: vg.Points(3), Shape: draw.CircleGlyph{}}})
	}
}

// paler is a colour mixed with white; a transparent fill prints badly.
func paler(c color.Color) color.Color {
	r, g, b, _ := c.RGBA()
	mix := func(v uint32) uint8 { return uint8(0xFF - (0xFF-v>>8)/5) }
	return color.NRGBA{mix(r), mix(g), mix(b), 0xFF}
}

// check refuses data that cannot be drawn.
func (c Chart) check() error {
	if len(c.Lines) == 0 {
		return ErrNoCurve
	}
	for _, l := range c.Lines {
		if len(l.X) < 2 || len(l.X) != len(l.Y) || (l.Low != nil && (len(l.Low) != len(l.X) || len(l.High) != len(l.X))) {
			return ErrNoCurve
		}
		if err := finite(l.X, l.Y, l.Low, l.High); err != nil {
			return err
		}
	}
	for _, m := range c.Limits {
		if err := finite([]float64{m.At}); err != nil {
			return err
		}
	}
	return nil
}

func (c Chart) tops() (x, y float64) {
	x, y = 0, 0
	for _, l := range c.Lines {
		x = math.Max(x, top(l.X))
		y = math.Max(y, top(slices.Concat(l.Y, l.High)))
	}
	for _, m := range c.Limits {
		if m.Vertical {
			x = math.Max(x, m.At*1.02)
		} else {
			y = math.Max(y, m.At)
		}
	}
	return x, y
}

func (c Chart) bottom() float64 {
	low := 0.0
	for _, l := range c.Lines {
		low = math.Min(low, bottom(slices.Concat(l.Y, l.Low)))
	}
	return low
}

// limitMark draws a limit.
type limitMark struct{ ChartLimit }

// Plot draws the mark.
func (m limitMark) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	style := draw.LineStyle{Color: limitInk(), Width: vg.Points(1.1), Dashes: []vg.Length{vg.Points(4), vg.Points(2)}}
	if m.Vertical {
		c.StrokeLine2(style, tx(m.At), c.Min.Y, tx(m.At), c.Max.Y)
		return
	}
	c.StrokeLine2(style, c.Min.X, ty(m.At), c.Max.X, ty(m.At))
}
