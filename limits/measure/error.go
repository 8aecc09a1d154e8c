package measure

import "math"

// errorKind says what becomes of an error when a test is repeated.
type errorKind uint8

const (
	random      errorKind = iota // new every time: it is in the scatter of the shots
	systematic                   // the same every time: no repeating shows it
	independent                  // systematic, one of many that have nothing to do with each other
)

// errorSource is one input of a conversion: its value and the half-width of its
// error, both in the input's unit.
type errorSource struct {
	name         string
	Value, error float64
	kind         errorKind
}

// ErrorPart is what one input's error does to a result [in the result's unit].
type ErrorPart struct {
	Name       string
	Effect     float64
	Systematic bool
}

// uncertain is a result of a conversion with what is known of its error.
type uncertain struct {
	value      float64
	random     float64 // standard deviation, errors even within their half-widths
	systematic float64 // sum of the effects of the systematic errors
	parts      []ErrorPart
}

// propagate carries the errors of the inputs through f: each input is moved to
// both ends of its error, the others stay; half of the difference is its effect
// (JCGM 100:2008, 5.1.3 note 2 and F.2.3.3 for the division by sqrt 3). Random
// effects add as squares, systematic ones as they are; independent ones as
// squares among themselves, and their sum as one systematic.
func propagate(f func(x []float64) float64, in []errorSource) uncertain {
	x := make([]float64, len(in))
	for i, s := range in {
		x[i] = s.Value
	}
	u := uncertain{value: f(x)}
	var squares, apart float64
	for i, s := range in {
		if s.error == 0 {
			continue
		}
		x[i] = s.Value + s.error
		above := f(x)
		x[i] = s.Value - s.error
		below := f(x)
		x[i] = s.Value
		// Where a formula ends (a negative length) the side that exists counts whole.
		effect := math.Abs(above-below) / 2
		if math.IsNaN(below) || math.IsInf(below, 0) {
			effect = math.Abs(above - u.value)
		}
		u.parts = append(u.parts, ErrorPart{s.name, effect, s.kind != random})
		switch s.kind {
		case systematic:
			u.systematic += effect
		case independent:
			apart += effect * effect
		default:
			squares += effect * effect / 3
		}
	}
	u.random = math.Sqrt(squares)
	u.systematic += math.Sqrt(apart)
	return u
}
