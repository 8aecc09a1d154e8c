package screen

import (
	"fmt"
	"math"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/worst"
)

// wave is one shot in both models, side by side.
func (s *Frame) wave(w *worst.WaveComparison) part {
	return func() {
		if w == nil {
			return
		}
		s.gap()
		if len(w.WhyNot) != 0 {
			s.sayf("", "  ", "The wave model was not run for %s: %s.", show.Clean(w.Which), s.text(w.WhyNot))
			return
		}
		t := s.grid("Both models, to the muzzle", "fast", "wave", "difference")
		t.right(2, 3, 4)
		t.add("  outcome", show.Clean(w.Lumped.Outcome), show.Clean(w.Wave.Outcome), "")
		row := func(name string, q quantity.Kind, fast, wave, relative float64) {
			t.add("  "+name, s.orNone(q, fast), s.orNone(q, wave), quantity.Deviation(relative))
		}
		l, g, rel := w.Lumped, w.Wave, w.Relative
		row("speed", quantity.Speed, l.Speed, g.Speed, rel.Speed)
		row("energy", quantity.Energy, l.Energy, g.Energy, rel.Energy)
		row("time", quantity.Time, l.Time, g.Time, rel.Time)
		row("highest pressure", quantity.Gauge, l.Peak, g.Peak, rel.Peak)
		row("pressure as it leaves", quantity.Gauge, l.Exit, g.Exit, rel.Exit)
		s.printRows(t)
		about := fmt.Sprintf("This is %s; wave model on %d cells", show.Clean(w.Which), w.Cells)
		if !math.IsNaN(w.Mesh) {
			about += fmt.Sprintf(", %s %% in speed from the result on half of them", quantity.Number(100*w.Mesh, 2))
		}
		about += fmt.Sprintf(". Air behind over mass %s (range: up to %s), sound crosses %s times (range: %s or more). ",
			quantity.Number(w.Rule.GasRatio, 2), quantity.Number(w.MaxGasRatio, 2), quantity.Number(w.Rule.SoundTimes, 2),
			quantity.Number(w.MinSoundTimes, 2))
		s.say("  ", "  ", about+s.text(w.Matters))
	}
}

// orNone shows a figure that only a shot that left has.
func (s Style) orNone(q quantity.Kind, si float64) string {
	if math.IsNaN(si) {
		return "-"
	}
	return s.Units.Near(q, si)
}
