package figure

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/plot/vg"
)

// namesOf are the names of a chart and their places on an area of the usual size, both axes from 0 to the largest value as Draw has them.
func namesOf(c Chart) (area vg.Rectangle, lines []traced, names []named, at []vg.Rectangle) {
	area = vg.Rectangle{Min: vg.Point{X: 20, Y: 25}, Max: vg.Point{X: 245, Y: 160}}
	xTop, yTop := c.tops()
	on := func(low, high vg.Length, top float64) func(float64) vg.Length {
		return func(v float64) vg.Length { return low + vg.Length(v/top)*(high-low) }
	}
	lines, names = c.trace(area, on(area.Min.X, area.Max.X, xTop), on(area.Min.Y, area.Max.Y, 1.08*yTop))
	return area, lines, names, placeNames(lines, names)
}

// crossings counts names over lines, names over names, and names nearer to another curve than to their own.
func crossings(lines []traced, names []named, at []vg.Rectangle) (cross, overlap, elsewhere int) {
	for i, box := range at {
		mine := away(box, lines[names[i].line].points)
		for k, l := range lines {
			if l.weight != overLine {
				continue
			}
			if d := away(box, l.points); d == 0 {
				cross++
			} else if k != names[i].line && d < mine {
				elsewhere++
			}
		}
		for _, other := range at[:i] {
			if box.Min.X < other.Max.X && other.Min.X < box.Max.X && box.Min.Y < other.Max.Y && other.Min.Y < box.Max.Y {
				overlap++
			}
		}
	}
	return cross, overlap, elsewhere
}

// curved is a curve of the energy over the start pressure.
func curved(name string, top float64) ChartLine {
	l := ChartLine{Name: name}
	for p := 0.0; p <= 0.64; p += 0.01 {
		l.X, l.Y = append(l.X, p), append(l.Y, top*math.Max(0, math.Tanh(3*(p-0.12))))
	}
	return l
}

// The figure of energies has two limits that cross, and two curves close together far below: each name is beside its own.
func TestNamesTouchNothingInTheFigureOfEnergies(t *testing.T) {
	for _, top := range []float64{0.02, 0.07, 0.12, 0.3, 0.48, 0.9} {
		for _, ratio := range []float64{1.2, 1.7, 3} {
			c := Chart{Lines: []ChartLine{curved("nominal", top/ratio), curved("worst found so far", top)},
				Limits: []ChartLimit{{Name: "limit 0.50 J", At: 0.5}, {Name: "cut-out", At: 0.36, Vertical: true}}}
			area, lines, names, at := namesOf(c)
			cross, overlap, elsewhere := crossings(lines, names, at)
			assert.Zero(t, elsewhere, "worst %g J, ratio %g: %v", top, ratio, at)
			assert.Zero(t, cross, "worst %g J, ratio %g: %v", top, ratio, at)
			assert.Zero(t, overlap, "worst %g J, ratio %g: %v", top, ratio, at)
			for i, box := range at {
				assert.True(t, inside(box, area), "%s", names[i].text)
			}
		}
	}
}

// Whatever the curves, no name stands over another one or beyond the figure, and few across a line even where there are six.
func TestNamesOfAnyChart(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 15))
	total, crossed := 0, 0
	for range 200 {
		c := Chart{}
		for i := range 1 + r.IntN(4) {
			l := ChartLine{Name: "volume " + string(rune('a'+i))}
			top, bend := r.Float64(), 6*r.Float64()-3
			for x := 0.0; x <= 1; x += 0.02 {
				l.X, l.Y = append(l.X, x), append(l.Y, top*math.Exp(bend*x))
			}
			c.Lines = append(c.Lines, l)
		}
		for range r.IntN(3) {
			c.Limits = append(c.Limits, ChartLimit{Name: "a limit", At: r.Float64(), Vertical: r.IntN(2) == 0})
		}
		area, lines, names, at := namesOf(c)
		cross, overlap, _ := crossings(lines, names, at)
		total, crossed = total+len(at), crossed+cross
		assert.Zero(t, overlap)
		for _, box := range at {
			assert.True(t, inside(box, area))
		}
	}
	assert.Less(t, crossed, total/30, "of %d names, in figures that no launcher makes", total)
}
