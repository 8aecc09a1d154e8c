package figure

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// LadderRung is one pressure with its band, in the unit shown.
type LadderRung struct {
	Name             string
	Value, Low, High float64
	Label            string // the figures, as text
	Limit            bool   // it must not be reached: drawn in the warning colour
}

// Ladder is a ladder of pressures, from the lowest to the highest.
type Ladder struct {
	Title string
	Unit  string
	Rungs []LadderRung
}

const (
	ladderWidth  = 18 * vg.Centimeter
	ladderFont   = 9
	rowHeight    = 7 * vg.Millimeter // of one label
	ladderLeft   = 22 * vg.Millimeter
	ladderBar    = 26 * vg.Millimeter
	ladderElbow  = 22 * vg.Millimeter
	leastLadder  = 9 * vg.Centimeter
	ladderBottom = 6 * vg.Millimeter
	nameWidth    = 52 * vg.Millimeter
)

// ladderHeight gives every label its row.
func ladderHeight(rungs int) vg.Length {
	return max(leastLadder, vg.Length(rungs)*rowHeight*1.25+2*vg.Centimeter)
}

// LadderSVG draws a ladder as an SVG document.
func LadderSVG(l Ladder) ([]byte, error) {
	return svg(ladderWidth, ladderHeight(len(l.Rungs)), func(dc draw.Canvas) error { return DrawLadder(dc, l) })
}

// check refuses what cannot be drawn.
func (l Ladder) check() error {
	if len(l.Rungs) == 0 {
		return ErrNoCurve
	}
	for _, r := range l.Rungs {
		if err := finite([]float64{r.Value, r.Low, r.High}); err != nil || min(r.Value, r.Low, r.High) < 0 {
			return fmt.Errorf("%w: rung %q has no place", ErrNoCurve, r.Name)
		}
	}
	return nil
}

// DrawLadder draws a ladder on a canvas of any kind: a scale of pressure with the
// bands to its right, and beside each band its name and figures, moved apart so
// that no two touch and joined to their bands by a line.
func DrawLadder(dc draw.Canvas, l Ladder) error {
	if err := l.check(); err != nil {
		return err
	}
	head := title(dc, l.Title)
	low, high := dc.Min.Y+ladderBottom, dc.Max.Y-head-4*vg.Millimeter
	scale := ladderScale(l.Rungs, low, high)
	scale.axis(dc, l.Unit)
	places := spread(scale.wanted(l.Rungs), rowHeight, low, high)
	for i, r := range l.Rungs {
		scale.rung(dc, r, places[i])
	}
	return nil
}

// ladderAxis turns pressures into heights. Working pressures and ratings lie
// decades apart, so the scale is that of the square root of the pressure.
type ladderAxis struct {
	top       float64
	low, high vg.Length
}

func ladderScale(rungs []LadderRung, low, high vg.Length) ladderAxis {
	top := 0.0
	for _, r := range rungs {
		top = math.Max(top, math.Max(r.Value, r.High))
	}
	if top == 0 {
		top = 1
	}
	return ladderAxis{1.04 * top, low, high}
}

func (a ladderAxis) at(v float64) vg.Length {
	return a.low + vg.Length(math.Sqrt(v/a.top))*(a.high-a.low)
}

func (a ladderAxis) wanted(rungs []LadderRung) []vg.Length {
	out := make([]vg.Length, len(rungs))
	for i, r := range rungs {
		out[i] = a.at(r.Value)
	}
	return out
}

// spread moves places apart to at least gap, keeps their order, stays between low
// and high, and moves each as little as it may: places that touch share the mean
// of what they want (pool adjacent violators).
func spread(want []vg.Length, gap, low, high vg.Length) []vg.Length {
	type block struct {
		sum vg.Length // of the wanted places, each less its offset in the block
		n   int
	}
	half := gap / 2
	n := len(want)
	if n > 1 {
		gap = min(gap, (high-low-2*half)/vg.Length(n-1))
	}
	start := func(b block) vg.Length { // of the first place of a block
		s := b.sum / vg.Length(b.n)
		return min(max(s, low+half), high-half-gap*vg.Length(b.n-1))
	}
	order := ascending(want)
	var blocks []block
	for _, i := range order {
		blocks = append(blocks, block{want[i], 1})
		for len(blocks) > 1 {
			a, b := blocks[len(blocks)-2], blocks[len(blocks)-1]
			if start(a)+gap*vg.Length(a.n) <= start(b) {
				break
			}
			joined := block{a.sum + b.sum - vg.Length(a.n*b.n)*gap, a.n + b.n}
			blocks = append(blocks[:len(blocks)-2], joined)
		}
	}
	out := make([]vg.Length, n)
	k := 0
	for _, b := range blocks {
		for j := range b.n {
			out[order[k]] = start(b) + gap*vg.Length(j)
			k++
		}
	}
	return out
}

// ascending gives the indices of places from the lowest up; equal ones keep their
// order.
func ascending(v []vg.Length) []int {
	order := make([]int, len(v))
	for i := range order {
		order[i] = i
		for j := i; j > 0 && v[order[j]] < v[order[j-1]]; j-- {
			order[j], order[j-1] = order[j-1], order[j]
		}
	}
	return order
}

// axis draws the scale at the left.
func (a ladderAxis) axis(dc draw.Canvas, unit string) {
	x := dc.Min.X + ladderLeft
	line := draw.LineStyle{Color: paleInk(), Width: vg.Points(0.8)}
	dc.StrokeLine2(line, x, a.low, x, a.high)
	last := vg.Length(math.Inf(-1))
	for _, t := range evenTicks(0, a.top) {
		y := a.at(t.Value)
		if y-last < 5*vg.Millimeter {
			continue // the root crowds no labels at the bottom, but be sure
		}
		last = y
		dc.StrokeLine2(line, x-vg.Points(4), y, x, y)
		dc.FillText(words(ladderFont, color.Gray{0x33}, text.XRight, text.YCenter), vg.Point{X: x - vg.Points(6), Y: y}, t.Label)
	}
	dc.FillText(words(ladderFont, color.Gray{0x33}, text.XLeft, text.YCenter),
		vg.Point{X: dc.Min.X + 2*vg.Millimeter, Y: a.high + 3*vg.Millimeter}, unit)
}

// rung draws one band and its label at the height y.
func (a ladderAxis) rung(dc draw.Canvas, r LadderRung, y vg.Length) {
	ink := pressureColour()
	if r.Limit {
		ink = speedColour()
	}
	x := dc.Min.X + ladderLeft
	bottom, top, at := a.at(r.Low), a.at(r.High), a.at(r.Value)
	if top-bottom > vg.Points(1) {
		pale := color.NRGBAModel.Convert(ink).(color.NRGBA)
		pale.A = 0x50
		dc.FillPolygon(pale, []vg.Point{{X: x, Y: bottom}, {X: x + ladderBar, Y: bottom}, {X: x + ladderBar, Y: top}, {X: x, Y: top}})
	}
	dc.StrokeLine2(draw.LineStyle{Color: ink, Width: vg.Points(1.6)}, x, at, x+ladderBar, at)
	thin := draw.LineStyle{Color: ink, Width: vg.Points(0.6)}
	elbow := x + ladderBar + ladderElbow
	dc.StrokeLine2(thin, x+ladderBar, at, elbow, y)
	from := elbow + vg.Points(3)
	dc.FillText(words(ladderFont, ink, text.XLeft, text.YCenter), vg.Point{X: from, Y: y}, r.Name)
	dc.FillText(words(ladderFont, color.Black, text.XLeft, text.YCenter), vg.Point{X: from + nameWidth, Y: y}, r.Label)
}
