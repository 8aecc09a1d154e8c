package show

import (
	"fmt"
	"math"

	"puffproof/limits/vent"
)

// LeakWords says what the cooling does to a leak-down and how long to read.
func (s System) LeakWords(c vent.LeakTest) string {
	t := fmt.Sprintf("Cooling alone takes it down by %s, %s at most, and is over after %s.", s.Near(Pressure, c.Falls),
		s.Worst(Pressure, c.FallsMost), s.Worst(Time, c.Settled))
	switch {
	case math.IsNaN(c.Needed):
		return t + " No gauge is stated on it."
	case math.IsInf(c.Needed, 1):
		return t + " Its gauge is too coarse to tell a leak within an hour."
	}
	return t + fmt.Sprintf(" Read for %s: then no leak of more than %s a minute can hide.", s.Near(Time, c.Needed), s.Near(Pressure, c.Loses))
}

// AtMostToTarget says how long a vessel takes from the highest cut-out until it counts
// as empty.
func (s System) AtMostToTarget(slowest float64) string {
	return "At most " + s.Worst(Time, slowest) + " to the target from the highest cut-out."
}

// ComesBack says what a gauge rises to where the vent is shut at the target.
func (s System) ComesBack(gauge float64) string {
	return "Shut too early, at the target, it can come back to " + s.Worst(Gauge, gauge) + " as its air warms up: keep the vent open."
}
