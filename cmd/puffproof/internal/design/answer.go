package design

import (
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

// answerUnits are the quantities that an answer of the checklist is compared by.
var answerUnits = map[unit.Dimension]finding.Quantity{unit.Pressure: finding.InPascalGauge, unit.Time: finding.InSecond,
	unit.Length: finding.InMetre,
	unit.Energy: finding.InJoule, unit.Speed: finding.InMetrePerSecond}

// figuresIn finds the numbers with a unit in an answer, in SI. Of "0.71, 0.74 and
// 0.76 bar" it gives three: a number without a unit has that of the next one. Numbers
// before other words ("3 lifts") are none; a pressure from vacuum is one that nothing
// is compared with.
func figuresIn(value string) []finding.Figure {
	var out []finding.Figure
	var waiting []float64
	for _, word := range strings.FieldsFunc(value, func(r rune) bool { return strings.ContainsRune(" \t\n;()[]", r) }) {
		digits := len(word) - len(strings.TrimLeft(word, "+-0123456789.,"))
		if digits > 0 {
			number := strings.TrimRight(word[:digits], ".,")
			v, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
			if err != nil {
				waiting = nil
				continue
			}
			waiting = append(waiting, v)
			if word = word[digits:]; word == "" {
				continue
			}
		}
		word = strings.TrimRight(word, ".,:!")
		switch u, known := unit.Lookup(word); {
		case known:
			if q := answerUnits[u.Dimension]; q != "" && u.Reference != unit.Absolute {
				for _, v := range waiting {
					out = append(out, finding.Figure{Value: u.ToSI(v), Unit: q})
				}
			}
			waiting = nil
		case word != "" && word != "to" && word != "and" && word != "or" && word != "±" && word != "–":
			waiting = nil
		}
	}
	return out
}
