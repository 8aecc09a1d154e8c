package figure

import (
	"image/color"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Bowtie is a top event with what can bring it about to its left and the harm to its right, the barriers between.
type Bowtie struct {
	Event   string
	Threats []BowtieThreat
	More    string // says how many threats are not drawn; "" all are
	Before  []BowtieBox
	Behind  []BowtieBox
	Harms   []string
}

// BowtieThreat is a fault with what stands between it and the event by itself.
type BowtieThreat struct {
	Text string
	Own  BowtieBox // without a text: nothing of its own
}

// BowtieBox is a barrier.
type BowtieBox struct {
	Text  string
	State BarrierState
}

// BarrierState is how far a barrier has got. Each is told by its outline, and by the words of its text.
type BarrierState uint8

// The states of a barrier.
const (
	BarrierPlain  BarrierState = iota // drawn thin: nothing is said of it
	BarrierStands                     // a full outline
	BarrierOpen                       // dashed: not proved
	BarrierFails                      // in the warning colour, crossed out
)

const bowtieFont = 6.5

// column is where a column of a bow-tie stands.
type bowtieColumn struct{ at, width vg.Length }

// bowtieColumns are threats, their own barriers, barriers before the event, the event, barriers behind it, harms.
func bowtieColumns() [6]bowtieColumn {
	return [6]bowtieColumn{{0.5 * mm, 34 * mm}, {37 * mm, 33 * mm}, {75 * mm, 29 * mm}, {108.5 * mm, 19 * mm}, {132 * mm, 25 * mm},
		{161 * mm, 18.5 * mm}}
}

// boxLines are the lines of a text in a column.
func (c bowtieColumn) lines(s string) []string {
	if s == "" {
		return nil
	}
	return wrap(s, c.width-2.4*mm, bowtieFont)
}

func (c bowtieColumn) height(s string) vg.Length {
	return claimLead*vg.Length(len(c.lines(s)))*bowtieFont/claimFont + 2*claimPad
}

// row is the height of a threat with its own barrier.
func (t BowtieThreat) row() vg.Length {
	c := bowtieColumns()
	return max(c[0].height(t.Text), c[1].height(t.Own.Text)) + claimGap
}

// stack is the height of boxes below one another.
func stack(c bowtieColumn, boxes []BowtieBox) vg.Length {
	h := vg.Length(0)
	for _, b := range boxes {
		h += c.height(b.Text) + claimGap
	}
	return h
}

func (b Bowtie) height() vg.Length {
	c := bowtieColumns()
	left, right := vg.Length(0), vg.Length(0)
	for _, t := range b.Threats {
		left += t.row()
	}
	if b.More != "" {
		left += 2 * claimLead
	}
	for _, h := range b.Harms {
		right += c[5].height(h) + claimGap
	}
	return max(left, right, stack(c[2], b.Before), stack(c[4], b.Behind), c[3].height(b.Event)+4*mm) + 7*mm
}

// Fit draws as many threats as a height [mm] has room for, in their order, and says how many more there are by more, a function of
// their number.
func (b Bowtie) Fit(most float64, more func(n int) string) Bowtie {
	all := b.Threats
	for n := len(all); n > 1 && b.height() > vg.Length(most)*mm; n-- {
		b.Threats, b.More = all[:n-1], more(len(all)-n+1)
	}
	return b
}

// Draw makes the drawing. ErrNoCurve where there is no threat.
func (b Bowtie) Draw() (*Drawing, error) {
	if len(b.Threats) == 0 {
		return nil, ErrNoCurve
	}
	return newDrawing(claimWidth, b.height(), func(dc draw.Canvas) error {
		b.paint(pen{dc})
		return nil
	})
}

func (b Bowtie) paint(p pen) {
	c := bowtieColumns()
	top := p.dc.Max.Y - 6*mm
	middle := (top + p.dc.Min.Y) / 2
	for i, head := range []string{"fault", "what holds or shows it", "barriers before it", "event", "barriers behind it", "harm"} {
		p.text(c[i].at+c[i].width/2, p.dc.Max.Y-2.5*mm, head, 8, text.XCenter, color.Black)
	}
	y, first, last := top, top, top
	bus := c[2].at - 2*mm
	for i, t := range b.Threats {
		m := y - (t.row()-claimGap)/2
		p.bowtieBox(c[0], BowtieBox{Text: t.Text}, y-(t.row()-claimGap-c[0].height(t.Text))/2)
		from := c[0].at + c[0].width
		if t.Own.Text != "" {
			p.lines(thin(), vg.Point{X: from, Y: m}, vg.Point{X: c[1].at, Y: m})
			p.bowtieBox(c[1], t.Own, y-(t.row()-claimGap-c[1].height(t.Own.Text))/2)
			from = c[1].at + c[1].width
		}
		p.lines(thin(), vg.Point{X: from, Y: m}, vg.Point{X: bus, Y: m})
		if i == 0 {
			first = m
		}
		last = m
		y -= t.row()
	}
	if b.More != "" {
		p.text(c[0].at, y-claimLead, b.More, bowtieFont, text.XLeft, color.Black)
	}
	p.lines(thin(), vg.Point{X: bus, Y: max(first, middle)}, vg.Point{X: bus, Y: min(last, middle)})
	p.panel(c[2], b.Before, middle, bus, c[3].at)
	h := c[3].height(b.Event) + 4*mm
	p.event(c[3], b.Event, middle, h)
	p.panel(c[4], b.Behind, middle, c[3].at+c[3].width, c[5].at-2*mm)
	p.harms(c[5], b.Harms, middle)
}

// panel is a stack of barriers in a line from x0 to x1: each stands in the way of all that comes along it.
func (p pen) panel(c bowtieColumn, boxes []BowtieBox, middle, x0, x1 vg.Length) {
	if len(boxes) == 0 {
		p.lines(thin(), vg.Point{X: x0, Y: middle}, vg.Point{X: x1, Y: middle})
		return
	}
	height := stack(c, boxes)
	y := middle + height/2
	p.lines(thin(), vg.Point{X: x0, Y: middle}, vg.Point{X: c.at - 0.8*mm, Y: middle})
	for _, x := range []vg.Length{c.at - 0.8*mm, c.at + c.width + 0.8*mm} {
		p.lines(thin(), vg.Point{X: x, Y: y}, vg.Point{X: x, Y: y - height + claimGap})
	}
	p.arrow(c.at+c.width+0.8*mm, middle, x1, middle)
	for _, b := range boxes {
		p.bowtieBox(c, b, y)
		y -= c.height(b.Text) + claimGap
	}
}

// bowtieBox draws a box from top downwards.
func (p pen) bowtieBox(c bowtieColumn, b BowtieBox, top vg.Length) {
	style, black, bottom := thin(), color.Color(color.Black), top-c.height(b.Text)
	switch b.State {
	case BarrierStands:
		style.Width = vg.Points(1.2)
	case BarrierOpen:
		style.Dashes = []vg.Length{vg.Points(2.5), vg.Points(1.5)}
	case BarrierFails:
		style.Color, black = limitInk(), limitInk()
		p.lines(style, vg.Point{X: c.at, Y: top}, vg.Point{X: c.at + 1.4*mm, Y: bottom})
	}
	p.lines(style, vg.Point{X: c.at, Y: top}, vg.Point{X: c.at + c.width, Y: top}, vg.Point{X: c.at + c.width, Y: bottom},
		vg.Point{X: c.at, Y: bottom}, vg.Point{X: c.at, Y: top})
	if b.State != BarrierPlain { // the mark of a barrier
		mark := style
		mark.Width, mark.Dashes = vg.Points(2.4), nil
		p.lines(mark, vg.Point{X: c.at + 0.4*mm, Y: top}, vg.Point{X: c.at + 0.4*mm, Y: bottom})
	}
	p.bowtieLines(c.lines(b.Text), c.at+1.4*mm, (top+bottom)/2, text.XLeft, black)
}

// event is the knot of the bow-tie.
func (p pen) event(c bowtieColumn, says string, middle, height vg.Length) {
	style := draw.LineStyle{Color: color.Black, Width: vg.Points(1.4)}
	x0, x1 := c.at, c.at+c.width
	top, bottom, cut := middle+height/2, middle-height/2, 1.8*mm
	p.lines(style, vg.Point{X: x0 + cut, Y: top}, vg.Point{X: x1 - cut, Y: top}, vg.Point{X: x1, Y: top - cut}, vg.Point{X: x1,
		Y: bottom + cut},
		vg.Point{X: x1 - cut, Y: bottom}, vg.Point{X: x0 + cut, Y: bottom}, vg.Point{X: x0, Y: bottom + cut}, vg.Point{X: x0, Y: top - cut},
		vg.Point{X: x0 + cut, Y: top})
	p.bowtieLines(c.lines(says), c.at+c.width/2, middle, text.XCenter, color.Black)
}

// harms are the boxes at the right end.
func (p pen) harms(c bowtieColumn, all []string, middle vg.Length) {
	height := -claimGap
	for _, h := range all {
		height += c.height(h) + claimGap
	}
	y, bus := middle+height/2, c.at-2*mm
	first, last := middle, middle
	for i, h := range all {
		m := y - c.height(h)/2
		p.lines(thin(), vg.Point{X: bus, Y: m}, vg.Point{X: c.at, Y: m})
		p.bowtieBox(c, BowtieBox{Text: h}, y)
		if i == 0 {
			first = m
		}
		last = m
		y -= c.height(h) + claimGap
	}
	p.lines(thin(), vg.Point{X: bus, Y: max(first, middle)}, vg.Point{X: bus, Y: min(last, middle)})
}

// bowtieLines writes lines around a height.
func (p pen) bowtieLines(lines []string, x, middle vg.Length, align text.XAlignment, ink color.Color) {
	const lead = claimLead * bowtieFont / claimFont
	y := middle + lead*vg.Length(len(lines)-1)/2
	for _, l := range lines {
		p.text(x, y, l, bowtieFont, align, ink)
		y -= lead
	}
}
