package screen

import (
	"fmt"
	"math"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/worst"
)

// wave is one shot in both models, side by side.
func (s Style) wave(w *worst.WaveComparison) part {
	return func(b *strings.Builder) {
		if w == nil {
			return
		}
		fmt.Fprintln(b)
		if len(w.WhyNot) != 0 {
			s.sayf(b, "", "  ", "The wave model was not run for %s: %s.", show.Clean(w.Which), s.text(w.WhyNot))
			return
		}
		t := plainTable()
		t.SetColumnConfigs([]table.ColumnConfig{
			{Number: 2, Align: text.AlignRight}, {Number: 3, Align: text.AlignRight}, {Number: 4, Align: text.AlignRight},
		})
		t.AppendRow(s.heads("Both models, to the muzzle", "fast", "wave", "difference"))
		t.AppendRow(table.Row{"  outcome", show.Clean(w.Lumped.Outcome), show.Clean(w.Wave.Outcome), ""})
		row := func(name string, q show.Quantity, fast, wave, relative float64) {
			t.AppendRow(table.Row{"  " + name, s.orNone(q, fast), s.orNone(q, wave), show.Deviation(relative)})
		}
		l, g, rel := w.Lumped, w.Wave, w.Relative
		row("speed", show.Speed, l.Speed, g.Speed, rel.Speed)
		row("energy", show.Energy, l.Energy, g.Energy, rel.Energy)
		row("time", show.Time, l.Time, g.Time, rel.Time)
		row("highest pressure", show.Gauge, l.Peak, g.Peak, rel.Peak)
		row("pressure as it leaves", show.Gauge, l.Exit, g.Exit, rel.Exit)
		fmt.Fprintln(b, trimLines(t.Render()))
		about := fmt.Sprintf("This is %s; wave model on %d cells", show.Clean(w.Which), w.Cells)
		if !math.IsNaN(w.Mesh) {
			about += fmt.Sprintf(", %s %% in speed from the result on half of them", show.Number(100*w.Mesh, 2))
		}
		about += fmt.Sprintf(". Air behind over mass %s (range: up to %s), sound crosses %s times (range: %s or more). ",
			show.Number(w.Rule.GasRatio, 2), show.Number(w.MaxGasRatio, 2), show.Number(w.Rule.SoundTimes, 2), show.Number(w.MinSoundTimes, 2))
		s.say(b, "  ", "  ", about+s.text(w.Matters))
	}
}

// orNone shows a figure that only a shot that left has.
func (s Style) orNone(q show.Quantity, si float64) string {
	if math.IsNaN(si) {
		return "-"
	}
	return s.Units.Near(q, si)
}
