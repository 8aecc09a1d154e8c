package screen

import (
	"fmt"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/stopwatch"
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
		lines = append(lines, v.paint(colour, text))
	}
	if a := v.Log; a != nil {
		add(a.Status == stopwatch.Agrees, "The log: "+v.text(a.Says))
	}
	if a := v.Leak; a != nil {
		add(a.Status == vent.LeakTight, "The leak-down: "+v.text(a.Says))
	}
	return strings.Join(lines, "\n")
}

// writeLeak prints what the leak-down log says in figures.
func (v *VentScreen) writeLeak() {
	a := v.Leak
	if a == nil {
		return
	}
	t := v.grid()
	row := func(name, value string) { t.add("  "+name, value) }
	row("leak-down of", show.Clean(a.Volume))
	row("readings used", fmt.Sprintf("%d in %s", a.Count, show.Plural(a.Runs, "run", "runs")))
	if a.Hidden > 0 {
		row("left out", fmt.Sprintf("%d, hidden by the stop pin", a.Hidden))
	}
	if !math.IsNaN(a.Settled) {
		row("cooling is over after", v.Units.Worst(quantity.Time, a.Settled))
		row("and takes it down by at most", v.Units.Worst(quantity.Pressure, a.Cooling))
		row("readings are right to", v.Units.Near(quantity.Pressure, a.Resolves))
		row("the room may move them by", v.Units.Near(quantity.Pressure, a.Drift)+" ("+v.Units.Near(quantity.TemperatureStep, vent.RoomDrift)+")")
		row("to be read for at least", needed(v.Style, a.Needed))
	}
	if !math.IsNaN(a.RMS) {
		row("off the fitted course by", v.Units.Near(quantity.Pressure, a.RMS)+" (root mean square)")
	}
	leak := func(name string, z vent.LeakSize) {
		switch {
		case math.IsNaN(z.Area):
		case math.IsInf(z.Area, 1):
			row(name, "any")
		case z.Area == 0:
			row(name, "none")
		default:
			row(name, fmt.Sprintf("%s, %s, %s a minute", v.Units.Near(quantity.LeakBore, z.Bore()), v.Units.Near(quantity.LeakFlow, z.Air),
				v.Units.Near(quantity.Pressure, z.Minute)))
		}
	}
	leak("least leak that agrees", a.Least)
	leak("likeliest", a.Bore)
	leak("most that could hide", a.Most)
	v.printTable(t)
}

func needed(s Style, t float64) string {
	if math.IsInf(t, 1) {
		return "more than an hour: the gauge is too coarse"
	}
	return s.Units.Near(quantity.Time, t)
}

// writeLeakSheets prints the readings to expect of a leak-down.
func (v *VentScreen) writeLeakSheets() {
	for _, c := range v.Report.Leaks {
		if c.Opens != "" {
			v.gap()
			v.sayf("", "  ", "No leak-down of %s: in state armed %s is open on it, by design.", show.Clean(c.Volume), show.Clean(c.Opens))
			continue
		}
		v.gaugeSheet("Leak-down of ", c.Volume, c.Sheet)
		v.say("  ", "  ", "Gauge readings without a leak. "+v.Report.FromEmpty+", arm, supply off, nothing "+
			"loaded, one room, no sun. "+show.LeakWords(v.Units, v.Report, c))
	}
}
