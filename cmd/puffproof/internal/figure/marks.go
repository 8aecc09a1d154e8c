package figure

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"puffproof/cmd/puffproof/internal/quantity"
)

// exitMark is a dashed line at the instant the projectile leaves, with a label
// on the side where there is room.
type exitMark struct {
	x     float64
	label string
}

// Plot draws the mark.
func (m exitMark) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	x := tx(m.x)
	c.StrokeLine2(draw.LineStyle{Color: paleInk(), Width: vg.Points(0.9), Dashes: []vg.Length{vg.Points(3), vg.Points(2)}},
		x, c.Min.Y, x, ty(p.Y.Max))
	if m.label == "" {
		return
	}
	s := words(8, paleInk(), text.XRight, text.YBottom)
	gap := -vg.Points(3)
	if x-s.Width(m.label)+gap < c.Min.X {
		s.XAlign, gap = text.XLeft, -gap
	}
	c.FillText(s, vg.Point{X: x + gap, Y: c.Min.Y + vg.Points(4)}, m.label)
}

// evenTicks puts four to seven labelled ticks at round steps of 1, 2 or 5.
func evenTicks(low, high float64) []plot.Tick {
	span := high - low
	if !(span > 0) {
		return nil
	}
	step := math.Pow(10, math.Floor(math.Log10(span)))
	for _, part := range []float64{1, 0.5, 0.2, 0.1} {
		if span/(step*part) >= 4 {
			step *= part
			break
		}
	}
	decimals := max(0, -int(math.Floor(math.Log10(step)+1e-9))) // 1e-9: log10(0.1) must count as -1
	var ticks []plot.Tick
	for k := math.Ceil(low/step - 1e-9); k*step <= high+1e-9*span; k++ {
		ticks = append(ticks, plot.Tick{Value: k * step, Label: quantity.Fixed(k*step, decimals, quantity.Nearest)})
	}
	return ticks
}
