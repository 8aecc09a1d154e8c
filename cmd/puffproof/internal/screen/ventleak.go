package screen

import (
	"fmt"
	"math"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/vent"
)

// logFinding is the first line where logs are judged; "" none is.
func (v *VentScreen) logFinding() string {
	var lines []string
	add := func(good bool, text string) {
		colour := yellow
		if good {
			colour = green
		}
		lines = append(lines, v.Style.paint(colour, text))
	}
	if a := v.Log; a != nil {
		add(a.Status == vent.LogAgrees, "The log: "+v.Style.text(a.Says))
	}
	if a := v.Leak; a != nil {
		add(a.Status == vent.LeakTight, "The leak-down: "+v.Style.text(a.Says))
	}
	return strings.Join(lines, "\n")
}

// writeLeak prints what the leak-down log says in figures.
func (v *VentScreen) writeLeak(b *strings.Builder) {
	a := v.Leak
	if a == nil {
		return
	}
	s := v.Style
	t := plainTable()
	row := func(name, value string) { t.AppendRow(table.Row{"  " + name, value}) }
	row("leak-down of", show.Clean(a.Volume))
	row("readings used", fmt.Sprintf("%d in %s", a.Count, show.Plural(a.Runs, "run", "runs")))
	if a.Hidden > 0 {
		row("left out", fmt.Sprintf("%d, hidden by the stop pin", a.Hidden))
	}
	if !math.IsNaN(a.Settled) {
		row("cooling is over after", s.Units.Worst(show.Time, a.Settled))
		row("and takes it down by at most", s.Units.Worst(show.Pressure, a.Cooling))
		row("readings are right to", s.Units.Near(show.Pressure, a.Resolves))
		row("the room may move them by", s.Units.Near(show.Pressure, a.Drift)+" ("+s.Units.Near(show.TemperatureStep, vent.RoomDrift)+")")
		row("to be read for at least", needed(s, a.Needed))
	}
	if !math.IsNaN(a.RMS) {
		row("off the fitted course by", s.Units.Near(show.Pressure, a.RMS)+" (root mean square)")
	}
	leak := func(name string, z vent.LeakSize) {
		switch {
		case math.IsNaN(z.Area):
		case math.IsInf(z.Area, 1):
			row(name, "any")
		case z.Area == 0:
			row(name, "none")
		default:
			row(name, fmt.Sprintf("%s, %s, %s a minute", s.Units.Near(show.LeakBore, z.Bore()), s.Units.Near(show.LeakFlow, z.Air),
				s.Units.Near(show.Pressure, z.Minute)))
		}
	}
	leak("least leak that agrees", a.Least)
	leak("likeliest", a.Bore)
	leak("most that could hide", a.Most)
	printTable(b, t)
}

func needed(s Style, t float64) string {
	if math.IsInf(t, 1) {
		return "more than an hour: the gauge is too coarse"
	}
	return s.Units.Near(show.Time, t)
}

// writeLeakSheets prints the readings to expect of a leak-down.
func (v *VentScreen) writeLeakSheets(b *strings.Builder) {
	s := v.Style
	for _, c := range v.Report.Leaks {
		if c.Opens != "" {
			fmt.Fprintln(b)
			s.sayf(b, "", "  ", "No leak-down of %s: in state armed %s is open on it, by design.", show.Clean(c.Volume), show.Clean(c.Opens))
			continue
		}
		s.gaugeSheet(b, "Leak-down of ", c.Volume, c.Sheet)
		s.say(b, "  ", "  ", "Gauge readings without a leak. Charge from empty until the supply stops by itself, arm, supply off, nothing "+
			"loaded, one room, no sun. "+s.Units.LeakWords(c))
	}
}
