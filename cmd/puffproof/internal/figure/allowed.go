package figure

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"puffproof/cmd/puffproof/internal/quantity"
)

// Allowed is the volume of air that a limit allows over the charge pressure.
type Allowed struct {
	Title            string
	Pressure, Volume string // units shown
	Lines            []Line // X the pressure, rising, Y the volume; all above zero
}

// AllowedSVG draws the figure as an SVG document.
func AllowedSVG(a Allowed) ([]byte, error) {
	return svg(shotWidth, shotHeight, func(dc draw.Canvas) error { return DrawAllowed(dc, a) })
}

// DrawAllowed draws the figure on a canvas of any kind: both axes logarithmic, the
// names of the lines at their right ends, moved apart where they would touch.
func DrawAllowed(dc draw.Canvas, a Allowed) error {
	p := plot.New()
	house(p)
	p.BackgroundColor = nil // it would cover the title
	p.Add(grid())
	xmin, xmax, ymin, ymax := math.Inf(1), 0.0, math.Inf(1), 0.0
	for i, l := range a.Lines {
		pts := make(plotter.XYs, len(l.X))
		for k := range pts {
			x, y := l.X[k], l.Y[k]
			if !(x > 0 && y > 0) || math.IsInf(x+y, 0) {
				return ErrNoCurve
			}
			pts[k] = plotter.XY{X: x, Y: y}
			xmin, xmax, ymin, ymax = math.Min(xmin, x), math.Max(xmax, x), math.Min(ymin, y), math.Max(ymax, y)
		}
		p.Add(&plotter.Line{XYs: pts, LineStyle: lineOf(i)})
	}
	if !(xmax > xmin && ymax > ymin) {
		return ErrNoCurve
	}
	p.X.Scale, p.Y.Scale = plot.LogScale{}, plot.LogScale{}
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = xmin, xmax, ymin/1.2, ymax*1.2
	p.X.Tick.Marker, p.Y.Tick.Marker = plot.TickerFunc(logTicks), plot.TickerFunc(logTicks)
	p.X.Label.Text, p.Y.Label.Text = "Charge pressure, "+a.Pressure, "Air that may reach the barrel, "+a.Volume
	head := title(dc, a.Title)
	inner := draw.Crop(dc, 2*vg.Millimeter, -32*vg.Millimeter, 2*vg.Millimeter, 5*vg.Millimeter-head)
	p.Draw(inner)
	data := p.DataCanvas(inner)
	_, ty := p.Transforms(&data)
	want := make([]vg.Length, len(a.Lines))
	for i, l := range a.Lines {
		want[i] = ty(l.Y[len(l.Y)-1])
	}
	for i, y := range spread(want, 5*vg.Millimeter, data.Min.Y, data.Max.Y) {
		s := words(9, lineOf(i).Color, text.XLeft, text.YCenter)
		dc.FillText(s, vg.Point{X: data.Max.X + 2*vg.Millimeter, Y: y}, a.Lines[i].Name)
	}
	return nil
}

// lineOf is the style of a line: colour and dashes both differ, for grey print.
func lineOf(i int) draw.LineStyle {
	dashes := [][]vg.Length{nil, {vg.Points(6), vg.Points(2)}, {vg.Points(3), vg.Points(2)}, {vg.Points(1), vg.Points(2)},
		{vg.Points(8), vg.Points(2), vg.Points(2), vg.Points(2)}}
	return draw.LineStyle{Color: inks()[i%len(inks())], Width: vg.Points(1.6), Dashes: dashes[i%len(dashes)]}
}

// logTicks labels 1, 2 and 5 of every decade.
func logTicks(low, high float64) []plot.Tick {
	var ticks []plot.Tick
	for e := math.Floor(math.Log10(low)); e <= math.Ceil(math.Log10(high)); e++ {
		for _, m := range []float64{1, 2, 5} {
			if v := m * math.Pow(10, e); v >= low*(1-1e-9) && v <= high*(1+1e-9) {
				ticks = append(ticks, plot.Tick{Value: v, Label: quantity.Fixed(v, max(0, -int(e)), quantity.Nearest)})
			}
		}
	}
	return ticks
}
