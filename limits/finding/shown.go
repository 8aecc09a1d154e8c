package finding

import (
	"fmt"
	"math"
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
	SquareMillimetres
	Decibels // of a peak sound pressure, C-weighted, re 20 uPa
	Amperes
)

// celsiusZero is where degrees Celsius are counted from [K].
const celsiusZero = 273.15

// metric gives the unit's symbol and its size in SI.
func (u Unit) metric() (symbol string, size float64) {
	one := [...]struct {
		symbol string
		size   float64
	}{Bars: {"bar", 1e5}, Hectopascals: {"hPa", 100}, MillibarsPerMetre: {"mbar per metre", 100},
		SquareMillimetres: {"mm2", 1e-6}, Decibels: {"dB(C)", 1}, Amperes: {"A", 1}, BarLitres: {"bar L", 100},
		Joules: {"J", 1}, Newtons: {"N", 1}, Grams: {"g", 1e-3}, Millimetres: {"mm", 1e-3}, Metres: {"m", 1}, PerMetre: {"per m", 1},
		Litres: {"L", 1e-3}, Millilitres: {"mL", 1e-6}, LitresPerMinute: {"L/min", 1e-3 / 60}, MetresPerSecond: {"m/s", 1},
		Milliseconds: {"ms", 1e-3}, Seconds: {"s", 1}, Minutes: {"min", 60}, Kelvins: {"K", 1}, Celsius: {"degC", 1}}[u]
	return one.symbol, one.size
}

// quantity is what is measured in the unit, as answers name it; NoQuantity where answers
// are not compared by it.
func (u Unit) quantity() Quantity {
	switch u {
	case Bars, Hectopascals:
		return InPascalGauge
	case Joules:
		return InJoule
	case Millimetres, Metres:
		return InMetre
	case MetresPerSecond:
		return InMetrePerSecond
	case Seconds, Milliseconds, Minutes:
		return InSecond
	case Newtons:
		return InNewton
	case SquareMillimetres:
		return InSquareMetre
	case Decibels:
		return InDecibel
	case Amperes:
		return InAmpere
	}
	return NoQuantity
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
	Side       Side // to which its digits may leave it
}

// Number writes the figure without its unit, as in a unit of the given size in SI.
func (s Shown) Number(size float64) string {
	v := s.Value / size
	if s.Unit == Celsius {
		v -= celsiusZero
	}
	return s.onSide(s.rounded(v), v)
}

// rounded writes a number by the figure's way of rounding.
func (s Shown) rounded(v float64) string {
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

// MostPressure is the highest pressure that a design may state [Pa]. What is computed beyond it, of air that is driven against a plug or
// heated, no model here covers: its digits would be made up, so a text says that it is more than this.
const MostPressure = 400e5

// beyond tells that a figure is a pressure that no model here covers.
func (s Shown) beyond() bool { return s.Unit == Bars && s.Value > MostPressure }

// String writes the figure in its metric unit.
func (s Shown) String() string {
	if math.IsNaN(s.Value) || math.IsInf(s.Value, 0) {
		return unknown // and no unit, with which it would look like a figure
	}
	symbol, size := s.Unit.metric()
	over := ""
	if s.beyond() {
		over, s.Value, s.Digits = "over ", MostPressure, 3
	}
	if s.BeforeUnit {
		return over + s.Number(size)
	}
	return over + s.Number(size) + " " + symbol
}
