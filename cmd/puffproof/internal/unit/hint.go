package unit

import (
	"strconv"
	"strings"
)

// missingHint says what a number without a unit may have meant.
func (s *scanner) missingHint(want Dimension) string {
	examples := [numDimensions]string{
		Pressure: "0.45 bar", Volume: "0.80 L", Length: "50 mm", Mass: "5 g", Time: "30 ms",
		Temperature: "18 degC", Speed: "5 m/s", Angle: "80 deg", VolumeFlow: "12 L/min",
		Conductance: "4 L/(s bar)", Force: "0.5 N", Area: "380 mm2", Energy: "0.4 J",
		EnergyPerArea: "1600 J/m2", Age: "4 years", SoundLevel: "104 dB", Current: "5 A",
	}
	if s.system == US {
		for d, example := range map[Dimension]string{Pressure: "6.5 psi", Volume: "50 in3", Length: "2 in", Mass: "0.2 oz",
			Temperature: "64 degF", Speed: "16 ft/s", VolumeFlow: "0.4 cfm", Conductance: "0.6 cfm/psi", Force: "0.1 lbf", Area: "0.6 in2"} {
			examples[d] = example
		}
	}
	if want < numDimensions && examples[want] != "" {
		return "put the unit behind the number, such as " + examples[want]
	}
	return ""
}

// usOrNot tells two gallons apart: the US one of 231 in3 and the imperial one of 4.54609 L, which is a fifth more (NIST SP 811, 2008,
// Appendix B). Neither is guessed.
const usOrNot = "US gal if the US gallon is meant (3.785 L); the imperial one is 4.546 L"

// trades are words and spellings of the trade with the unit they stand for.
func trades() map[string]string {
	return map[string]string{
		"lpm": "L/min", "nl/min": "L/min", "slpm": "L/min", "scfm": "cfm", "cfm": "cfm", "nm3/h": "m3/h",
		"kg/cm2": "kgf/cm2", "kg/cm²": "kgf/cm2", "kgf/cm^2": "kgf/cm2", "at": "kgf/cm2", "ata": "kgf/cm2 abs",
		"lbs/in2": "psi", "lb/in2": "psi", "lbf/in2": "psi", "n/m2": "Pa", "pascal": "Pa", "torr": "mmHg",
		"mh2o": "cmH2O (1 m of water is 100 cmH2O)", "mmh2o": "cmH2O (10 mm of water is 1 cmH2O)",
		"inh2o": "cmH2O (1 inch of water is 2.54 cmH2O)", "psia": "psia", "psig": "psig",
		"litre": "L", "litres": "L", "liter": "L", "liters": "L", "cc": "cm3", "ccm": "cm3", "millilitre": "mL",
		"dl": "mL (1 dL is 100 mL)", "cl": "mL (1 cL is 10 mL)", "fl oz": "mL (1 US fl oz is 29.57 mL)",
		"gal": usOrNot, "gallon": usOrNot, "gallons": usOrNot, "gals": usOrNot, "usgal": "US gal", "us gallon": "US gal", "us gallons": "US gal",
		"\"": "in", "inch": "in", "inches": "in", "''": "in", "'": "ft", "feet": "ft", "foot": "ft",
		"metre": "m", "metres": "m", "meter": "m", "meters": "m", "yd": "ft (1 yard is 3 ft)", "km": "m",
		"gram": "g", "grams": "g", "gr": "g", "lbs": "lb", "pound": "lb", "pounds": "lb", "ounce": "oz", "ounces": "oz",
		"mg": "g", "sec": "s", "secs": "s", "second": "s", "seconds": "s", "msec": "ms", "minutes": "min", "minute": "min",
		"us": "ms", "µs": "ms", "h": "min (1 h is 60 min)", "hour": "min (1 h is 60 min)", "hours": "min (1 h is 60 min)",
		"c": "degC", "f": "degF", "celsius": "degC", "deg c": "degC", "deg f": "degF", "° c": "degC", "kelvin": "K", "℃": "degC",
		"fps": "ft/s", "kmh": "km/h", "kph": "km/h", "km/hr": "km/h", "mps": "m/s", "m/sec": "m/s", "knots": "m/s (1 knot is 0.514 m/s)",
		"degree": "deg", "degrees": "deg", "rad": "deg (1 rad is 57.3 deg)", "newton": "N", "newtons": "N",
		"yr": "years", "yrs": "years", "y": "years", "mo": "months", "joule": "J", "joules": "J",
		"mj": "J", "j/cm2": "J/m2 (1 J/cm2 is 10000 J/m2)", "l/(s*bar)": "L/(s bar)", "l/s/bar": "L/(s bar)",
		"dm3/(s bar)": "L/(s bar)", "dm3": "L", "percent": "%", "m^3": "m3", "mm^2": "mm2", "in^2": "in2", "cu in": "in3", "cu ft": "ft3",
	}
}

// trade is the unit that a word of the trade stands for.
func (s *scanner) trade(word string) string {
	usual := map[string]string{"fl oz": "in3 (1 US fl oz is 1.805 in3)",
		"inh2o": "psi (1 inch of water is 0.0361 psi)", "knots": "ft/s (1 knot is 1.688 ft/s)"}[word]
	if s.system == US && usual != "" {
		return usual
	}
	return trades()[word]
}

// unknownHint guesses the unit behind an unknown spelling.
func (s *scanner) unknownHint(text string, n float64, want Dimension) string {
	lower := strings.ToLower(strings.TrimSuffix(text, "."))
	if want == Force {
		if h := s.weightHint(lower, n); h != "" {
			return h
		}
	}
	if want == Pressure && (lower == "lbs" || lower == "pounds") {
		return `"lbs" of pressure are psi`
	}
	for _, suffix := range []string{"", " abs", " gauge"} {
		base := strings.TrimSuffix(lower, suffix)
		if u, ok := sameLetters(base, want); ok {
			return "write " + u + suffix
		}
	}
	if t := s.trade(lower); t != "" {
		return "write " + t
	}
	if strings.ContainsAny(text, "0123456789") && strings.Contains(text, ".") {
		return "write digits and at most one decimal point"
	}
	return ""
}

// sameLetters finds the unit of the dimension that differs in capitals only.
func sameLetters(lower string, want Dimension) (string, bool) {
	for _, u := range table() {
		if u.Dimension == want && strings.ToLower(u.Name) == lower {
			return u.Name, true
		}
	}
	return "", false
}

// weightHint turns a mass or a gram-force into the force that it weighs.
func (s *scanner) weightHint(name string, n float64) string {
	perOne := map[string]float64{
		"g": 1e-3 * gravity, "gf": 1e-3 * gravity, "gram": 1e-3 * gravity, "grams": 1e-3 * gravity, "p": 1e-3 * gravity,
		"kg": gravity, "kgf": gravity, "kp": gravity, "oz": pound / 16 * gravity, "ozf": pound / 16 * gravity,
		"lb": pound * gravity, "lbs": pound * gravity,
	}[name]
	if perOne == 0 {
		return ""
	}
	return "the weight of " + s.either(short(n)+" "+name+" is "+short(n*perOne)+" N", "that is "+short(n*perOne/(pound*gravity))+" lbf") +
		": write that"
}

// wrongHint says what a unit of another dimension may have meant.
func (s *scanner) wrongHint(u Unit, n float64, want Dimension) string {
	switch {
	case want == Force && u.Dimension == Mass:
		return s.weightHint(u.Name, n)
	case want == Pressure && u.Dimension == Mass && u.Name == "kg":
		return "a gauge marked kg shows kgf/cm2"
	case want == Pressure && u.Dimension == Mass:
		return "a gauge marked lb shows psi"
	case want == Length && u.Dimension == Area:
		return "give the diameter, not the area"
	case want == Length && u.Dimension == Time && u.Name == "min":
		return "minutes are a time; inches are in"
	case want == Angle && u.Dimension == Temperature:
		return "an angle is in deg"
	case want == Temperature && u.Dimension == Angle:
		return "a temperature is in degC, degF or K"
	case want == VolumeFlow && u.Dimension == Volume:
		return "a flow is a volume per time, such as " + u.Name + "/min"
	case want == Dimensionless:
		return "this figure has no unit"
	}
	article := "a "
	if strings.ContainsRune("aeiou", rune(u.Dimension.String()[0])) {
		article = "an "
	}
	return "this is " + article + u.Dimension.String()
}

func originHint(word string) string {
	if word == "" {
		return "leave the comma out if the origin is not known"
	}
	lower := strings.ToLower(word)
	for _, o := range []Origin{Measured, Datasheet, Label, Estimated, Declared, Template} {
		if len(lower) >= 4 && strings.HasPrefix(string(o), lower[:2]) {
			return "did you mean " + string(o) + "?"
		}
	}
	switch lower {
	case "guess", "guessed", "about", "approx", "roughly", "assumed":
		return "did you mean estimated?"
	case "data sheet", "maker", "manufacturer", "spec", "catalogue", "catalog":
		return "did you mean datasheet?"
	case "nameplate", "printed", "sticker", "package":
		return "did you mean label?"
	}
	return ""
}

func short(v float64) string { return strconv.FormatFloat(v, 'g', 3, 64) }
