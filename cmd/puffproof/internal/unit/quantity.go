package unit

import (
	"math"
	"strings"
)

// Origin is how a figure is known; empty where the text does not say.
type Origin string

const (
	Unstated  Origin = ""
	Measured  Origin = "measured"
	Datasheet Origin = "datasheet"
	Label     Origin = "label"
	Estimated Origin = "estimated"
	// Declared: promised, by nobody shown yet. What rests on it is conditional.
	Declared Origin = "declared"
	// Template: of a file to start from; of nobody's launcher.
	Template Origin = "template"
)

// Quantity is a figure as it was written, in SI units. Low <= Nominal <= High.
type Quantity struct {
	Nominal, Low, High float64 // SI; a temperature in K, a pressure as it reads
	Stated             bool    // a tolerance or a range was written, "± 0" too
	Range              bool    // written as a range; Nominal is its middle
	Origin             Origin
	Dimension          Dimension
	Reference          Reference // of a pressure or a sound
}

const (
	originWant = "measured, datasheet, label, estimated, declared or template"
	// maxText bounds the text of a quantity in bytes.
	maxText = 200
)

// Parse reads a quantity as System.Parse does, and says in metric words what is wrong
// with it.
func Parse(text string, want Dimension) (Quantity, *Error) { return Metric.Parse(text, want) }

// Parse reads a quantity of the wanted dimension:
//
//	NUMBER UNIT [TOLERANCE] [, ORIGIN]
//	NUMBER ± NUMBER UNIT [, ORIGIN]
//	NUMBER [UNIT] to NUMBER UNIT [, ORIGIN]
//	NUMBER [UNIT]-NUMBER UNIT [, ORIGIN]
//
// TOLERANCE is "± N UNIT", "± N %", "-N/+N UNIT" or "-N/+N %" ("+/-" for "±"; a
// tolerance on a temperature is a difference; "± 0" needs no unit and claims
// exactness). ORIGIN is measured, datasheet, label, estimated, declared or template. A plain
// number has no unit, or "%". The range with a hyphen is of numbers above zero. On a fault it returns a zero Quantity and the first
// fault from the left, its examples in units of the system.
func (in System) Parse(text string, want Dimension) (Quantity, *Error) {
	if len(text) > maxText {
		return Quantity{}, &Error{Kind: Trailing, Text: clip(text), Want: "a quantity of at most 200 characters"}
	}
	text = strings.ReplaceAll(text, "−", "-  ") // U+2212, three bytes wide: offsets stay
	s := &scanner{text: text, system: in}
	if s.done() {
		return Quantity{}, &Error{Kind: Empty, Text: text, Want: "a number with a unit: " + Accepted(want)}
	}
	p := parser{scanner: s, want: want}
	if err := p.value(); err != nil {
		return Quantity{}, err
	}
	if !p.q.Range {
		if err := p.tolerance(); err != nil {
			return Quantity{}, err
		}
	}
	if err := p.origin(); err != nil {
		return Quantity{}, err
	}
	if want == Temperature && p.q.Low < 0 {
		return Quantity{}, &Error{Kind: BelowZero, Text: text,
			Want: "a temperature above " + p.either("0 K (-273.15 degC)", "-459.67 degF")}
	}
	return p.q, nil
}

type parser struct {
	*scanner
	want   Dimension
	unit   Unit // of the value
	unitAt int  // where the unit read last begins
	q      Quantity
}

// signed reads a number that may be negative.
func (p *parser) signed() (float64, *Error) {
	p.space()
	sign := 1.0
	if p.skip("-") {
		sign = -1
	} else {
		p.skip("+")
	}
	v, err := p.number()
	return sign * v, err
}

// value reads the number and its unit, or a range.
func (p *parser) value() *Error {
	first, err := p.signed()
	if err != nil {
		return err
	}
	if p.rangeFollows() { // "2 to 4 bar"
		return p.upper(first, Unit{})
	}
	if p.want != Dimensionless && p.toleranceFollows() { // "7 ± 1 g"
		return p.around(first)
	}
	if p.startsHyphenRange() { // "6-8 g"
		return p.hyphenRange(first, Unit{})
	}
	if p.unit, err = p.expectUnit(first); err != nil {
		return err
	}
	p.setUnit(p.unit)
	if p.rangeFollows() { // "2 bar to 4 bar"
		return p.upper(first, p.unit)
	}
	if p.startsHyphenRange() { // "2 bar - 4 bar"
		return p.hyphenRange(first, p.unit)
	}
	v := p.unit.ToSI(first)
	p.q.Nominal, p.q.Low, p.q.High = v, v, v
	return nil
}

// hyphenRange reads a range whose ends a hyphen or a dash parts, of two numbers above zero, the smaller first, with a unit. The hyphen
// stands alone or joins them: in "6 -8 g" it may be a sign, and between other numbers too.
func (p *parser) hyphenRange(first float64, lowUnit Unit) *Error {
	at := p.at
	p.space()
	before := p.at > at
	p.skip("-  ", "-", "–", "—") // the first is a minus sign, as Parse has it
	dashed := p.at
	p.space()
	if after := p.at > dashed; before == after && first > 0 && p.want != Dimensionless && p.rest() != "" && isDigit(p.rest()[0]) {
		switch err := p.upper(first, lowUnit); {
		case err == nil && p.q.High > p.q.Low:
			return nil
		case err != nil && err.Kind != BadTolerance:
			return err
		}
	}
	p.at, p.q = at, Quantity{}
	return p.fail(BadTolerance, p.text, p.either(`"2 to 4 bar"`, `"30 to 60 psi"`)+" for a range", `write "to" between the ends of a range, `+
		"the smaller first")
}

// toleranceFollows skips the sign of a tolerance.
func (p *parser) toleranceFollows() bool {
	at := p.at
	p.space()
	if p.skip("±", "+/-", "+-") {
		return true
	}
	p.at = at
	return false
}

// around reads the size of a tolerance around a value and the unit of both.
func (p *parser) around(value float64) *Error {
	p.space()
	size, err := p.number()
	if err != nil {
		return err
	}
	if p.unit, err = p.expectUnit(size); err != nil {
		return err
	}
	p.setUnit(p.unit)
	v := p.unit.ToSI(value)
	half := p.unit.ToSI(value+size) - v // on any scale: a tolerance on a temperature is a difference
	p.q.Nominal, p.q.Low, p.q.High, p.q.Stated = v, v-half, v+half, true
	return nil
}

// rangeFollows skips the word between the ends of a range.
func (p *parser) rangeFollows() bool {
	at := p.at
	p.space()
	if p.skip("...", "…", "to ", "to\t", "to\u00a0") {
		return true
	}
	p.at = at
	return false
}

// startsHyphenRange finds the hyphen of "2 bar - 4 bar", which begins no tolerance.
func (p *parser) startsHyphenRange() bool {
	r := strings.TrimLeft(p.rest(), " \u00a0")
	if strings.HasPrefix(r, "–") || strings.HasPrefix(r, "—") {
		return true
	}
	return strings.HasPrefix(r, "-") && !strings.Contains(r, "/")
}

// upper reads the upper end of a range that began at first, in the given unit
// or, where that is the zero Unit, in the unit of the upper end.
func (p *parser) upper(first float64, lowUnit Unit) *Error {
	p.space()
	at := p.at
	second, err := p.signed()
	if err != nil {
		return err
	}
	if p.unit, err = p.expectUnit(second); err != nil {
		return err
	}
	if lowUnit.Name == "" {
		lowUnit = p.unit
	}
	if lowUnit.Reference != p.unit.Reference {
		p.at = at
		return p.fail(WrongDimension, p.text[at:], p.sameReference(), "")
	}
	p.setUnit(p.unit)
	low, high := lowUnit.ToSI(first), p.unit.ToSI(second)
	if low > high {
		p.at = at
		return p.fail(BadTolerance, p.text, "the smaller end first", "")
	}
	p.q.Nominal, p.q.Low, p.q.High = low+(high-low)/2, low, high
	p.q.Range, p.q.Stated = true, true
	return nil
}

// sameReference asks for a range whose ends are counted alike.
func (p *parser) sameReference() string {
	if p.want == SoundLevel {
		return "both ends A-weighted, or neither"
	}
	return "both ends gauge, or both absolute"
}

func (p *parser) setUnit(u Unit) { p.q.Dimension, p.q.Reference = u.Dimension, u.Reference }

// tolerance reads what follows the value, if it is a tolerance.
func (p *parser) tolerance() *Error {
	if p.done() {
		return nil
	}
	var below, above float64
	var err *Error
	switch r := p.rest(); {
	case p.skip("±", "+/-", "+-"):
		below, err = p.size()
		above = below
	case r[0] == '-':
		below, above, err = p.twoSided("-", "+")
	case r[0] == '+':
		above, below, err = p.twoSided("+", "-")
	case r[0] == ',':
		return nil
	default:
		return p.leftOver()
	}
	if err != nil {
		return err
	}
	p.q.Low, p.q.High, p.q.Stated = p.q.Nominal-below, p.q.Nominal+above, true
	return nil
}

// size reads one size of a tolerance with its unit and gives it in SI.
func (p *parser) size() (float64, *Error) {
	p.space()
	if strings.HasPrefix(p.rest(), "-") || strings.HasPrefix(p.rest(), "+") {
		return 0, p.fail(BadTolerance, p.word(), p.toleranceWant(), "the sign is already said")
	}
	n, err := p.number()
	if err != nil {
		return 0, err
	}
	scale, err := p.scale(n)
	return n * scale, err
}

// twoSided reads "-15/+10 ms" or "+10/-15 ms"; a unit after the first number is
// allowed.
func (p *parser) twoSided(first, second string) (float64, float64, *Error) {
	start := p.at
	bad := func() *Error {
		p.at = start
		return p.fail(BadTolerance, clip(p.rest()), p.toleranceWant(),
			"a one-sided tolerance needs both sides: "+p.either("-0/+1 N", "-0/+0.2 lbf"))
	}
	p.skip(first)
	n1, err := p.number()
	if err != nil {
		return 0, 0, err
	}
	own := 0.0 // SI scale of the first number, if it has its own unit
	p.space()
	if !strings.HasPrefix(p.rest(), "/") {
		if own, err = p.scale(n1); err != nil {
			return 0, 0, bad()
		}
		p.space()
	}
	if !p.skip("/") {
		return 0, 0, bad()
	}
	p.space()
	if !p.skip(second) {
		return 0, 0, bad()
	}
	n2, err := p.number()
	if err != nil {
		return 0, 0, err
	}
	scale, err := p.scale(max(n1, n2))
	if err != nil {
		return 0, 0, err
	}
	if own == 0 {
		own = scale
	}
	return n1 * own, n2 * scale, nil
}

// scale reads the unit of a tolerance and gives SI per one of it. A percentage
// is of the nominal value.
func (p *parser) scale(n float64) (float64, *Error) {
	p.space()
	if strings.HasPrefix(p.rest(), "%") && p.unit.Name != "%" {
		if p.want == Temperature {
			return 0, p.fail(BadTolerance, "%", p.either("± 10 K or ± 10 degC", "± 18 degF"), "a percentage of a temperature says nothing")
		}
		p.at++
		return 0.01 * math.Abs(p.q.Nominal), nil
	}
	if n == 0 && (p.done() || strings.HasPrefix(p.rest(), ",")) {
		return 1, nil // "± 0"
	}
	u, found := p.matchUnit()
	if !found && p.want == Dimensionless {
		return 1, nil
	}
	if !found {
		return 0, p.noUnit(n, p.toleranceWant())
	}
	if u.Dimension != p.want {
		return 0, p.wrongUnit(u, n)
	}
	return u.Factor, nil
}

// origin reads ", measured" and the end of the text.
func (p *parser) origin() *Error {
	if p.done() {
		return nil
	}
	if !p.skip(",") {
		return p.leftOver()
	}
	p.space()
	word := strings.TrimRight(p.rest(), " \t\u00a0")
	switch Origin(word) {
	case Measured, Datasheet, Label, Estimated, Declared, Template:
		p.q.Origin = Origin(word)
		return nil
	}
	return p.fail(BadOrigin, clip(word), originWant, originHint(word))
}

// leftOver is the fault for text that belongs to nothing.
func (p *parser) leftOver() *Error {
	rest := strings.TrimRight(p.rest(), " \t")
	hint := ""
	switch first, _, _ := strings.Cut(strings.ToLower(rest), " "); {
	case originHint(first) != "":
		hint = "put a comma before how it is known: \", measured\""
	case strings.HasPrefix(rest, "("):
		hint = "put remarks in a comment after #"
	case strings.HasPrefix(rest, "~"), strings.HasPrefix(rest, "+"):
		hint = "write ± or +/- for a tolerance"
	}
	return p.fail(Trailing, clip(rest), p.toleranceWant()+`, or ", measured"`, hint)
}
