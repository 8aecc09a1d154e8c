package unit

import (
	"math"
	"strconv"
)

// System is the family of units that text for people is written in.
type System string

// The two families.
const (
	Metric System = "metric"
	US     System = "us"
)

// Rounding is the direction in which a shown figure may leave the true one. A
// figure that must not look better than it is goes Up or Down.
type Rounding uint8

// The directions.
const (
	Nearest Rounding = iota
	Up
	Down
)

// shown is one unit of a scale: used from the SI size From on.
type shown struct {
	from    float64
	name    string
	digits  int // digits that carry information
	decimal int // decimals at most
}

// scales gives the units in which a dimension is shown, smallest first. Energy
// is in joules in both systems: every limit is stated in them.
func scales(d Dimension, sys System) []shown {
	metric := map[Dimension][]shown{
		Pressure: {{0, "Pa", 2, 0}, {100, "bar", 2, 4}, {1e5, "bar", 3, 2}},
		Volume:   {{0, "mL", 3, 2}, {1e-3, "L", 3, 2}, {1, "m3", 3, 2}},
		Length:   {{0, "mm", 3, 2}, {1, "m", 3, 2}},
		Mass:     {{0, "g", 3, 2}, {1, "kg", 3, 2}},
		Speed:    {{0, "m/s", 3, 1}}, VolumeFlow: {{0, "L/min", 3, 2}},
		Force: {{0, "N", 2, 3}, {10, "N", 3, 1}}, Area: {{0, "mm2", 3, 2}},
		Temperature: {{0, "°C", 3, 0}},
	}
	us := map[Dimension][]shown{
		Pressure: {{0, "psi", 2, 4}, {psi, "psi", 3, 1}},
		Volume:   {{0, "in3", 3, 2}, {usGallon, "US gal", 3, 2}},
		Length:   {{0, "in", 3, 3}, {3 * foot, "ft", 3, 2}},
		Mass:     {{0, "oz", 3, 3}, {pound, "lb", 3, 2}},
		Speed:    {{0, "ft/s", 3, 1}}, VolumeFlow: {{0, "cfm", 3, 3}},
		Force: {{0, "lbf", 2, 4}, {10, "lbf", 3, 1}}, Area: {{0, "in2", 3, 3}},
		Temperature: {{0, "°F", 3, 0}},
	}
	both := map[Dimension][]shown{
		Time: {{0, "ms", 3, 1}, {1, "s", 3, 1}, {120, "min", 3, 1}}, Angle: {{0, "deg", 3, 1}},
		Conductance: {{0, "L/(s bar)", 3, 3}}, Energy: {{0, "J", 2, 4}, {1, "J", 3, 2}},
		EnergyPerArea: {{0, "J/m2", 3, 1}}, Age: {{0, "months", 3, 0}, {2 * year, "years", 3, 1}},
		Dimensionless: {{0, "", 3, 5}},
	}
	if s := both[d]; s != nil {
		return s
	}
	if sys == US {
		return us[d]
	}
	return metric[d]
}

// Format writes an SI value for people: "0.45 bar", "6.5 psi", "12.3 m/s",
// "0.31 J". A pressure's reference is not said; see FormatPressure.
func Format(si float64, d Dimension, sys System) string {
	return FormatRounded(si, d, sys, Nearest)
}

// FormatPressure writes a pressure [Pa] and says from where it is counted:
// "0.45 bar gauge", "14.7 psi abs".
func FormatPressure(si float64, ref Reference, sys System) string {
	text := Format(si, Pressure, sys)
	switch ref {
	case Gauge:
		return text + " gauge"
	case Absolute:
		return text + " abs"
	}
	return text
}

// FormatRounded is Format with the last digit rounded in the given direction:
// Up for a worst case, Down for the most that is allowed.
func FormatRounded(si float64, d Dimension, sys System, r Rounding) string {
	s := scales(d, sys)
	use := s[0]
	for _, one := range s[1:] {
		if math.Abs(si) >= one.from*(1-1e-12) {
			use = one
		}
	}
	u := Unit{Factor: 1}
	if use.name != "" {
		u, _ = Lookup(use.name)
	}
	return join(digits(u.FromSI(si), use.digits, use.decimal, r), use.name)
}

// FormatDifference writes a difference of temperatures [K]; every other
// dimension's differences go through Format.
func FormatDifference(kelvin float64, sys System) string {
	if sys == US {
		return join(digits(kelvin/fahrenK, 3, 1, Nearest), "°F")
	}
	return join(digits(kelvin, 3, 1, Nearest), "K")
}

func join(number, name string) string {
	if name == "" {
		return number
	}
	return number + " " + name
}

// digits writes v with n significant digits, at most the given decimals, and no
// exponent. A value that is not finite says so.
func digits(v float64, n, decimals int, r Rounding) string {
	if math.IsNaN(v) {
		return "not a number"
	}
	if math.IsInf(v, 0) {
		return "infinite"
	}
	if v == 0 {
		return "0"
	}
	places := n - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	if math.Abs(v) < 1e5 { // whole figures keep their digits up to there: a limit of 19310 J is just that
		places = max(places, 0)
	}
	places = min(places, decimals)
	if places > 0 && places < decimals+1 && math.Abs(v) >= math.Pow(10, float64(n-places))-0.5*math.Pow(10, float64(-places)) {
		places-- // 9.996 to three digits is 10.0, not 10.00
	}
	step := math.Pow(10, float64(places))
	// 1e-9 of a step: 0.29 written as 0.29 must not go up to 0.30.
	switch scaled := v * step; r {
	case Up:
		v = math.Ceil(scaled-1e-9*math.Max(1, math.Abs(scaled))) / step
	case Down:
		v = math.Floor(scaled+1e-9*math.Max(1, math.Abs(scaled))) / step
	}
	if places < 0 {
		v = math.Round(v*step) / step
	}
	text := strconv.FormatFloat(v, 'f', max(places, 0), 64)
	if rounded, _ := strconv.ParseFloat(text, 64); rounded == 0 {
		return "0"
	}
	return text
}
