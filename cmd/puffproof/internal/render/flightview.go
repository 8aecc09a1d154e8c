package render

import (
	"fmt"
	"io"
	"math"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/measure"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
)

// FlightScreen shows where the projectile goes, on a terminal or in a pipe.
type FlightScreen struct {
	Style  Style
	Design DesignID
	Report *measure.FlightReport
	Detail Detail
}

// Write prints the screen.
func (f *FlightScreen) Write(w io.Writer) error {
	var b strings.Builder
	s, r := f.Style, f.Report
	fmt.Fprintln(&b, f.finding())
	if f.Detail == Everything {
		fmt.Fprintln(&b, Shorten(Clean(titleOf(f.Design)), s.Width-22)+s.paint(faint, fingerprint(f.Design)))
		f.writeCases(&b)
		f.writeStanding(&b)
		f.writeLevels(&b)
		for _, n := range r.Notes {
			fmt.Fprintln(&b, Wrap("Note: "+Clean(n), s.Width, "", "  "))
		}
		fmt.Fprintln(&b, Wrap("Energy at a distance is information: it makes no verdict pass, since somebody may be nearer.", s.Width, "", "  "))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// finding is the first line: how much is kept clear, and who stands in it.
func (f *FlightScreen) finding() string {
	s, r := f.Style, f.Report
	text := fmt.Sprintf("Keep %s clear all round: it may land %s ahead or %s behind, and then it bounces.",
		s.worst(unit.Length, r.ClearRadius), s.worst(unit.Length, r.Ahead), s.worst(unit.Length, r.Behind))
	colour := bold
	if at, inside := r.PersonInside(); inside {
		text += fmt.Sprintf(" The nearest person, at %s, stands INSIDE.", s.near(unit.Length, at))
		colour = red
	}
	return s.paint(colour, Wrap(text, s.Width, "", ""))
}

func (f *FlightScreen) writeCases(b *strings.Builder) {
	s, r := f.Style, f.Report
	t := plainTable()
	head := table.Row{}
	for _, h := range []string{"flight", "speed", "elevation", "wind", "apex", "lands at", "after", "impact"} {
		head = append(head, s.paint(bold, h))
	}
	t.AppendRow(head)
	for _, c := range r.Cases {
		t.AppendRow(table.Row{Clean(c.Name), s.worst(unit.Speed, c.Speed), s.near(unit.Angle, c.Elevation), s.wind(c.Wind), s.near(unit.Length, c.Apex),
			s.landing(c.Distance), s.near(unit.Time, c.Time), s.worst(unit.Energy, c.ImpactEnergy)})
	}
	fmt.Fprintln(b)
	fmt.Fprintln(b, trimLines(t.Render()))
	fmt.Fprintln(b, Wrap(fmt.Sprintf("Muzzle at %s; elevations from %s to %s. The fastest speed, %s, is the worst over the tolerances with the model factor. "+
		"Apex above the ground, landing from where the muzzle was; behind it is negative. The clear zone adds %s for bouncing and rolling (own rule).",
		s.near(unit.Length, r.Height), s.near(unit.Angle, r.ElevationLow), s.near(unit.Angle, r.ElevationTop), s.worst(unit.Speed, r.Fast),
		s.near(unit.Length, r.Bounce)), s.Width, "", "  "))
}

// landing shows a distance, ahead or behind, that must not look shorter than it is.
func (s Style) landing(x float64) string {
	if x < 0 {
		return "-" + s.worst(unit.Length, -x)
	}
	return s.worst(unit.Length, x)
}

// wind says where a wind comes from.
func (s Style) wind(v float64) string {
	switch {
	case v > 0:
		return s.near(unit.Speed, v) + " tail"
	case v < 0:
		return s.near(unit.Speed, -v) + " head"
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
			fmt.Fprintln(b, s.paint(yellow, Wrap(fmt.Sprintf("INSIDE the landing zone: %s, at %s.", Clean(p.Name), s.near(unit.Length, p.Distance)), s.Width, "", "  ")))
		} else {
			fmt.Fprintln(b, Wrap(fmt.Sprintf("Outside: %s, at %s.", Clean(p.Name), s.near(unit.Length, p.Distance)), s.Width, "", "  "))
		}
	}
}

func (f *FlightScreen) writeLevels(b *strings.Builder) {
	s := f.Style
	t := plainTable()
	t.AppendRow(table.Row{s.paint(bold, "level shot at"), s.paint(bold, "speed"), s.paint(bold, "energy"), s.paint(bold, "per contact area"), ""})
	for _, l := range f.Report.Levels {
		area := "not known"
		if l.AreaEnergy > 0 {
			area = s.worst(unit.EnergyPerArea, l.AreaEnergy)
		}
		t.AppendRow(table.Row{s.near(unit.Length, l.Distance), s.worst(unit.Speed, l.Speed), s.worst(unit.Energy, l.Energy), area, Shorten(Clean(l.Name), 30)})
	}
	fmt.Fprintln(b)
	fmt.Fprintln(b, trimLines(t.Render()))
}

// FlightLines turns the flights into the data of their figure.
func FlightLines(id DesignID, r *measure.FlightReport, u Units) figure.Lines {
	s := Style{Units: u}
	far := 0.0
	for _, c := range r.Cases {
		far = math.Max(far, math.Max(math.Abs(c.Distance), c.Apex))
	}
	lu, ln := s.axisUnit(unit.Length, far)
	out := figure.Lines{Title: Shorten(Clean(titleOf(id)), 60) + ": flights", X: "Distance from the muzzle, " + ln, Y: "Height, " + ln}
	for _, c := range r.Cases {
		l := figure.Line{Name: c.Name}
		for _, p := range c.Track {
			l.X, l.Y = append(l.X, lu.FromSI(p.X)), append(l.Y, lu.FromSI(p.Y))
		}
		out.Lines = append(out.Lines, l)
	}
	return out
}

type flightDoc struct {
	Design DesignID   `json:"design"`
	Flight flightBody `json:"flight"`
	Notes  []string   `json:"notes"`
}

type flightBody struct {
	Cases        []caseDoc     `json:"cases"`
	Fast         float64       `json:"fastest_speed_m_s"`
	Height       float64       `json:"muzzle_height_m"`
	ElevationLow float64       `json:"elevation_low_rad"`
	ElevationTop float64       `json:"elevation_high_rad"`
	Wind         float64       `json:"wind_m_s"`
	Ahead        float64       `json:"farthest_ahead_m"`
	Behind       float64       `json:"farthest_behind_m"`
	Bounce       float64       `json:"bounce_m"`
	Clear        float64       `json:"clear_radius_m"`
	Levels       []levelDoc    `json:"level_shot"`
	Standing     []standingDoc `json:"standing"`
}

type caseDoc struct {
	Name        string  `json:"name"`
	Speed       float64 `json:"speed_m_s"`
	Elevation   float64 `json:"elevation_rad"`
	Wind        float64 `json:"wind_m_s"`
	Moving      float64 `json:"moving_m_s"`
	Apex        float64 `json:"apex_m"`
	Distance    float64 `json:"distance_m"`
	FromVehicle float64 `json:"from_vehicle_m"`
	Time        float64 `json:"time_s"`
	Impact      float64 `json:"impact_speed_m_s"`
	Energy      float64 `json:"impact_energy_J"`
}

type levelDoc struct {
	Name       string  `json:"name"`
	Distance   float64 `json:"distance_m"`
	Speed      float64 `json:"speed_m_s"`
	Energy     float64 `json:"energy_J"`
	AreaEnergy float64 `json:"energy_per_contact_area_J_m2"`
}

type standingDoc struct {
	Name     string  `json:"name"`
	Distance float64 `json:"distance_m"`
	Inside   bool    `json:"inside"`
}

// FlightJSON is the document of flight: SI units.
func FlightJSON(id DesignID, r *measure.FlightReport) (any, error) {
	doc := flightDoc{Design: id, Notes: append([]string{}, r.Notes...), Flight: flightBody{Cases: []caseDoc{}, Levels: []levelDoc{}, Standing: []standingDoc{},
		Fast: r.Fast, Height: r.Height, ElevationLow: r.ElevationLow, ElevationTop: r.ElevationTop, Wind: r.Wind,
		Ahead: r.Ahead, Behind: r.Behind, Bounce: r.Bounce, Clear: r.ClearRadius}}
	for _, c := range r.Cases {
		doc.Flight.Cases = append(doc.Flight.Cases, caseDoc{c.Name, c.Speed, c.Elevation, c.Wind, c.Moving, c.Apex, c.Distance, c.FromVehicle, c.Time, c.Impact, c.ImpactEnergy})
	}
	for _, l := range r.Levels {
		doc.Flight.Levels = append(doc.Flight.Levels, levelDoc(l))
	}
	for _, s := range r.Standing {
		doc.Flight.Standing = append(doc.Flight.Standing, standingDoc(s))
	}
	return doc, finite(doc)
}
