package figure

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"puffproof/cmd/puffproof/internal/quantity"
)

// Rows is a figure of one axis: each row a name with its band on the axis, such
// as the ladder of pressures or an energy on each of its bases.
type Rows struct {
	Title string // "": none
	Axis  string // with its unit
	Note  string // below the axis; "": none
	Scale Scale
	Rows  []Row
	Limit *RowLimit // nil: none
	Wide  bool      // as wide as a page, for an axis of many decades; else two stand beside one another
}

// Scale is how an axis counts.
type Scale uint8

const (
	Linear  Scale = iota
	Decades       // each step ten times the one before
)

// Row is one band; Low = High is a single mark.
type Row struct {
	Name           string
	Low, Mark, Top float64
	Value          string // written at the end of the band
	Kind           RowKind
	Limit          float64 // of this row alone; 0: that of the figure
}

// RowKind says what a row is.
type RowKind uint8

const (
	Stated   RowKind = iota
	Computed         // drawn in the second colour
	Boundary         // must not be reached
)

// RowLimit is an upright line across all rows.
type RowLimit struct {
	Name string
	At   float64
}

const (
	rowsPitch = 8.2 * vg.Millimeter
	rowsHead  = 6 * vg.Millimeter
	rowsFoot  = 11 * vg.Millimeter
	rowsName  = 37 * vg.Millimeter
)

// Draw makes the drawing. ErrNoCurve where a value is no number or there is no row.
func (r Rows) Draw() (*Drawing, error) {
	if len(r.Rows) == 0 {
		return nil, ErrNoCurve
	}
	low, high := math.Inf(1), 0.0
	for _, row := range r.Rows {
		values := []float64{row.Low, row.Mark, row.Top, row.Limit}
		if err := finite(values); err != nil {
			return nil, err
		}
		for _, v := range values {
			high = math.Max(high, v)
			if v > 0 {
				low = math.Min(low, v)
			}
		}
	}
	if r.Limit != nil {
		high = math.Max(high, r.Limit.At)
		low = math.Min(low, r.Limit.At)
	}
	if !(high > 0) {
		return nil, ErrNoCurve
	}
	height := rowsHead + rowsFoot + r.titleHeight() + r.noteHeight()
	for _, row := range r.Rows {
		height += row.height()
	}
	return newDrawing(r.width(), height, func(dc draw.Canvas) error {
		title(dc, r.Title)
		r.note(dc)
		dc = draw.Crop(dc, 0, 0, r.noteHeight(), -r.titleHeight())
		r.paint(&rowAxis{dc: dc, scale: r.Scale, low: math.Pow(10, math.Floor(math.Log10(low))), high: high})
		return nil
	})
}

// width is that of the drawing.
func (r Rows) width() vg.Length {
	if r.Wide {
		return 15 * vg.Centimeter
	}
	return chartWidth
}

func (r Rows) titleHeight() vg.Length {
	if r.Title == "" {
		return 0
	}
	return 3*vg.Millimeter + 5*vg.Millimeter*vg.Length(len(wrapName(r.Title, r.width()-4*vg.Millimeter, 11)))
}

// noteLines are the lines of the note.
func (r Rows) noteLines() []string { return wrap(r.Note, r.width()-4*vg.Millimeter, 8) }

func (r Rows) noteHeight() vg.Length {
	if r.Note == "" {
		return 0
	}
	return linePitch*vg.Length(len(r.noteLines())) + 1*vg.Millimeter
}

// note writes the note at the foot.
func (r Rows) note(dc draw.Canvas) {
	lines := r.noteLines()
	for i, l := range lines {
		dc.FillText(words(8, color.Gray{0x33}, text.XLeft, text.YBottom),
			vg.Point{X: dc.Min.X + 2*vg.Millimeter, Y: dc.Min.Y + 1*vg.Millimeter + linePitch*vg.Length(len(lines)-1-i)}, l)
	}
}

// rowAxis places values.
type rowAxis struct {
	dc        draw.Canvas
	scale     Scale
	low, high float64
}

func (a *rowAxis) left() vg.Length  { return a.dc.Min.X + rowsName }
func (a *rowAxis) right() vg.Length { return a.dc.Max.X - 6*vg.Millimeter }

func (a *rowAxis) at(v float64) vg.Length {
	u := v / (1.04 * a.high)
	if a.scale == Decades {
		top := math.Pow(10, math.Ceil(math.Log10(a.high)))
		u = math.Log10(math.Max(v, a.low)/a.low) / math.Log10(top/a.low)
	}
	return a.left() + vg.Length(u)*(a.right()-a.left())
}

// ticks are round steps, or the powers of ten.
func (a *rowAxis) ticks() []plot.Tick {
	if a.scale == Linear {
		return evenTicks(0, 1.04*a.high)
	}
	var out []plot.Tick
	for v := a.low; v <= math.Pow(10, math.Ceil(math.Log10(a.high)))*1.001; v *= 10 {
		out = append(out, plot.Tick{Value: v, Label: quantity.Fixed(v, max(0, -int(math.Round(math.Log10(v)))), quantity.Nearest)})
	}
	return out
}

func (r Rows) paint(a *rowAxis) {
	dc := a.dc
	bottom, top := dc.Min.Y+rowsFoot, dc.Max.Y-rowsHead
	label := words(8, color.Gray{0x33}, text.XCenter, text.YTop)
	for _, k := range a.ticks() {
		x := a.at(k.Value)
		dc.StrokeLine2(draw.LineStyle{Color: gridInk(), Width: vg.Points(0.5)}, x, bottom, x, top)
		dc.FillText(label, vg.Point{X: x, Y: bottom - vg.Points(3)}, k.Label)
	}
	axis := label
	axis.Font = sans(9)
	axis.Color = color.Black
	dc.FillText(axis, vg.Point{X: (a.left() + a.right()) / 2, Y: bottom - vg.Points(14)}, r.Axis)
	if r.Limit != nil {
		x := a.at(r.Limit.At)
		dc.StrokeLine2(draw.LineStyle{Color: limitInk(), Width: vg.Points(1.1), Dashes: []vg.Length{vg.Points(4), vg.Points(2)}}, x, bottom, x,
			top)
		s := words(8, limitInk(), text.XCenter, text.YBottom)
		half := s.Width(r.Limit.Name) / 2
		x = min(max(x, dc.Min.X+half+vg.Points(2)), dc.Max.X-half-vg.Points(2))
		dc.FillText(s, vg.Point{X: x, Y: top + vg.Points(2)}, r.Limit.Name)
	}
	y := top
	for _, row := range r.Rows {
		row.paint(a, y-row.height()/2)
		y -= row.height()
	}
}

// lines are the name of a row as it stands beside the axis.
func (row Row) lines() []string { return wrapName(row.Name, rowsName-vg.Points(6), 8.5) }

// height is the room of a row: a long name has more than one line.
func (row Row) height() vg.Length {
	return max(rowsPitch, linePitch*vg.Length(len(row.lines()))+1.6*vg.Millimeter)
}

func (row Row) paint(a *rowAxis, y vg.Length) {
	ink := pressureColour()
	switch row.Kind {
	case Computed:
		ink = speedColour()
	case Boundary:
		ink = limitInk()
	}
	name := words(8.5, color.Black, text.XRight, text.YCenter)
	lines := row.lines()
	for i, l := range lines {
		a.dc.FillText(name, vg.Point{X: a.left() - vg.Points(4), Y: y + linePitch*(vg.Length(len(lines)-1)/2-vg.Length(i))}, l)
	}
	x0, x1, half := a.at(row.Low), a.at(row.Top), vg.Points(4)
	if x1-x0 > vg.Points(1) {
		a.dc.FillPolygon(paler(ink), []vg.Point{{X: x0, Y: y - half}, {X: x1, Y: y - half}, {X: x1, Y: y + half}, {X: x0, Y: y + half}})
		a.dc.StrokeLines(draw.LineStyle{Color: ink, Width: vg.Points(0.7)}, []vg.Point{{X: x0, Y: y - half}, {X: x1, Y: y - half},
			{X: x1, Y: y + half}, {X: x0, Y: y + half}, {X: x0, Y: y - half}})
	}
	if row.Limit > 0 {
		x := a.at(row.Limit)
		a.dc.StrokeLine2(draw.LineStyle{Color: limitInk(), Width: vg.Points(1.1)}, x, y-half-1, x, y+half+1)
		x1, x0 = max(x0, x1, x), min(x0, x)
	}
	m := a.at(row.Mark)
	a.dc.StrokeLine2(draw.LineStyle{Color: ink, Width: vg.Points(2.2)}, m, y-half-1, m, y+half+1)
	if row.Value == "" {
		return
	}
	s := words(8, color.Black, text.XLeft, text.YCenter)
	x := max(x1, m) + vg.Points(4)
	if x+s.Width(row.Value) > a.dc.Max.X-vg.Points(1) {
		s.XAlign = text.XRight
		x = min(x0, m) - vg.Points(4)
	}
	left := x
	if s.XAlign == text.XRight {
		left = x - s.Width(row.Value)
	}
	// A line that runs through the figure would cross it out.
	a.dc.FillPolygon(color.White, []vg.Point{{X: left - 1, Y: y - half}, {X: left + s.Width(row.Value) + 1, Y: y - half},
		{X: left + s.Width(row.Value) + 1, Y: y + half}, {X: left - 1, Y: y + half}})
	a.dc.FillText(s, vg.Point{X: x, Y: y}, row.Value)
}
