package design

import (
	"regexp"
	"strings"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

// teachIn says what the key is, and missingIn what goes without it, in the reader's units.
func (k *key) teachIn(u show.System) string { return filled(u, k.teach, k.teachOf) }

func (k *key) missingIn(u show.System) string { return filled(u, k.missing, k.missingOf) }

// filled puts figures into a text; one without figures stands as it is.
func filled(u show.System, text string, figures []finding.Shown) string {
	if len(figures) == 0 {
		return text
	}
	args := make([]any, len(figures))
	for i, f := range figures {
		args[i] = f
	}
	return u.Text(finding.Say(text, args...))
}

// exampleIn is the example of a key as the reader would write it.
func (k *key) exampleIn(u show.System) string {
	if u == show.US && k.exampleUS != "" {
		return k.exampleUS
	}
	return exampleIn(u, k.example)
}

// exampleUnit is the unit of the example.
func (k *key) exampleUnit(u show.System) string {
	m := regexp.MustCompile(`^"[-.0-9]+ ([^±,"-]*[^±,"\s-])`).FindStringSubmatch(k.exampleIn(u))
	if m == nil {
		return "UNIT"
	}
	return m[1]
}

// quotedText is one text in a TOML value.
var quotedText = regexp.MustCompile(`"[^"]*"`)

// exampleIn writes the quantities of a TOML value in the reader's units: examples are
// invented, and keep two or three digits.
func exampleIn(u show.System, value string) string {
	if u != show.US {
		return value
	}
	return quotedText.ReplaceAllStringFunc(value, func(text string) string {
		for _, d := range [...]unit.Dimension{unit.Pressure, unit.Volume, unit.Length, unit.Mass, unit.Temperature, unit.Speed, unit.VolumeFlow,
			unit.Conductance, unit.Force, unit.Area} { // the others have the same units in both systems
			if q, err := unit.Parse(strings.Trim(text, `"`), d); err == nil {
				return `"` + rewritten(u, q, text) + `"`
			}
		}
		return text
	})
}

// rewritten is a quantity in units of a system; text is what it was read of.
func rewritten(u show.System, q unit.Quantity, text string) string {
	out := u.Near(show.Of(q.Dimension), q.Nominal)
	if q.Reference == unit.Absolute {
		out += " abs"
	}
	step := show.Of(q.Dimension)
	if step == show.Temperature {
		step = show.TemperatureStep
	}
	size := func(si float64) string { return u.Near(step, si) }
	below, above := q.Nominal-q.Low, q.High-q.Nominal
	percent := regexp.MustCompile(`± \d+ %`).FindString(text)
	switch {
	case !q.Stated:
	case percent != "":
		out += " " + percent
	case below == 0 && above == 0:
		out += " ± 0"
	case size(below) == size(above):
		out += " ± " + size(below)
	default:
		out += " -" + size(below) + "/+" + size(above)
	}
	if q.Origin != unit.Unstated {
		out += ", " + string(q.Origin)
	}
	return out
}
