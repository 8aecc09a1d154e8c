package curve

import (
	"fmt"

	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/launcher"
)

// Ladder turns a ladder into the data of its figure, in the units shown.
func Ladder(id show.DesignID, rungs []launcher.Rung, u quantity.System) figure.Ladder {
	axis := u.Axis(quantity.Setting, 0)
	out := figure.Ladder{Title: show.Shorten(show.Clean(id.Title()), 70), Unit: axis.Name}
	for _, r := range rungs {
		one := figure.LadderRung{Name: r.Name, Value: axis.Of(r.Gauge), Low: axis.Of(r.Low), High: axis.Of(r.High),
			Limit: r.Limit == launcher.Yes}
		one.Label = u.Bare(quantity.Setting, r.Gauge, quantity.Nearest)
		if r.High > r.Low {
			one.Label += fmt.Sprintf("  (%s to %s)", u.Bare(quantity.Setting, r.Low, quantity.Down), u.Bare(quantity.Setting, r.High, quantity.Up))
		}
		out.Rungs = append(out.Rungs, one)
	}
	return out
}
