package finding

import (
	"fmt"
	"strconv"
)

// Unit is the metric unit in which a figure of a text is written. Another system of
// units writes the figure in its own unit of the same quantity.
type Unit uint8

// The units of figures in texts.
const (
	Bars Unit = iota // gauge, or a difference
	Joules
	Millimetres
	Metres
	Litres
	MetresPerSecond
	Seconds
	Milliseconds
	Minutes
	Newtons
	Grams
	LitresPerMinute
	Kelvins   // of a difference
	BarLitres // a pressure times a volume
	PerMetre  // of a share that is lost on the way
	Millilitres
	Hectopascals // of the air around
	Celsius      // a temperature, in K
	MillibarsPerMetre
)

// celsiusZero is where degrees Celsius are counted from [K].
const celsiusZero = 273.15

// metric gives the unit's symbol and its size in SI.
func (u Unit) metric() (symbol string, size float64) {
	switch u {
	case Bars:
		return "bar", 1e5
	case Joules:
		return "J", 1
	case Millimetres:
		return "mm", 1e-3
	case Metres:
		return "m", 1
	case Litres:
		return "L", 1e-3
	case MetresPerSecond:
		return "m/s", 1
	case Seconds:
		return "s", 1
	case Milliseconds:
		return "ms", 1e-3
	case Minutes:
		return "min", 60
	case Newtons:
		return "N", 1
	case Grams:
		return "g", 1e-3
	case LitresPerMinute:
		return "L/min", 1e-3 / 60
	case Kelvins:
		return "K", 1
	case BarLitres:
		return "bar L", 100
	case PerMetre:
		return "per m", 1
	case Millilitres:
		return "mL", 1e-6
	case Hectopascals:
		return "hPa", 100
	case Celsius:
		return "degC", 1
	case MillibarsPerMetre:
		return "mbar per metre", 100
	}
	panic("finding: unit " + strconv.Itoa(int(u)))
}

// Rounding is how the digits of a figure are chosen.
type Rounding uint8

// The ways. Everyone distrusts an energy with four digits, so most figures get two.
const (
	Nearest  Rounding = iota // so many significant digits, no exponent
	Upwards                  // likewise, never below the figure: it must not look smaller than it is
	Decimals                 // so many decimals
	Shortest                 // so many significant digits without zeros at the end
)

// Shown is a figure of a text: what it is, in SI, and how it is to be written.
type Shown struct {
	Value    float64
	Unit     Unit
	Rounding Rounding
	Digits   int
	// BeforeUnit says that the figure behind it, of the same unit, says the unit for both:
	// "0 to 30 mm". A writer in other units may write each with its own.
	BeforeUnit bool
}

// Number writes the figure without its unit, as in a unit of the given size in SI.
func (s Shown) Number(size float64) string {
	v := s.Value / size
	if s.Unit == Celsius {
		v -= celsiusZero
	}
	switch s.Rounding {
	case Upwards:
		return roundedUp(v, s.Digits)
	case Decimals:
		return strconv.FormatFloat(v, 'f', s.Digits, 64)
	case Shortest:
		return fmt.Sprintf("%.*g", s.Digits, v)
	}
	return Significant(v, s.Digits)
}

// String writes the figure in its metric unit.
func (s Shown) String() string {
	symbol, size := s.Unit.metric()
	if s.BeforeUnit {
		return s.Number(size)
	}
	return s.Number(size) + " " + symbol
}
