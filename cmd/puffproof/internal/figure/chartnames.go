package figure

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// nameSize is the size of the names within a chart, in points.
const nameSize = 8

// chartNames writes the names of a chart's curves and limits, each beside its own line where it touches no line and no other name,
// as far as there is such a place. The names of limits are placed first: they can only go along a straight line.
type chartNames struct{ chart Chart }

// traced is a line of a chart as points of the canvas, none further than a step from the next.
type traced struct {
	points []vg.Point
	weight float64 // what a name across it costs
}

// named is a name that looks for its place.
type named struct {
	text  string
	ink   color.Color
	line  int            // its own among those traced
	boxes []vg.Rectangle // where it may go, the best first
}

// What a place costs. A name over a name cannot be read; one across a curve hardly; one that another curve is nearer to than its own
// says the wrong thing. The places of a name are listed from the best, and each next one costs a little more (tried on the figures of
// the examples; no source).
const (
	overName    = 1000.0
	overLine    = 100.0
	overPale    = 3.0 // the edge of a band, a curve of what was before
	atAnother   = 30.0
	eachFurther = 0.1
)

// Plot writes the names.
func (n chartNames) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	lines, names := n.chart.trace(c.Rectangle, tx, ty)
	for i, at := range placeNames(lines, names) {
		c.FillText(words(nameSize, names[i].ink, text.XLeft, text.YBottom), at.Min, names[i].text)
	}
}

// trace gives all lines of the chart, and the names of those that have one.
func (c Chart) trace(area vg.Rectangle, tx, ty func(float64) vg.Length) (lines []traced, names []named) {
	for _, m := range c.Limits {
		from, to := vg.Point{X: area.Min.X, Y: ty(m.At)}, vg.Point{X: area.Max.X, Y: ty(m.At)}
		if m.Vertical {
			from, to = vg.Point{X: tx(m.At), Y: area.Max.Y}, vg.Point{X: tx(m.At), Y: area.Min.Y}
		}
		names = append(names, named{text: m.Name, ink: limitInk(), line: len(lines)})
		lines = append(lines, trace([]vg.Point{from, to}, overLine))
	}
	now := 0
	for _, l := range c.Lines {
		on := func(y []float64, weight float64) {
			points := make([]vg.Point, 0, len(y))
			for k := range y {
				points = append(points, vg.Point{X: tx(l.X[k]), Y: ty(y[k])})
			}
			lines = append(lines, trace(points, weight))
		}
		if l.Before {
			on(l.Y, overPale)
			continue
		}
		names = append(names, named{text: l.Name, ink: lineInks()[now%len(lineInks())], line: len(lines)})
		now++
		on(l.Y, overLine)
		on(l.Low, overPale)
		on(l.High, overPale)
	}
	var out []named
	for _, n := range names {
		if n.text != "" {
			n.boxes = beside(lines[n.line].points, n.line < len(c.Limits), widthOf(n.text, nameSize), area)
			out = append(out, n)
		}
	}
	return lines, out
}

// trace puts points on a line where two are further apart than a step, and leaves out those that are nearer.
func trace(points []vg.Point, weight float64) traced {
	const step = 1.5 // points
	out := traced{weight: weight}
	for i, p := range points {
		if i == 0 {
			out.points = append(out.points, p)
			continue
		}
		last := out.points[len(out.points)-1]
		far := math.Hypot(float64(p.X-last.X), float64(p.Y-last.Y))
		for n, k := math.Floor(far/step), 1.0; k <= n; k++ {
			u := vg.Length(k / n)
			out.points = append(out.points, vg.Point{X: last.X + u*(p.X-last.X), Y: last.Y + u*(p.Y-last.Y)})
		}
	}
	return out
}

// beside lists the places along a line, those within the area first: above and below it, left and right of it, and between, where a
// curve that rises or falls leaves room. Those of a limit begin at its end, those of a curve in its middle.
func beside(line []vg.Point, limit bool, width vg.Length, area vg.Rectangle) []vg.Rectangle {
	const height, places = nameSize * 1.1, 16
	var out, outside []vg.Rectangle
	for _, gap := range []vg.Length{2, 8} {
		for k := range places {
			at := line[int(along(float64(k)/(places-1), limit, line)*float64(len(line)-1))]
			for _, by := range []vg.Point{{X: -width / 2, Y: gap}, {X: -width / 2, Y: -gap - height}, {X: -gap - width, Y: -height / 2},
				{X: gap, Y: -height / 2}, {X: -width, Y: gap}, {X: gap, Y: -gap - height}, {X: gap, Y: gap}, {X: -gap - width, Y: -gap - height}} {
				corner := at.Add(by)
				box := vg.Rectangle{Min: corner, Max: vg.Point{X: corner.X + width, Y: corner.Y + height}}
				if inside(box, area) {
					out = append(out, box)
				} else {
					outside = append(outside, into(box, area))
				}
			}
		}
	}
	return append(out, outside...)
}

// along is where on a line the place of a rank, from 0 to 1, is: a level limit is named at its right end, an upright one at its top,
// a curve beyond its middle, then by turns towards both ends.
func along(rank float64, limit bool, line []vg.Point) float64 {
	const middle, turns = 0.6, 15
	switch level := line[0].Y == line[len(line)-1].Y; {
	case limit && level:
		return 1 - rank
	case limit:
		return rank
	case int(math.Round(rank*turns))%2 == 0:
		return middle + (1-middle)*rank
	}
	return middle - middle*rank
}

func inside(box, area vg.Rectangle) bool {
	return box.Min.X >= area.Min.X && box.Min.Y >= area.Min.Y && box.Max.X <= area.Max.X && box.Max.Y <= area.Max.Y
}

// into moves a box into the area; one that is larger begins at its lower left corner.
func into(box, area vg.Rectangle) vg.Rectangle {
	dx := max(min(0, area.Max.X-box.Max.X), area.Min.X-box.Min.X)
	dy := max(min(0, area.Max.Y-box.Max.Y), area.Min.Y-box.Min.Y)
	by := vg.Point{X: dx, Y: dy}
	return vg.Rectangle{Min: box.Min.Add(by), Max: box.Max.Add(by)}
}

// placeNames gives each name the place that costs least, one after the other.
func placeNames(lines []traced, names []named) []vg.Rectangle {
	taken := make([]vg.Rectangle, 0, len(names))
	for _, n := range names {
		best, least := n.boxes[0], math.Inf(1)
		for k, box := range n.boxes {
			cost := costOf(box, n.line, lines, taken)
			if rank := float64(k) * eachFurther; cost+rank < least {
				best, least = box, cost+rank
			}
			if cost == 0 { // all that follow cost more
				break
			}
		}
		taken = append(taken, best)
	}
	return taken
}

// costOf is what a place costs.
func costOf(box vg.Rectangle, own int, lines []traced, taken []vg.Rectangle) float64 {
	cost := 0.0
	for _, t := range taken {
		if box.Min.X < t.Max.X && t.Min.X < box.Max.X && box.Min.Y < t.Max.Y && t.Min.Y < box.Max.Y {
			cost += overName
		}
	}
	mine, nearest := away(box, lines[own].points), math.Inf(1)
	for i, l := range lines {
		d := away(box, l.points)
		if d < 1 {
			cost += l.weight
		}
		if i != own && l.weight == overLine {
			nearest = min(nearest, d)
		}
	}
	if nearest < mine {
		cost += atAnother
	}
	return cost
}

// away is how far a line is from a box, in points; 0 where it crosses it.
func away(box vg.Rectangle, line []vg.Point) float64 {
	least := math.Inf(1)
	for _, p := range line {
		dx, dy := max(box.Min.X-p.X, p.X-box.Max.X, 0), max(box.Min.Y-p.Y, p.Y-box.Max.Y, 0)
		least = min(least, math.Hypot(float64(dx), float64(dy)))
	}
	return least
}
