package unit

import (
	"math"
	"sync"
)

// Exact by definition: the international inch and pound, standard gravity
// (NIST SP 811, 2008, Appendix B). The other factors follow from them.
const (
	inch     = 0.0254
	foot     = 12 * inch
	pound    = 0.45359237
	gravity  = 9.80665
	litre    = 1e-3
	year     = 365.25 * 86400 // the Julian year
	mercury  = 13595.1 * gravity
	water    = 1000 * gravity
	psi      = pound * gravity / (inch * inch)
	zeroC    = 273.15
	perMin   = 1.0 / 60
	fahrenK  = 5.0 / 9
	zeroF    = zeroC - 32*fahrenK
	usGallon = 231 * inch * inch * inch
)

// table gives every unit; it is made once and nobody changes it.
var table = sync.OnceValue(newTable)

// newTable makes the list of units. Pressures come three times: alone, gauge, absolute.
func newTable() []Unit {
	pressures := []Unit{
		{Name: "bar", Factor: 1e5}, {Name: "mbar", Factor: 100}, {Name: "hPa", Factor: 100},
		{Name: "kPa", Factor: 1000}, {Name: "MPa", Factor: 1e6}, {Name: "Pa", Factor: 1},
		{Name: "psi", Factor: psi}, {Name: "atm", Factor: 101325},
		{Name: "kgf/cm2", Factor: gravity / 1e-4},
		{Name: "mmHg", Factor: mercury * 1e-3}, {Name: "inHg", Factor: mercury * inch},
		{Name: "cmH2O", Factor: water * 0.01},
		// As gauges print them; no other unit has these letters.
		{Name: "BAR", Factor: 1e5, alias: true}, {Name: "Bar", Factor: 1e5, alias: true}, {Name: "PSI", Factor: psi, alias: true},
		{Name: "Psi", Factor: psi, alias: true}, {Name: "KPa", Factor: 1000, alias: true}, {Name: "kpa", Factor: 1000, alias: true},
		{Name: "KPA", Factor: 1000, alias: true},
		{Name: "hpa", Factor: 100, alias: true},
	}
	all := make([]Unit, 0, 160)
	for _, p := range pressures {
		p.Dimension = Pressure
		all = append(all, p)
		for _, form := range referenceForms(p.Name) {
			r := p
			r.Name, r.Reference, r.alias = form.name, form.reference, p.alias || form.alias
			all = append(all, r)
		}
	}
	all = append(all, plainUnits()...)
	return all
}

type referenceForm struct {
	name      string
	reference Reference
	alias     bool
}

// referenceForms gives the spellings of a pressure unit that say gauge or
// absolute: the long ones for all, "bara" and "barg" where trade uses them.
func referenceForms(name string) []referenceForm {
	forms := []referenceForm{
		{name + " abs", Absolute, false}, {name + " absolute", Absolute, true}, {name + " gauge", Gauge, false},
	}
	switch name {
	case "PSI":
		forms = append(forms, referenceForm{"PSIA", Absolute, true}, referenceForm{"PSIG", Gauge, true})
	case "bar", "mbar", "psi":
		forms = append(forms, referenceForm{name + "a", Absolute, true}, referenceForm{name + "g", Gauge, true},
			referenceForm{name + "(a)", Absolute, true}, referenceForm{name + "(g)", Gauge, true})
	}
	return forms
}

func plainUnits() []Unit {
	return []Unit{
		{Name: "L", Dimension: Volume, Factor: litre}, {Name: "mL", Dimension: Volume, Factor: 1e-6},
		{Name: "l", Dimension: Volume, Factor: litre, alias: true}, {Name: "ml", Dimension: Volume, Factor: 1e-6, alias: true},
		{Name: "litre", Dimension: Volume, Factor: litre, alias: true}, {Name: "litres", Dimension: Volume, Factor: litre, alias: true},
		{Name: "Litre", Dimension: Volume, Factor: litre, alias: true}, {Name: "Litres", Dimension: Volume, Factor: litre, alias: true},
		{Name: "LITRE", Dimension: Volume, Factor: litre, alias: true}, {Name: "LITRES", Dimension: Volume, Factor: litre, alias: true},
		{Name: "Liter", Dimension: Volume, Factor: litre, alias: true}, {Name: "Liters", Dimension: Volume, Factor: litre, alias: true},
		{Name: "LITER", Dimension: Volume, Factor: litre, alias: true}, {Name: "LITERS", Dimension: Volume, Factor: litre, alias: true},
		{Name: "liter", Dimension: Volume, Factor: litre, alias: true}, {Name: "liters", Dimension: Volume, Factor: litre, alias: true},
		{Name: "cc", Dimension: Volume, Factor: 1e-6, alias: true}, {Name: "dm3", Dimension: Volume, Factor: litre, alias: true},
		{Name: "m3", Dimension: Volume, Factor: 1}, {Name: "cm3", Dimension: Volume, Factor: 1e-6},
		{Name: "in3", Dimension: Volume, Factor: inch * inch * inch}, {Name: "ft3", Dimension: Volume, Factor: foot * foot * foot},
		{Name: "US gal", Dimension: Volume, Factor: usGallon},

		{Name: "mm", Dimension: Length, Factor: 1e-3}, {Name: "cm", Dimension: Length, Factor: 0.01},
		{Name: "m", Dimension: Length, Factor: 1}, {Name: "in", Dimension: Length, Factor: inch},
		{Name: "inch", Dimension: Length, Factor: inch, alias: true}, {Name: "inches", Dimension: Length, Factor: inch, alias: true},
		{Name: "ft", Dimension: Length, Factor: foot},

		{Name: "g", Dimension: Mass, Factor: 1e-3}, {Name: "kg", Dimension: Mass, Factor: 1},
		{Name: "gram", Dimension: Mass, Factor: 1e-3, alias: true}, {Name: "grams", Dimension: Mass, Factor: 1e-3, alias: true},
		{Name: "oz", Dimension: Mass, Factor: pound / 16}, {Name: "lb", Dimension: Mass, Factor: pound},

		{Name: "ms", Dimension: Time, Factor: 1e-3}, {Name: "s", Dimension: Time, Factor: 1},
		{Name: "min", Dimension: Time, Factor: 60},

		{Name: "degC", Dimension: Temperature, Factor: 1, Offset: zeroC},
		{Name: "°C", Dimension: Temperature, Factor: 1, Offset: zeroC, alias: true},
		{Name: "C", Dimension: Temperature, Factor: 1, Offset: zeroC, alias: true},
		{Name: "F", Dimension: Temperature, Factor: fahrenK, Offset: zeroF, alias: true},
		{Name: "degF", Dimension: Temperature, Factor: fahrenK, Offset: zeroF},
		{Name: "°F", Dimension: Temperature, Factor: fahrenK, Offset: zeroF, alias: true},
		{Name: "K", Dimension: Temperature, Factor: 1},

		{Name: "m/s", Dimension: Speed, Factor: 1}, {Name: "ft/s", Dimension: Speed, Factor: foot},
		{Name: "km/h", Dimension: Speed, Factor: 1000.0 / 3600}, {Name: "mph", Dimension: Speed, Factor: 5280 * foot / 3600},

		{Name: "deg", Dimension: Angle, Factor: math.Pi / 180}, {Name: "°", Dimension: Angle, Factor: math.Pi / 180, alias: true},

		{Name: "L/min", Dimension: VolumeFlow, Factor: litre * perMin},
		{Name: "l/min", Dimension: VolumeFlow, Factor: litre * perMin, alias: true},
		{Name: "litres/min", Dimension: VolumeFlow, Factor: litre * perMin, alias: true},
		{Name: "liters/min", Dimension: VolumeFlow, Factor: litre * perMin, alias: true},
		{Name: "L/s", Dimension: VolumeFlow, Factor: litre}, {Name: "l/s", Dimension: VolumeFlow, Factor: litre, alias: true},
		{Name: "m3/h", Dimension: VolumeFlow, Factor: 1.0 / 3600},
		{Name: "cfm", Dimension: VolumeFlow, Factor: foot * foot * foot * perMin},

		{Name: "L/(s bar)", Dimension: Conductance, Factor: 1e-8},
		{Name: "l/(s bar)", Dimension: Conductance, Factor: 1e-8, alias: true},
		{Name: "m3/(s Pa)", Dimension: Conductance, Factor: 1},
		{Name: "cfm/psi", Dimension: Conductance, Factor: foot * foot * foot * perMin / psi},

		{Name: "N", Dimension: Force, Factor: 1}, {Name: "lbf", Dimension: Force, Factor: pound * gravity},

		{Name: "mm2", Dimension: Area, Factor: 1e-6}, {Name: "cm2", Dimension: Area, Factor: 1e-4},
		{Name: "in2", Dimension: Area, Factor: inch * inch},

		{Name: "J", Dimension: Energy, Factor: 1}, {Name: "J/m2", Dimension: EnergyPerArea, Factor: 1},

		{Name: "years", Dimension: Age, Factor: year}, {Name: "year", Dimension: Age, Factor: year, alias: true},
		{Name: "months", Dimension: Age, Factor: year / 12}, {Name: "month", Dimension: Age, Factor: year / 12, alias: true},

		{Name: "dB", Dimension: SoundLevel, Factor: 1}, {Name: "dB(C)", Dimension: SoundLevel, Factor: 1, alias: true},
		{Name: "dBC", Dimension: SoundLevel, Factor: 1, alias: true},
		{Name: "dB(A)", Dimension: SoundLevel, Factor: 1, Reference: AWeighted, alias: true},
		{Name: "dBA", Dimension: SoundLevel, Factor: 1, Reference: AWeighted, alias: true},

		{Name: "A", Dimension: Current, Factor: 1}, {Name: "mA", Dimension: Current, Factor: 1e-3},

		{Name: "%", Dimension: Dimensionless, Factor: 0.01},
	}
}
