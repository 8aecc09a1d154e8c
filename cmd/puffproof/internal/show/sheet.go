package show

import (
	"fmt"
	"math"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/vent"
)

// LeakWords says what the cooling does to a leak-down and how long to read.
func LeakWords(s quantity.System, c vent.LeakTest) string {
	t := fmt.Sprintf("Cooling alone takes it down by %s, %s at most, and is over after %s.", s.Near(quantity.Pressure, c.Falls),
		s.Worst(quantity.Pressure, c.FallsMost), s.Worst(quantity.Time, c.Settled))
	switch {
	case math.IsNaN(c.Needed):
		return t + " No gauge is stated on it."
	case math.IsInf(c.Needed, 1):
		return t + " Its gauge is too coarse to tell a leak within an hour."
	}
	return t + fmt.Sprintf(" Read for %s: then no leak of more than %s a minute can hide.", s.Near(quantity.Time, c.Needed),
		s.Near(quantity.Pressure, c.Loses))
}

// AtMostToTarget says how long a vessel takes from the highest that it is filled to, whatever ends the filling, until it counts
// as empty.
func AtMostToTarget(s quantity.System, slowest float64) string {
	return "At most " + s.Worst(quantity.Time, slowest) + " to the target from the highest that it is filled to."
}

// ComesBack says what a gauge rises to where the vent is shut at the target.
func ComesBack(s quantity.System, gauge float64) string {
	return "Shut too early, at the target, it can come back to " + s.Worst(quantity.Gauge, gauge) + " as its air warms up: keep the vent open."
}
