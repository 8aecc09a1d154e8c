package render

import (
	"fmt"
	"math"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/worst"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// writeWave prints one shot in both models, side by side.
func (s Style) writeWave(b *strings.Builder, w *worst.WaveComparison) {
	if w == nil {
		return
	}
	fmt.Fprintln(b)
	if w.WhyNot != "" {
		fmt.Fprintln(b, Wrap(fmt.Sprintf("The wave model was not run for %s: %s.", Clean(w.Which), Clean(w.WhyNot)), s.Width, "", "  "))
		return
	}
	t := plainTable()
	t.SetColumnConfigs([]table.ColumnConfig{
		{Number: 2, Align: text.AlignRight}, {Number: 3, Align: text.AlignRight}, {Number: 4, Align: text.AlignRight},
	})
	t.AppendRow(table.Row{s.paint(bold, "Both models, to the muzzle"), s.paint(bold, "fast"), s.paint(bold, "wave"), s.paint(bold, "difference")})
	t.AppendRow(table.Row{"  outcome", Clean(w.Lumped.Outcome), Clean(w.Wave.Outcome), ""})
	row := func(name string, d unit.Dimension, fast, wave, relative float64) {
		t.AppendRow(table.Row{"  " + name, s.nearOrNone(d, fast), s.nearOrNone(d, wave), signed(relative)})
	}
	l, g, rel := w.Lumped, w.Wave, w.Relative
	row("speed", unit.Speed, l.Speed, g.Speed, rel.Speed)
	row("energy", unit.Energy, l.Energy, g.Energy, rel.Energy)
	row("time", unit.Time, l.Time, g.Time, rel.Time)
	row("highest pressure", unit.Pressure, l.Peak, g.Peak, rel.Peak)
	row("pressure as it leaves", unit.Pressure, l.Exit, g.Exit, rel.Exit)
	fmt.Fprintln(b, trimLines(t.Render()))
	about := fmt.Sprintf("This is %s; wave model on %d cells", Clean(w.Which), w.Cells)
	if !math.IsNaN(w.Mesh) {
		about += fmt.Sprintf(", %s %% in speed from the result on half of them", number(100*w.Mesh, 2))
	}
	about += fmt.Sprintf(". Air behind over mass %s (range: up to %s), sound crosses %s times (range: %s or more). ",
		number(w.Rule.GasRatio, 2), number(w.MaxGasRatio, 2), number(w.Rule.SoundTimes, 2), number(w.MinSoundTimes, 2))
	fmt.Fprintln(b, Wrap(about+Clean(w.Matters), s.Width, "  ", "  "))
}

// nearOrNone shows a figure that only a shot that left has.
func (s Style) nearOrNone(d unit.Dimension, si float64) string {
	if math.IsNaN(si) {
		return "-"
	}
	return s.near(d, si)
}

// signed shows a share with its sign and two digits of percent.
func signed(share float64) string {
	if math.IsNaN(share) || math.IsInf(share, 0) {
		return "-"
	}
	return fmt.Sprintf("%+.2f %%", 100*share)
}

type waveDoc struct {
	Which      string    `json:"which"`
	WhyNot     *string   `json:"not_run_because"`
	Lumped     boreDoc   `json:"lumped"`
	Wave       *boreDoc  `json:"wave"`
	Excess     *float64  `json:"energy_excess"`
	Mesh       *float64  `json:"mesh_error"`
	Cells      int       `json:"cells"`
	GasRatio   *float64  `json:"gas_over_mass"`
	SoundTimes *float64  `json:"sound_times"`
	Range      rangesDoc `json:"range"`
	Inside     bool      `json:"inside_range"`
	Matters    string    `json:"matters"`
}

type rangesDoc struct {
	MaxGasRatio   float64 `json:"gas_over_mass_max"`
	MinSoundTimes float64 `json:"sound_times_min"`
}

type boreDoc struct {
	Outcome string   `json:"outcome"`
	Speed   *float64 `json:"muzzle_speed_m_s"`
	Energy  *float64 `json:"muzzle_energy_J"`
	Time    *float64 `json:"exit_time_s"`
	Peak    float64  `json:"peak_gauge_Pa"`
	Exit    *float64 `json:"exit_gauge_Pa"`
}

// waveOf is the document of a comparison; nil where there is none.
func waveOf(w *worst.WaveComparison) *waveDoc {
	if w == nil {
		return nil
	}
	d := &waveDoc{Which: w.Which, Lumped: boreOf(w.Lumped), Cells: w.Cells, GasRatio: known(w.Rule.GasRatio), SoundTimes: known(w.Rule.SoundTimes),
		Range: rangesDoc{w.MaxGasRatio, w.MinSoundTimes}, Inside: w.Inside, Matters: w.Matters, Excess: known(w.Excess), Mesh: known(w.Mesh)}
	if w.WhyNot != "" {
		d.WhyNot = &w.WhyNot
		return d
	}
	wave := boreOf(w.Wave)
	d.Wave = &wave
	return d
}

func boreOf(f worst.BoreFigures) boreDoc {
	return boreDoc{Outcome: f.Outcome, Speed: known(f.Speed), Energy: known(f.Energy), Time: known(f.Time), Peak: f.Peak, Exit: known(f.Exit)}
}

// known is null for a figure that does not exist.
func known(v float64) *float64 {
	if math.IsNaN(v) {
		return nil
	}
	return &v
}
