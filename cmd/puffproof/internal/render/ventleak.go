package render

import (
	"fmt"
	"math"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/vent"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
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
		add(a.Status == vent.LogAgrees, "The log: "+Clean(a.Says))
	}
	if a := v.Leak; a != nil {
		add(a.Status == vent.LeakTight, "The leak-down: "+Clean(a.Says))
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
	row("leak-down of", Clean(a.Volume))
	row("readings used", fmt.Sprintf("%d in %s", a.Count, plural(a.Runs, "run", "runs")))
	if a.Hidden > 0 {
		row("left out", fmt.Sprintf("%d, hidden by the stop pin", a.Hidden))
	}
	if !math.IsNaN(a.Settled) {
		row("cooling is over after", s.worst(unit.Time, a.Settled))
		row("and takes it down by at most", fall(s.worst(unit.Pressure, a.Cooling)))
		row("readings are right to", fall(s.near(unit.Pressure, a.Resolves)))
		row("the room may move them by", fmt.Sprintf("%s (%.0f K)", fall(s.near(unit.Pressure, a.Drift)), vent.RoomDrift))
		row("to be read for at least", needed(s, a.Needed))
	}
	if !math.IsNaN(a.RMS) {
		row("off the fitted course by", fall(s.near(unit.Pressure, a.RMS))+" (root mean square)")
	}
	leak := func(name string, z vent.LeakSize) {
		switch {
		case math.IsNaN(z.Area):
		case math.IsInf(z.Area, 1):
			row(name, "any")
		case z.Area == 0:
			row(name, "none")
		default:
			row(name, fmt.Sprintf("%s, %s mL/min, %s a minute", hole(s, z.Bore()), number(60e6*z.Air, 2), fall(s.near(unit.Pressure, z.Minute))))
		}
	}
	leak("least leak that agrees", a.Least)
	leak("likeliest", a.Bore)
	leak("most that could hide", a.Most)
	fmt.Fprintln(b, trimLines("\n"+t.Render()))
}

// fall is a difference of readings: no gauge pressure.
func fall(text string) string { return strings.TrimSuffix(text, " gauge") }

// hole is the bore of a leak, finer than bores are drilled.
func hole(s Style, d float64) string {
	if s.Units == unit.US {
		return number(d/25.4e-3, 2) + " in"
	}
	return number(1e3*d, 2) + " mm"
}

func needed(s Style, t float64) string {
	if math.IsInf(t, 1) {
		return "more than an hour: the gauge is too coarse"
	}
	return s.near(unit.Time, t)
}

// writeLeakSheets prints the readings to expect of a leak-down.
func (v *VentScreen) writeLeakSheets(b *strings.Builder) {
	s := v.Style
	for _, c := range v.Report.Leaks {
		fmt.Fprintln(b)
		if c.Opens != "" {
			fmt.Fprintln(b, Wrap(fmt.Sprintf("No leak-down of %s: in state armed %s is open on it, by design.", Clean(c.Volume), Clean(c.Opens)), s.Width, "", "  "))
			continue
		}
		t := plainTable()
		t.AppendRow(table.Row{s.paint(bold, "Leak-down of "+Shorten(Clean(c.Volume), 14)), s.paint(bold, "lowest"), s.paint(bold, "expected"), s.paint(bold, "highest"), s.paint(bold, "read")})
		for _, r := range c.Sheet {
			t.AppendRow(table.Row{"  " + s.near(unit.Time, r.Time), reads(s, r.Low), reads(s, r.Gauge), reads(s, r.High), "______"})
		}
		fmt.Fprintln(b, trimLines(t.Render()))
		fmt.Fprintln(b, Wrap(leakWords(s, c), s.Width, "  ", "  "))
	}
}

func leakWords(s Style, c vent.LeakTest) string {
	return "Gauge readings without a leak. Charge from empty until the supply stops by itself, arm, supply off, nothing loaded, one room, no sun. " +
		LeakWords(c, s.near, s.worst)
}

// LeakWords says what the cooling does to a leak-down and how long to read. near and
// worst write a value, to the nearest digit and so that it does not look better than
// it is.
func LeakWords(c vent.LeakTest, near, worst func(d unit.Dimension, si float64) string) string {
	t := fmt.Sprintf("Cooling alone takes it down by %s, %s at most, and is over after %s.", fall(near(unit.Pressure, c.Falls)), fall(worst(unit.Pressure, c.FallsMost)), worst(unit.Time, c.Settled))
	switch {
	case math.IsNaN(c.Needed):
		return t + " No gauge is stated on it."
	case math.IsInf(c.Needed, 1):
		return t + " Its gauge is too coarse to tell a leak within an hour."
	}
	return t + fmt.Sprintf(" Read for %s: then no leak of more than %s a minute can hide.", near(unit.Time, c.Needed), fall(near(unit.Pressure, c.Loses)))
}
