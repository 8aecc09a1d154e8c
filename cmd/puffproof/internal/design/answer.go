package design

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/xrash/smetrics"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

// answerUnits are the quantities that an answer of the checklist is compared by.
var answerUnits = map[unit.Dimension]finding.Quantity{unit.Pressure: finding.InPascalGauge, unit.Time: finding.InSecond,
	unit.Length: finding.InMetre, unit.Mass: finding.OnScale, unit.Force: finding.InNewton, unit.Angle: finding.InRadian,
	unit.Area: finding.InSquareMetre, unit.Energy: finding.InJoule, unit.Speed: finding.InMetrePerSecond, unit.SoundLevel: finding.InDecibel,
	unit.Temperature: finding.InKelvin}

// writtenOut are units as people write them in a sentence, in the singular.
var writtenOut = map[string]string{"second": "s", "sec": "s", "minute": "min", "metre": "m", "meter": "m", "millimetre": "mm",
	"millimeter": "mm", "centimetre": "cm", "centimeter": "cm", "newton": "N", "joule": "J", "degree": "deg", "kilogram": "kg", "inch": "in"}

// levels are sound levels as people write them, each as one word: what is weighted otherwise than by C says nothing of a peak.
var levels = regexp.MustCompile(`(?i)\bdB\s*[-_]?\s*(?:\(\s*([ACZ])\s*\)|([ACZ])\b)`)

// inWords is a text as its figures are looked for in: levels as one word, and numbers in words before a unit in digits.
func inWords(value string) string {
	value = levels.ReplaceAllStringFunc(value, func(s string) string {
		m := levels.FindStringSubmatch(s)
		return "dB" + strings.ToUpper(m[1]+m[2])
	})
	fields := strings.Fields(value)
	for i := 0; i+1 < len(fields); i++ {
		n, is := finding.InWords(strings.ToLower(strings.Trim(fields[i], "(,")))
		unit := strings.TrimSuffix(strings.ToLower(strings.TrimRight(fields[i+1], ".,;:!)")), "s")
		if _, out := writtenOut[unit]; is && out && len(unit) > 3 {
			fields[i] = strconv.Itoa(n)
		}
	}
	return strings.Join(fields, " ")
}

// amperes are the units of a fuse, and their words.
var amperes = map[string]float64{"A": 1, "mA": 1e-3, "amp": 1, "ampere": 1, "amps": 1, "amperes": 1}

// FiguresIn finds the numbers with a unit in an answer, in SI. Of "0.71, 0.74 and 0.76 bar" it gives three: a number without a unit has
// that of the next one. Numbers before other words ("3 lifts") and shares ("5 %") are none; a pressure from vacuum is one that nothing is
// compared with.
func FiguresIn(value string) []finding.Figure {
	var out []finding.Figure
	figures(value, func(f finding.Figure, _ string) { out = append(out, f) }, func(string) {})
	return out
}

// BesideIn gives for each of FiguresIn the words that stand before it, after the figure before.
func BesideIn(value string) []string {
	var out []string
	figures(value, func(_ finding.Figure, before string) { out = append(out, before) }, func(string) {})
	return out
}

// OddIn finds the numbers in an answer behind which a word stands that is all but a unit, with the unit that was probably meant. Who
// leaves them out may leave out the one figure that tells.
func OddIn(value string) []string {
	var out []string
	figures(value, func(finding.Figure, string) {}, func(odd string) { out = append(out, odd) })
	return out
}

// waits is a number that waits for its unit.
type waits struct {
	value  float64
	before string // the words before it
}

// figures gives the figures of a text with the words before each, and what is all but a figure.
func figures(value string, take func(f finding.Figure, before string), odd func(string)) {
	var waiting []waits
	said, unitBefore := "", "" // the words since the last number, the unit that is the word before
	listed, last := 0, ""      // so many of those that wait were followed by a comma: "feed 1.2, bleed 1.0 mm" is a list
	for _, word := range strings.FieldsFunc(inWords(value), func(r rune) bool { return strings.ContainsRune(" \t\n;()[]", r) }) {
		digits := len(word) - len(strings.TrimLeft(word, "+-0123456789.,"))
		if digits > 0 {
			number := strings.TrimRight(word[:digits], ".,")
			comma := strings.HasSuffix(word, ",") && digits == len(word)
			v, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
			if err != nil {
				waiting, listed = nil, 0
				continue
			}
			waiting, last = append(waiting, waits{v, said}), number
			said, unitBefore = "", ""
			if comma {
				listed = len(waiting)
			}
			if word = word[digits:]; word == "" {
				continue
			}
		}
		word = strings.TrimRight(word, ".,:!")
		q, toSI, known := answerUnit(word)
		if known && unitBefore != "" && !slices.Contains(wordsToo, word) {
			odd(fmt.Sprintf("%s %s %s (one unit stands behind a figure)", last, unitBefore, word))
		}
		unitBefore = ""
		switch {
		case known && toSI != nil:
			for _, w := range waiting {
				take(finding.Figure{Value: toSI(w.value), Unit: q}, w.before)
			}
			if len(waiting) > 0 {
				unitBefore = word
			}
			waiting, listed = nil, 0
		case known:
			waiting, listed = nil, 0
		case word != "" && word != "to" && word != "and" && word != "or" && word != "±" && word != "–":
			if meant := allButUnit(word); meant != "" && len(waiting) > 0 {
				odd(fmt.Sprintf("%s %s (did you mean %s? a count stands in words)", last, word, meant))
			}
			waiting = waiting[:listed]
			said += " " + word
		}
	}
}

// answerUnit understands a unit behind a figure: what it measures and how it becomes SI, nil where nothing is compared by it; false:
// it is none.
func answerUnit(word string) (finding.Quantity, func(float64) float64, bool) {
	if size, is := amperes[word]; is {
		return finding.InAmpere, func(v float64) float64 { return v * size }, true
	}
	switch word { // a level that is not said to be C-weighted is one that nothing is compared with, but it is told what it is
	case "dBA", "dBZ":
		return finding.InOtherDecibel, func(v float64) float64 { return v }, true
	}
	u, known := unit.Lookup(word)
	for _, plain := range []string{strings.TrimSuffix(word, "s"), writtenOut[strings.TrimSuffix(strings.ToLower(word), "s")]} {
		if !known && len(word) > 2 {
			u, known = unit.Lookup(plain)
		}
	}
	switch {
	case !known:
		return "", nil, false
	case u.Reference == unit.Absolute || u.Dimension == unit.Dimensionless:
		return "", nil, true
	}
	q := answerUnits[u.Dimension]
	if q == "" { // nothing is compared by it: it only tells that another quantity was answered
		q = finding.Quantity(u.Dimension.String())
	}
	return q, u.ToSI, true
}

// wordsToo are units that are words as well, or behind "100 mm in".
var wordsToo = []string{"in", "at", "a", "A", "m", "s", "min"}

// counted are words that stand behind a count and are one letter from a unit.
var counted = []string{"bad", "bag", "ban", "bay", "car", "day", "fin", "man", "men", "mid", "pin", "tin", "win", "won"}

// allButUnit is the unit that a word is one letter from; "" none. A unit of two letters is one letter from too much.
func allButUnit(word string) string {
	if slices.Contains(counted, strings.ToLower(word)) || strings.ContainsFunc(word, func(r rune) bool { return !unicode.IsLetter(r) }) {
		return ""
	}
	for _, d := range []unit.Dimension{unit.Pressure, unit.Time, unit.Angle, unit.Speed} {
		for _, known := range strings.Split(unit.Accepted(d), ", ") {
			if len(known) >= 3 && smetrics.WagnerFischer(strings.ToLower(word), strings.ToLower(known), 1, 1, 1) == 1 {
				return known
			}
		}
	}
	return ""
}

// checkItem refuses an answer to an item that no design has: it would close nothing, and nobody would notice.
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
