package screen

import (
	"fmt"
	"io"
	"math"

	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/measure"
)

// FlightScreen shows where the projectile goes, on a terminal or in a pipe.
type FlightScreen struct {
	Frame
	Report *measure.FlightReport
}

// Write prints the screen.
func (f *FlightScreen) Write(w io.Writer) error {
	return f.write(w, f.finding(), f.design, f.writeCases, f.writeStanding, f.writeLevels, f.notes(f.Report.Notes),
		f.closing("Energy at a distance is information: it makes no verdict pass, since somebody may be nearer."), f.cautions)
}

// finding is the first line: how much is kept clear, and who stands in it.
func (f *FlightScreen) finding() string {
	r := f.Report
	text := fmt.Sprintf("Keep %s clear all round: it may land %s ahead or %s behind, and then it bounces.",
		f.Units.Worst(show.Length, r.ClearRadius), f.Units.Worst(show.Length, r.Ahead), f.Units.Worst(show.Length, r.Behind))
	colour := bold
	if at, inside := r.PersonInside(); inside {
		text += fmt.Sprintf(" The nearest person, at %s, stands INSIDE.", f.Units.Near(show.Length, at))
		colour = red
	}
	return f.lines(colour, "", "", text)
}

func (f *FlightScreen) writeCases() {
	r := f.Report
	t := f.grid("flight", "speed", "elevation", "wind", "apex", "lands at", "after", "impact")
	for _, c := range r.Cases {
		t.add(show.Clean(c.Name), f.Units.Worst(show.Speed, c.Speed), f.Units.Near(show.Angle, c.Elevation), f.wind(c.Wind),
			f.Units.Near(show.Length, c.Apex),
			f.landing(c.Distance), f.Units.Near(show.Time, c.Time), f.Units.Worst(show.Energy, c.ImpactEnergy))
	}
	f.printTable(t)
	f.sayf("", "  ", "Muzzle at %s; elevations from %s to %s. The fastest speed, %s, is the worst over the tolerances with the model "+
		"factor. Apex above the ground, landing from where the muzzle was; behind it is negative. The clear zone adds %s for bouncing and "+
		"rolling (own rule).", f.Units.Near(show.Length, r.Height), f.Units.Near(show.Angle, r.ElevationLow),
		f.Units.Near(show.Angle, r.ElevationTop), f.Units.Worst(show.Speed, r.Fast), f.Units.Near(show.Length, r.Bounce))
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

func (f *FlightScreen) writeStanding() {
	if len(f.Report.Standing) == 0 {
		return
	}
	f.gap()
	for _, p := range f.Report.Standing {
		if p.Inside {
			f.println(f.lines(yellow, "", "  ", fmt.Sprintf("INSIDE the landing zone: %s, at "+
				"%s.", show.Clean(p.Name), f.Units.Near(show.Length, p.Distance))))
		} else {
			f.sayf("", "  ", "Outside: %s, at %s.", show.Clean(p.Name), f.Units.Near(show.Length, p.Distance))
		}
	}
}

func (f *FlightScreen) writeLevels() {
	t := f.grid("level shot at", "speed", "energy", "per contact area", "")
	for _, l := range f.Report.Levels {
		area := "not known"
		if l.AreaEnergy > 0 {
			area = f.Units.Worst(show.EnergyPerArea, l.AreaEnergy)
		}
		t.add(f.Units.Near(show.Length, l.Distance), f.Units.Worst(show.Speed, l.Speed), f.Units.Worst(show.Energy, l.Energy),
			area, shorten(show.Clean(l.Name), 30))
	}
	f.printTable(t)
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
