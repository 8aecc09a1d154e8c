package show

import (
	"fmt"
	"math"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/vent"
)

// ReadBy says what the figures of a stopwatch test are, and what to do where no gauge shows them.
func ReadBy(t *vent.StopwatchTest) string {
	if !t.Unseen {
		return "Gauge readings. "
	}
	return fmt.Sprintf("Gauge readings that no gauge of this design shows as %s empties: fit one on it for this test; without one a clock "+
		"tells, and its vent, heard to begin and to end. ", Clean(t.Volume))
}

// Levelled says of a stopwatch test that its volume begins otherwise in the leak-down, and why; "" it does not.
func Levelled(s quantity.System, r *vent.Report, volume string) string {
	atOnce, level, differ := r.Starts(volume)
	if !differ {
		return ""
	}
	return fmt.Sprintf(" It begins at %s once it has come level with what fills it: leave it charging until the gauges stand. "+
		"Armed as soon as the supply stops, after a fill from empty, it begins at %s, as in its leak-down sheet.",
		s.Near(quantity.Gauge, level), s.Near(quantity.Gauge, atOnce))
}

// filledAtOnce says the same of a leak-down.
func filledAtOnce(s quantity.System, r *vent.Report, volume string) string {
	atOnce, level, differ := r.Starts(volume)
	if !differ {
		return ""
	}
	return fmt.Sprintf("It begins at %s, armed as soon as the supply stops; left charging until it is level with what fills it, "+
		"it would begin at %s, as in its stopwatch sheet. ", s.Near(quantity.Gauge, atOnce), s.Near(quantity.Gauge, level))
}

// LeakWords says what the cooling does to a leak-down and how long to read.
func LeakWords(s quantity.System, r *vent.Report, c vent.LeakTest) string {
	t := filledAtOnce(s, r, c.Volume) + fmt.Sprintf("Cooling alone takes it down by %s, %s at most, and is over after %s.",
		s.Near(quantity.Pressure, c.Falls),
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
	return "Shut too early, at the target, it can come back to " + s.Worst(quantity.Gauge,
		gauge) + " as its air warms up: keep the vent open."
}
