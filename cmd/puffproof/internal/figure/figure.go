// Package figure draws the program's figures in one house style: colours that
// stay apart for colour-blind eyes and in grey print, the name of a curve beside
// the curve and not in a legend, units on every axis, nothing clipped. It gets
// plain numbers in the units shown and computes nothing else.
package figure

import (
	"errors"
	"fmt"
	"image/color"
	"math"
	"path/filepath"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Axis is one quantity of a figure in the unit shown.
type Axis struct {
	Values []float64
	Unit   string
}

// Exit is the instant the projectile leaves.
type Exit struct {
	Time, Travel float64 // in the units of the axes
	Label        string
}

// Curves is a shot: slices of one length, Time rising.
type Curves struct {
	Title                         string
	Time, Travel, Speed, Pressure Axis
	Exit                          *Exit // nil: it did not leave
}

// inks are the colours of curves in their order, from the palette of Okabe and Ito
// (2008, "Color Universal Design"), which keeps apart for the common kinds of colour
// blindness; the first is darker than the second in grey print.
func inks() []color.Color {
	return []color.Color{color.NRGBA{0x00, 0x72, 0xB2, 0xFF}, color.NRGBA{0xD5, 0x5E, 0x00, 0xFF},
		color.NRGBA{0x00, 0x9E, 0x73, 0xFF}, color.NRGBA{0xCC, 0x79, 0xA7, 0xFF}, color.Black}
}

func pressureColour() color.Color { return inks()[0] }
func speedColour() color.Color    { return inks()[1] }
func paleInk() color.Color        { return color.Gray{0x5A} }
func gridInk() color.Color        { return color.Gray{0xE4} }

// The size of the shot's figure: it fills the width of a printed page.
const (
	shotWidth  = 18 * vg.Centimeter
	shotHeight = 12 * vg.Centimeter
)

// ErrNoCurve is returned for data that is no curve.
var ErrNoCurve = errors.New("there is no curve to draw")

// CheckName says whether a file of this name can be written.
func CheckName(name string) error {
	if strings.EqualFold(filepath.Ext(name), ".svg") {
		return nil
	}
	return fmt.Errorf("%q: the figure is an SVG drawing; give a name that ends in .svg", name)
}

// ShotSVG draws pressure and speed over time and over travel as an SVG document.
func ShotSVG(c Curves) ([]byte, error) {
	return svg(shotWidth, shotHeight, func(dc draw.Canvas) error { return DrawShot(dc, c) })
}

// DrawShot draws the shot's figure on a canvas of any kind.
func DrawShot(dc draw.Canvas, c Curves) error {
	if err := c.check(); err != nil {
		return err
	}
	panels := [][]*plot.Plot{make([]*plot.Plot, 2), make([]*plot.Plot, 2)}
	rows := []struct {
		name string
		y    Axis
		ink  color.Color
	}{{"Barrel pressure", c.Pressure, pressureColour()}, {"Speed", c.Speed, speedColour()}}
	for i, r := range rows {
		for j, x := range []Axis{c.Time, c.Travel} {
			p := panel(r.name, r.y, x, r.ink)
			panels[i][j] = p
			if c.Exit != nil {
				at := c.Exit.Time
				if j == 1 {
					at = c.Exit.Travel
				}
				p.Add(exitMark{at, exitLabel(i, j, c.Exit)})
			}
		}
	}
	panels[1][0].X.Label.Text = "Time after the command to fire, " + c.Time.Unit
	panels[1][1].X.Label.Text = "Travel from the seat, " + c.Travel.Unit
	head := title(dc, c.Title)
	tiles := draw.Tiles{Rows: 2, Cols: 2, PadX: 6 * vg.Millimeter, PadY: 3 * vg.Millimeter,
		PadTop: head, PadRight: 4 * vg.Millimeter, PadLeft: 3 * vg.Millimeter, PadBottom: 1 * vg.Millimeter}
	for i, row := range plot.Align(panels, tiles, dc) {
		for j, canvas := range row {
			panels[i][j].Draw(canvas)
		}
	}
	return nil
}

// exitLabel is said once, in the lower left panel.
func exitLabel(row, col int, e *Exit) string {
	if row == 1 && col == 0 {
		return e.Label
	}
	return ""
}

// check refuses data that cannot be drawn.
func (c Curves) check() error {
	n := len(c.Time.Values)
	if n < 2 || len(c.Travel.Values) != n || len(c.Speed.Values) != n || len(c.Pressure.Values) != n {
		return ErrNoCurve
	}
	return finite(c.Time.Values, c.Travel.Values, c.Speed.Values, c.Pressure.Values)
}

// panel is one curve of y over x in the house style.
func panel(name string, y, x Axis, ink color.Color) *plot.Plot {
	p := plot.New()
	house(p)
	line := &plotter.Line{XYs: points(x.Values, y.Values), LineStyle: draw.LineStyle{Color: ink, Width: vg.Points(1.6)}}
	p.Add(grid(), line)
	p.Title.Text = name + ", " + y.Unit
	p.Title.TextStyle.Color = ink
	p.X.Min, p.X.Max = math.Min(0, bottom(x.Values)), top(x.Values)
	p.Y.Min, p.Y.Max = math.Min(0, bottom(y.Values)), 1.06*top(y.Values)
	return p
}

// house gives a plot the style of all figures.
func house(p *plot.Plot) {
	for _, s := range []*text.Style{&p.Title.TextStyle, &p.X.Label.TextStyle, &p.Y.Label.TextStyle, &p.X.Tick.Label, &p.Y.Tick.Label} {
		s.Font.Typeface, s.Font.Variant, s.Font.Size = sans(9).Typeface, sans(9).Variant, sans(9).Size
	}
	p.Title.TextStyle.Font.Size = vg.Points(10)
	p.Title.Padding = vg.Points(3)
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		a.LineStyle.Color, a.Tick.LineStyle.Color = paleInk(), paleInk()
		a.LineStyle.Width, a.Tick.LineStyle.Width = vg.Points(0.6), vg.Points(0.6)
		a.Tick.Label.Color = color.Gray{0x33}
		a.Tick.Length = vg.Points(4)
		a.Padding = 0
		a.Tick.Marker = plot.TickerFunc(evenTicks)
	}
	p.X.Label.Padding = vg.Points(3)
}

// grid is a pale grid behind the curves.
func grid() *plotter.Grid {
	g := plotter.NewGrid()
	g.Horizontal = draw.LineStyle{Color: gridInk(), Width: vg.Points(0.5)}
	g.Vertical = g.Horizontal
	return g
}

// title writes the figure's title and gives the height it takes.
func title(dc draw.Canvas, t string) vg.Length {
	if t == "" {
		return 2 * vg.Millimeter
	}
	const pitch = 5 * vg.Millimeter
	s := words(11, color.Black, text.XLeft, text.YTop)
	lines := wrapName(t, dc.Max.X-dc.Min.X-4*vg.Millimeter, 11)
	for i, l := range lines {
		dc.FillText(s, vg.Point{X: dc.Min.X + 2*vg.Millimeter, Y: dc.Max.Y - 2*vg.Millimeter - pitch*vg.Length(i)}, l)
	}
	return 4*vg.Millimeter + pitch*vg.Length(len(lines))
}

func top(v []float64) float64 {
	m := 0.0
	for _, x := range v {
		m = math.Max(m, x)
	}
	if m == 0 {
		return 1
	}
	return m
}

func bottom(v []float64) float64 {
	m := math.Inf(1)
	for _, x := range v {
		m = math.Min(m, x)
	}
	return m
}
