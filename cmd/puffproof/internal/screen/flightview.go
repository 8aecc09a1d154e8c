package screen

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"

	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/measure"
)

// FlightScreen shows where the projectile goes, on a terminal or in a pipe.
type FlightScreen struct {
	Style  Style
	Design show.DesignID
	Report *measure.FlightReport
	Detail Detail
}

// Write prints the screen.
func (f *FlightScreen) Write(w io.Writer) error {
	s := f.Style
	return s.write(w, f.Detail, f.finding(), s.design(f.Design), f.writeCases, f.writeStanding, f.writeLevels, s.notes(f.Report.Notes),
		s.closing("Energy at a distance is information: it makes no verdict pass, since somebody may be nearer."))
}

// finding is the first line: how much is kept clear, and who stands in it.
func (f *FlightScreen) finding() string {
	s, r := f.Style, f.Report
	text := fmt.Sprintf("Keep %s clear all round: it may land %s ahead or %s behind, and then it bounces.",
		s.Units.Worst(show.Length, r.ClearRadius), s.Units.Worst(show.Length, r.Ahead), s.Units.Worst(show.Length, r.Behind))
	colour := bold
	if at, inside := r.PersonInside(); inside {
		text += fmt.Sprintf(" The nearest person, at %s, stands INSIDE.", s.Units.Near(show.Length, at))
		colour = red
	}
	return s.paint(colour, Wrap(text, s.Width, "", ""))
}

func (f *FlightScreen) writeCases(b *strings.Builder) {
	s, r := f.Style, f.Report
	t := plainTable()
	t.AppendRow(s.heads("flight", "speed", "elevation", "wind", "apex", "lands at", "after", "impact"))
	for _, c := range r.Cases {
		t.AppendRow(table.Row{show.Clean(c.Name), s.Units.Worst(show.Speed, c.Speed), s.Units.Near(show.Angle, c.Elevation), s.wind(c.Wind),
			s.Units.Near(show.Length, c.Apex),
			s.landing(c.Distance), s.Units.Near(show.Time, c.Time), s.Units.Worst(show.Energy, c.ImpactEnergy)})
	}
	printTable(b, t)
	s.sayf(b, "", "  ", "Muzzle at %s; elevations from %s to %s. The fastest speed, %s, is the worst over the tolerances with the model "+
		"factor. "+"Apex above the ground, landing from where the muzzle was; behind it is negative. The clear zone adds %s for bouncing and "+
		"rolling (own rule).", s.Units.Near(show.Length, r.Height), s.Units.Near(show.Angle, r.ElevationLow),
		s.Units.Near(show.Angle, r.ElevationTop), s.Units.Worst(show.Speed, r.Fast), s.Units.Near(show.Length, r.Bounce))
}

// landing shows a distance, ahead or behind, that must not look shorter than it is.
func (s Style) landing(x float64) string {
	if x < 0 {
		return "-" + s.Units.Worst(show.Length, -x)
	}
	return s.Units.Worst(show.Length, x)
}

// wind says where a wind comes from.
func (s Style) wind(v float64) string {
	switch {
	case v > 0:
		return s.Units.Near(show.Speed, v) + " tail"
	case v < 0:
		return s.Units.Near(show.Speed, -v) + " head"
	}
	return "still"
}

func (f *FlightScreen) writeStanding(b *strings.Builder) {
	s := f.Style
	if len(f.Report.Standing) == 0 {
		return
	}
	fmt.Fprintln(b)
	for _, p := range f.Report.Standing {
		if p.Inside {
			fmt.Fprintln(b, s.paint(yellow, Wrap(fmt.Sprintf("INSIDE the landing zone: %s, at "+
				"%s.", show.Clean(p.Name), s.Units.Near(show.Length, p.Distance)), s.Width, "", "  ")))
		} else {
			s.sayf(b, "", "  ", "Outside: %s, at %s.", show.Clean(p.Name), s.Units.Near(show.Length, p.Distance))
		}
	}
}

func (f *FlightScreen) writeLevels(b *strings.Builder) {
	s := f.Style
	t := plainTable()
	t.AppendRow(s.heads("level shot at", "speed", "energy", "per contact area", ""))
	for _, l := range f.Report.Levels {
		area := "not known"
		if l.AreaEnergy > 0 {
			area = s.Units.Worst(show.EnergyPerArea, l.AreaEnergy)
		}
		t.AppendRow(table.Row{s.Units.Near(show.Length, l.Distance), s.Units.Worst(show.Speed, l.Speed), s.Units.Worst(show.Energy, l.Energy),
			area, shorten(show.Clean(l.Name), 30)})
	}
	printTable(b, t)
}

// FlightLines turns the flights into the data of their figure.
func FlightLines(id show.DesignID, r *measure.FlightReport, u show.System) figure.Lines {
	far := 0.0
	for _, c := range r.Cases {
		far = math.Max(far, math.Max(math.Abs(c.Distance), c.Apex))
	}
	lu := u.Axis(show.Length, far)
	out := figure.Lines{Title: shorten(show.Clean(id.Title()), 60) + ": flights", X: "Distance from the muzzle, " + lu.Name, Y: "Height, " +
		lu.Name}
	for _, c := range r.Cases {
		l := figure.Line{Name: c.Name}
		for _, p := range c.Track {
			l.X, l.Y = append(l.X, lu.Of(p.X)), append(l.Y, lu.Of(p.Y))
		}
		out.Lines = append(out.Lines, l)
	}
	return out
}
