package design

import (
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

// answerUnits are the quantities that an answer of the checklist is compared by.
var answerUnits = map[unit.Dimension]finding.Quantity{unit.Pressure: finding.InPascalGauge, unit.Time: finding.InSecond,
	unit.Length: finding.InMetre,
	unit.Energy: finding.InJoule, unit.Speed: finding.InMetrePerSecond}

// FiguresIn finds the numbers with a unit in an answer, in SI. Of "0.71, 0.74 and
// 0.76 bar" it gives three: a number without a unit has that of the next one. Numbers
// before other words ("3 lifts") and shares ("5 %") are none; a pressure from vacuum is one that nothing
// is compared with.
func FiguresIn(value string) []finding.Figure {
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
			q := answerUnits[u.Dimension]
			if q == "" { // nothing is compared by it: it only tells that another quantity was answered
				q = finding.Quantity(u.Dimension.String())
			}
			if u.Reference != unit.Absolute && u.Dimension != unit.Dimensionless {
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

// checkItem refuses an answer to an item that no design has: it would close nothing, and
// nobody would notice.
func (r *reader) checkItem(item string, offset int) {
	if hint, known := KnownItem(item); !known {
		r.Fault(offset, Problem{Key: "checklist." + item, Message: "no design has an item of this id", Found: item,
			Want: "the id of an item, such as " + finding.ItemShots + "; check --json lists those of a design", Hint: hint})
	}
}

// KnownItem tells whether some design can have an item of an id that an answer closes; of one that none has, what to
// do instead, such as the id that was probably meant.
func KnownItem(item string) (hint string, known bool) {
	if finding.IsItem(item) {
		return "", true
	}
	if key, ahead := strings.CutPrefix(item, finding.AheadItem); ahead {
		return "the date itself, " + key + ", has to be put right", false
	}
	hint = keys.MeantWord(item, finding.ItemIDs(), map[string]string{"shots": finding.ItemShots, "tip": finding.ItemTip,
		"labels": finding.ItemLabels, "print": finding.ItemPrint, "jam": finding.ItemJamDrill,
		"relief": finding.ItemReliefTest, "switch": finding.ItemSwitchTest,
		"fuses": finding.ItemFuses, "guard": finding.ItemSealGuard, "leak": finding.ItemLeakDown, "vent": finding.ItemVentTest})
	if hint == "" {
		hint = "what you tested besides belongs in the value of the item it is about"
	}
	return hint, false
}
