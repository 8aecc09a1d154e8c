package quantity

import (
	"math"
	"strings"
	"sync"

	"puffproof/cmd/puffproof/internal/unit"
)

// scale is one unit in which a quantity is shown.
type scale struct {
	from     float64 // the size from which it is used, in itself
	name     string  // of the unit
	digits   int     // significant ones
	decimals int     // at most
}

// The units in which quantities are shown, smallest first, in each system and in both. Energy is in joules in both: every
// limit is stated in them.
var (
	metricScales = map[Kind][]scale{
		Pressure: {{0, "Pa", 2, 0}, {1e-3, "bar", 2, 4}, {1, "bar", 3, 2}}, Setting: {{0, "bar", 0, 3}},
		Volume: {{0, "mL", 3, 2}, {1, "L", 3, 2}, {1, "m3", 3, 2}},
		Length: {{0, "mm", 3, 2}, {1, "m", 3, 2}}, LeakBore: {{0, "mm", 2, 0}},
		Mass:  {{0, "g", 3, 2}, {1, "kg", 3, 2}},
		Speed: {{0, "m/s", 3, 1}}, ShotSpeed: {{0, "m/s", 0, 2}}, VolumeFlow: {{0, "L/min", 3, 2}},
		Force: {{0, "N", 2, 3}, {10, "N", 3, 1}}, Area: {{0, "mm2", 3, 2}},
		Temperature: {{0, "°C", 3, 0}}, TemperatureStep: {{0, "K", 2, 0}}, PerLength: {{0, "per m", 3, 6}}, PressurePerLength: {{0,
			"mbar per metre", 2, 2}},
		LeakFlow: {{0, "mL/min", 2, 0}}, Conductance: {{0, "L/(s bar)", 3, 3}},
		PressureVolume: {{0, "bar L", 2, 0}}, // as pressure law writes it
	}
	usScales = map[Kind][]scale{
		Pressure: {{0, "psi", 2, 4}, {1, "psi", 3, 1}}, Setting: {{0, "psi", 0, 2}},
		Volume: {{0, "in3", 3, 2}, {1, "US gal", 3, 2}},
		Length: {{0, "in", 3, 3}, {3, "ft", 3, 2}}, LeakBore: {{0, "in", 2, 0}},
		Mass:  {{0, "oz", 3, 3}, {1, "lb", 3, 2}},
		Speed: {{0, "ft/s", 3, 1}}, ShotSpeed: {{0, "ft/s", 0, 2}}, VolumeFlow: {{0, "cfm", 3, 3}},
		Force: {{0, "lbf", 2, 4}, {2.248, "lbf", 3, 1}}, Area: {{0, "in2", 3, 3}}, // from 10 N, as in metric
		Temperature: {{0, "°F", 3, 0}}, TemperatureStep: {{0, "°F", 2, 0}}, PerLength: {{0, "per ft", 3, 6}},
		PressurePerLength: {{0, "psi per foot", 2, 2}}, LeakFlow: {{0, "in3/min", 2, 0}},
		Conductance: {{0, "cfm/psi", 3, 4}}, PressureVolume: {{0, "psi ft3", 2, 0}}}
	commonScales = map[Kind][]scale{
		Time: {{0, "ms", 3, 1}, {1, "s", 3, 1}, {2, "min", 3, 1}}, Angle: {{0, "deg", 3, 1}},
		Energy:        {{0, "J", 2, 4}, {1, "J", 3, 2}},
		EnergyPerArea: {{0, "J/m2", 3, 1}}, Age: {{0, "months", 3, 0}, {2, "years", 3, 1}},
		Plain: {{0, "", 3, 5}}, Count: {{0, "", 6, 0}}, Current: {{0, "mA", 3, 1}, {1, "A", 3, 2}}, SoundLevel: {{0, "dB", 3, 1}},
		PeakLevel: {{0, "dB(C)", 3, 0}},
	}
)

// scales gives the units in which a quantity is shown.
func (s System) scales(q Kind) []scale {
	if q == Gauge {
		q = Pressure
	}
	if list := commonScales[q]; list != nil {
		return list
	}
	if s == US {
		return usScales[q]
	}
	return metricScales[q]
}

// scale picks the unit for a value of that size.
func (s System) scale(q Kind, si float64) (scale, unit.Unit) {
	all := s.scales(q)
	use, u := all[0], unitOf(all[0].name)
	for _, one := range all[1:] {
		if v := unitOf(one.name); math.Abs(si) >= one.from*v.Factor*(1-1e-12) {
			use, u = one, v
		}
	}
	if q == TemperatureStep {
		u.Offset = 0
	}
	return use, u
}

// shownUnits are the units of all scales by their names. A page writes thousands of figures for each move of a slider.
var shownUnits = sync.OnceValue(func() map[string]unit.Unit {
	all := map[string]unit.Unit{}
	for _, system := range []map[Kind][]scale{metricScales, usScales, commonScales} {
		for _, scales := range system {
			for _, one := range scales {
				all[one.name] = find(one.name)
			}
		}
	}
	return all
})

// unitOf is the unit of a scale.
func unitOf(name string) unit.Unit { return shownUnits()[name] }

// find finds a unit: some are shown only, and no design file is written in them.
func find(name string) unit.Unit {
	switch name {
	case "":
		return unit.Unit{Factor: 1}
	case "bar L":
		return unit.Unit{Factor: 100}
	case "psi ft3":
		return unit.Unit{Factor: find("psi").Factor * find("ft3").Factor}
	case "cfm/psi":
		return unit.Unit{Factor: find("cfm").Factor / find("psi").Factor}
	case "mL/min":
		return unit.Unit{Factor: 1e-6 / 60}
	case "in3/min":
		return unit.Unit{Factor: find("in3").Factor / 60}
	case "mbar per metre":
		return unit.Unit{Factor: 100}
	case "psi per foot":
		return unit.Unit{Factor: find("psi").Factor / find("ft").Factor}
	case "per m", "per ft":
		return unit.Unit{Factor: 1 / find(strings.TrimPrefix(name, "per ")).Factor}
	}
	u, ok := unit.Lookup(name)
	if !ok {
		panic("quantity: no unit is named " + name)
	}
	return u
}

// number writes a value in the unit of its scale.
func (sc scale) number(q Kind, v float64, r Rounding) string {
	switch q {
	case Setting, ShotSpeed:
		return Fixed(v, sc.decimals, r)
	case LeakBore, LeakFlow, TemperatureStep, Count:
		return Number(v, sc.digits)
	case PressureVolume:
		return Significant(v, sc.digits, r)
	}
	places := min(decimals(v, sc.digits), sc.decimals)
	if math.Abs(v) < 1e5 { // whole figures keep their digits up to there: a limit of 19310 J is just that
		places = max(places, 0)
	}
	text := Fixed(v, places, r)
	if trimmed(text) == "0" {
		return "0"
	}
	return text
}

// named is a number with the name of its unit; a gauge reading says that it is one.
func (sc scale) named(q Kind, number string) string {
	switch {
	case q == Gauge || q == Setting:
		return number + " " + sc.name + " gauge"
	case sc.name == "":
		return number
	}
	return number + " " + sc.name
}
