package curve

import (
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
)

// Shot turns a shot into the data of its figure, in the units shown.
func Shot(v show.ShotView, u quantity.System) figure.Curves {
	n := v.Series.Length()
	axis := func(q quantity.Kind, si []float64, top float64) figure.Axis {
		a := u.Axis(q, top)
		return figure.Axis{Values: a.All(si[:n]), Unit: a.Name}
	}
	s := v.Series
	c := figure.Curves{
		Title:    show.Clean(v.Design.Title()),
		Time:     axis(quantity.Time, s.Time, maxAbs(s.Time[:n])),
		Travel:   axis(quantity.Length, s.Travel, v.Travel),
		Speed:    axis(quantity.Speed, s.Speed, maxAbs(s.Speed[:n])),
		Pressure: axis(quantity.Gauge, s.Gauge, maxAbs(s.Gauge[:n])),
	}
	if v.Outcome == show.OutcomeLeft {
		time, travel := u.Axis(quantity.Time, maxAbs(s.Time[:n])), u.Axis(quantity.Length, v.Travel)
		c.Exit = &figure.Exit{
			Time: time.Of(v.ExitTime), Travel: travel.Of(v.Travel),
			Label: "leaves the muzzle at " + u.Near(quantity.Speed, v.MuzzleSpeed),
		}
	}
	return c
}
