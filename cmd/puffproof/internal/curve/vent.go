package curve

import (
	"math"

	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/vent"
)

// Vent turns an emptying into the data of its figure: for each volume of the
// first scenario without power, else of the first shutdown, the highest reading over
// time and, where there is room for it, the expected one; and the target.
// Without readings it has no lines.
func Vent(id show.DesignID, r *vent.Report, u quantity.System) figure.Lines {
	cases := r.Drawn()
	out := figure.Lines{Title: show.Clean(id.Title()) + ": emptying"}
	if len(cases) == 0 {
		return out
	}
	out.Title = show.Clean(id.Title()) + ": " + cases[0].Scenario
	top, end := 0.0, 0.0
	for _, c := range cases {
		top = math.Max(top, c.Start)
	}
	pu := u.Axis(quantity.Gauge, top)
	out.X, out.Y = "Time after the command, s", "Gauge, "+pu.Name
	for _, c := range cases {
		highest, expected := figure.Line{Name: show.Clean(c.Volume) + ", at the slowest"}, figure.Line{Name: show.Clean(c.Volume) + ", expected"}
		for _, s := range c.Curve() {
			highest.X, highest.Y = append(highest.X, s.Time), append(highest.Y, pu.Of(s.High))
			expected.X, expected.Y = append(expected.X, s.Time), append(expected.Y, pu.Of(s.Gauge))
			end = math.Max(end, s.Time)
		}
		out.Lines = append(out.Lines, highest)
		if len(cases) <= 2 {
			out.Lines = append(out.Lines, expected)
		}
	}
	target := pu.Of(r.Target)
	out.Lines = append(out.Lines, figure.Line{Name: "counts as empty", X: []float64{0, end}, Y: []float64{target, target}})
	return out
}
