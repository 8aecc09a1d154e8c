package screen

import (
	"fmt"
	"io"

	"puffproof/cmd/puffproof/internal/quantity"
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
		f.Units.Worst(quantity.Length, r.ClearRadius), f.Units.Worst(quantity.Length, r.Ahead), f.Units.Worst(quantity.Length, r.Behind))
	colour := bold
	if at, inside := r.PersonInside(); inside {
		text += fmt.Sprintf(" Somebody is INSIDE, as near as %s.", f.Units.Near(quantity.Length, at))
		colour = red
	}
	return f.lines(colour, "", "", text)
}

func (f *FlightScreen) writeCases() {
	r := f.Report
	t := f.grid("flight", "speed", "elevation", "wind", "apex", "lands at", "after", "impact")
	for _, c := range r.Cases {
		t.add(show.Clean(c.Name), f.Units.Worst(quantity.Speed, c.Speed), f.Units.Near(quantity.Angle, c.Elevation), f.wind(c.Wind),
			f.Units.Near(quantity.Length, c.Apex),
			f.landing(c.Distance), f.Units.Near(quantity.Time, c.Time), f.Units.Worst(quantity.Energy, c.ImpactEnergy))
	}
	f.printTable(t)
	f.sayf("", "  ", "Muzzle at %s; elevations from %s to %s. The fastest speed, %s, is the worst over the tolerances with the model "+
		"factor. Apex above the ground, landing from where the muzzle was; behind it is negative. The clear zone adds %s for bouncing and "+
		"rolling (own rule).", f.Units.Near(quantity.Length, r.Height), f.Units.Near(quantity.Angle, r.ElevationLow),
		f.Units.Near(quantity.Angle, r.ElevationTop), f.Units.Worst(quantity.Speed, r.Fast), f.Units.Near(quantity.Length, r.Bounce))
}

// landing shows a distance, ahead or behind, that must not look shorter than it is.
func (s Style) landing(x float64) string {
	if x < 0 {
		return "-" + s.Units.Worst(quantity.Length, -x)
	}
	return s.Units.Worst(quantity.Length, x)
}

// wind says where a wind comes from.
func (s Style) wind(v float64) string {
	switch {
	case v > 0:
		return s.Units.Near(quantity.Speed, v) + " tail"
	case v < 0:
		return s.Units.Near(quantity.Speed, -v) + " head"
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
				"%s.", show.Clean(p.Name), f.Units.Near(quantity.Length, p.Distance))))
		} else {
			f.sayf("", "  ", "Outside: %s, at %s.", show.Clean(p.Name), f.Units.Near(quantity.Length, p.Distance))
		}
	}
}

func (f *FlightScreen) writeLevels() {
	t := f.grid("level shot at", "speed", "energy", "per contact area", "")
	for _, l := range f.Report.Levels {
		area := "not known"
		if l.AreaEnergy > 0 {
			area = f.Units.Worst(quantity.EnergyPerArea, l.AreaEnergy)
		}
		t.add(f.Units.Near(quantity.Length, l.Distance), f.Units.Worst(quantity.Speed, l.Speed), f.Units.Worst(quantity.Energy, l.Energy),
			area, show.Shorten(show.Clean(l.Name), 30))
	}
	f.printTable(t)
	f.say("", "  ", "These energies take the fastest shot's speed with the heaviest projectile's mass, which no shot has together: so "+
		"they lie above, never below, what check judges on the model.")
}
