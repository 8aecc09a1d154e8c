package curve

import (
	"math"

	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/measure"
)

// Flight turns the flights into the data of their figure.
func Flight(id show.DesignID, r *measure.FlightReport, u quantity.System) figure.Lines {
	far := 0.0
	for _, c := range r.Cases {
		far = math.Max(far, math.Max(math.Abs(c.Distance), c.Apex))
	}
	lu := u.Axis(quantity.Length, far)
	out := figure.Lines{Title: show.Clean(id.Title()) + ": flights", X: "Distance from the muzzle, " + lu.Name, Y: "Height, " +
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

// Calibrate turns the findings into the data of their figure.
func Calibrate(id show.DesignID, f *measure.Findings, u quantity.System) figure.Lines {
	top, fast := 0.0, 0.0
	for i := range f.Shots {
		top = math.Max(top, f.Shots[i].Shot.Gauge)
		if !math.IsNaN(f.Shots[i].Speed) {
			fast = math.Max(fast, f.Shots[i].Speed)
		}
	}
	pu := u.Axis(quantity.Gauge, top)
	vu := u.Axis(quantity.Speed, fast)
	out := figure.Lines{Title: show.Clean(id.Title()) + ": measured against model", X: "Start pressure, " + pu.Name,
		Y: "Speed at the muzzle, " + vu.Name}
	dots := figure.Line{Name: "shots", Dots: true}
	for i := range f.Shots {
		if sh := &f.Shots[i]; !math.IsNaN(sh.Speed) {
			dots.X, dots.Y = append(dots.X, pu.Of(sh.Shot.Gauge)), append(dots.Y, vu.Of(sh.Speed))
		}
	}
	out.Lines = append(out.Lines, dots)
	if f.Fit == nil {
		return out
	}
	after, before := figure.Line{Name: "model, fitted"}, figure.Line{Name: "model, as designed"}
	for _, r := range f.Fit.Residuals {
		after.X, after.Y = append(after.X, pu.Of(r.Gauge)), append(after.Y, vu.Of(r.Model))
		before.X, before.Y = append(before.X, pu.Of(r.Gauge)), append(before.Y, vu.Of(r.Before))
	}
	out.Lines = append(out.Lines, after, before)
	return out
}
