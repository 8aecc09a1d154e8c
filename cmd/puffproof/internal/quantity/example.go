package quantity

import (
	"regexp"
	"strings"

	"puffproof/cmd/puffproof/internal/unit"
)

// quotedQuantity is what may be a quantity in quotes, with a word before it or not.
var quotedQuantity = regexp.MustCompile(`"([a-z]+ )?(-?\d[^"]*)"`)

// Example is a text in which examples stand in quotes, such as a TOML value or a command
// line, with the quantities among them in the system's units: they keep two or three
// digits, so what is shown is another example of the same size, not the same figure.
func (s System) Example(text string) string {
	if s != US {
		return text
	}
	return quotedQuantity.ReplaceAllStringFunc(text, func(quoted string) string {
		parts := quotedQuantity.FindStringSubmatch(quoted)
		if one, ok := s.inOwnUnits(parts[2]); ok {
			return `"` + parts[1] + one + `"`
		}
		list := strings.Split(parts[2], ", ")
		for i := range list {
			if one, ok := s.inOwnUnits(list[i]); ok {
				list[i] = one
			}
		}
		return `"` + parts[1] + strings.Join(list, ", ") + `"`
	})
}

// inOwnUnits writes a text that is a quantity; false where it is none, or has the same
// units in both systems.
func (s System) inOwnUnits(text string) (string, bool) {
	for _, d := range [...]unit.Dimension{unit.Pressure, unit.Volume, unit.Length, unit.Mass, unit.Temperature, unit.Speed, unit.VolumeFlow,
		unit.Conductance, unit.Force, unit.Area} {
		if q, err := unit.Parse(text, d); err == nil {
			return s.rewritten(q, text), true
		}
	}
	return "", false
}

// shareOf is a tolerance that is a share of its quantity.
var shareOf = regexp.MustCompile(`± \d+ %`)

// rewritten is a quantity in units of the system; text is what it was read of.
func (s System) rewritten(q unit.Quantity, text string) string {
	step := Of(q.Dimension)
	if step == Temperature {
		step = TemperatureStep
	}
	size := func(si float64) string { return s.Near(step, si) }
	out := s.Near(Of(q.Dimension), q.Nominal)
	if q.Reference == unit.Absolute {
		out += " abs"
	}
	below, above := q.Nominal-q.Low, q.High-q.Nominal
	switch share := shareOf.FindString(text); {
	case !q.Stated:
	case share != "":
		out += " " + share
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
