package advise

import (
	"fmt"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// Sort is what kind of change it is.
type Sort uint8

// The sorts of changes.
const (
	Setting     Sort = iota // turned, cut or drilled: no part is bought
	Bought                  // a part to be bought
	Declaration             // the builder's to say, and then to show
	Wish                    // a rule that the builder sets
	Sketch                  // a figure of a design from nothing, to be replaced by the builder's own
)

// Value is what a key is to be.
type Value struct {
	Number *Quantity // a figure with its unit; nil: it is none
	Words  []string  // one word, or a list of them
	Listed bool      // the words are a list
	Yes    *bool     // true or false
	Bare   bool      // the figure has no unit
}

// Quantity is a figure as a design file writes it.
type Quantity struct {
	Value    float64      // SI
	Unit     finding.Unit // it is written in
	Below    float64      // tolerance to both sides, SI; below 0: none is stated
	Above    float64
	Declared bool
}

// Change gives a key of the design another value.
type Change struct {
	Key   string // dotted
	To    Value
	Why   string // in a builder's words
	Sort  Sort
	Part  string // what is to be bought; "" nothing
	Begun bool   // the value stands already, in the file that was begun from: it is said that it holds
}

func word(w string) Value { return Value{Words: []string{w}} }

func list(words ...string) Value { return Value{Words: words, Listed: true} }

func yes(v bool) Value { return Value{Yes: &v} }

// stated is a figure without a tolerance: a rating, a range, a wish.
func stated(v float64, u finding.Unit) Value { return number(v, u, -1) }

func bare(v float64) Value { return Value{Number: &Quantity{Value: v}, Bare: true} }

func number(v float64, u finding.Unit, tolerance float64) Value {
	return Value{Number: &Quantity{Value: v, Unit: u, Below: tolerance, Above: tolerance}}
}

// declared is the value as one that is declared; what says so already, and a list, stay as they are.
func (v Value) declared() Value {
	switch {
	case v.Number != nil:
		n := *v.Number
		n.Declared = true
		v.Number = &n
	case v.Yes != nil && *v.Yes:
		return word("declared yes")
	case v.Yes != nil:
		return word("declared no")
	}
	return v
}

// Text writes the value as a design file does, without quotes.
func (v Value) Text() string {
	switch {
	case v.Yes != nil:
		return fmt.Sprint(*v.Yes)
	case v.Number != nil:
		return v.Number.text(v.Bare)
	}
	return strings.Join(v.Words, ", ")
}

// Line is the value as it stands behind the equals sign of a design file, to be typed as it is shown.
func (v Value) Line() string {
	switch {
	case v.Yes != nil || v.Bare && !(v.Number.Above > 0) && !v.Number.Declared:
		return v.Text()
	case v.Listed:
		quoted := make([]string, len(v.Words))
		for i, w := range v.Words {
			quoted[i] = Quoted(w)
		}
		return "[" + strings.Join(quoted, ", ") + "]"
	}
	return Quoted(v.Text())
}

// Quoted is a line of text as TOML. Control characters, which a line has none of, would make it none.
func Quoted(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}

// Said is Line in a sentence: its figures are written in the reader's units.
func (v Value) Said() finding.Text {
	q := v.Number
	if q == nil || v.Bare {
		return finding.Words(v.Line())
	}
	said := finding.Say(`"%s`, q.Unit.Of(q.Value, 4))
	if q.Above > 0 {
		said = said.Say(" ± %s", q.Unit.Of(q.Above, 3))
	}
	return said.Say(`"`)
}

func (q *Quantity) text(bare bool) string {
	if bare {
		t := fmt.Sprintf("%.6g", q.Value)
		if q.Above > 0 {
			t += fmt.Sprintf(" ± %.3g", q.Above)
		}
		return t + q.promised()
	}
	one := func(x float64) string { return q.Unit.Of(x, 6).String() }
	t := one(q.Value)
	switch {
	case q.Below < 0:
	case q.Below == q.Above:
		t += " ± " + one(q.Above)
	default:
		t += " -" + q.Unit.Of(q.Below, 6).Beside().String() + "/+" + one(q.Above)
	}
	return t + q.promised()
}

// promised says that it is declared; "" it is not.
func (q *Quantity) promised() string {
	if q.Declared {
		return ", " + launcher.Declared.String()
	}
	return ""
}

// Design is a design that can be changed. Who reads design files gives it.
type Design interface {
	// Launcher is what the design says.
	Launcher() *launcher.Launcher
	// Stated is the value of a key as it is written; "" it does not stand, or says that it is not known.
	Stated(key string) string
	// With is the design with changes; the error says why it would be refused.
	With(changes []Change) (Design, error)
}
