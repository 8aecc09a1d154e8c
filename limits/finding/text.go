package finding

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// Figures inside sentences. Everyone distrusts an energy with four digits, so
// they get two; none is written with an exponent.

// unknown stands where a figure is no number.
const unknown = "not known"

// Significant writes v with n significant digits and no exponent: 126.7 with
// two is "130", 0.996 is "1.0".
func Significant(v float64, n int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return unknown
	}
	if v == 0 {
		return "0"
	}
	// The form with an exponent rounds first, so that 9.96 counts as 10.
	e := strconv.FormatFloat(v, 'e', n-1, 64)
	exponent, _ := strconv.Atoi(e[strings.IndexByte(e, 'e')+1:])
	rounded, _ := strconv.ParseFloat(e, 64)
	return strconv.FormatFloat(rounded, 'f', max(0, n-1-exponent), 64)
}

// Joule is an energy [J].
func Joule(e float64) Shown { return Shown{Value: e, Unit: Joules, Digits: 2} }

// WorstJoule and WorstBar are an energy [J] and a pressure [Pa] that must not look
// smaller than they are: rounded up, to the digits that the screens show.
func WorstJoule(e float64) Shown {
	if e > 0 { // less than that nobody reads
		e = max(e, leastJoule)
	}
	return Shown{Value: e, Unit: Joules, Rounding: Upwards, Digits: shownDigits(e)}
}

// leastJoule is the least energy [J] that is written where it must not look smaller than it is.
const leastJoule = 1e-4

// WorstBar is as WorstJoule says.
func WorstBar(p float64) Shown {
	return Shown{Value: p, Unit: Bars, Rounding: Upwards, Digits: shownDigits(p / 1e5)}
}

// Bar is a pressure [Pa].
func Bar(p float64) Shown { return Shown{Value: p, Unit: Bars, Digits: 2} }

// Bar3 is a pressure [Pa] whose neighbours on a ladder have to be told apart.
func Bar3(p float64) Shown { return Shown{Value: p, Unit: Bars, Rounding: Decimals, Digits: 3} }

// SquareMillimetre is an area [m2] that is needed at least.
func SquareMillimetre(a float64) Shown {
	return Shown{Value: a, Unit: SquareMillimetres, Rounding: Upwards, Digits: 2}
}

// Millimetre is a length [m] of parts.
func Millimetre(d float64) Shown { return Shown{Value: d, Unit: Millimetres, Digits: 3} }

// Metre is a distance [m].
func Metre(d float64) Shown { return Shown{Value: d, Unit: Metres, Digits: 2} }

// WorstMetre is a distance [m] that people are kept away: rounded up, to the digits that the screens show.
func WorstMetre(d float64) Shown {
	return Shown{Value: d, Unit: Metres, Rounding: Upwards, Digits: shownDigits(d)}
}

// Decibel is a peak sound level [dB(C)], rounded up to a whole one.
func Decibel(level float64) Shown {
	digits := 3
	if level < 100 {
		digits = 2
	}
	return Shown{Value: level, Unit: Decibels, Rounding: Upwards, Digits: digits}
}

// Ampere is a current [A].
func Ampere(i float64) Shown { return Amperes.Of(i, 3) }

// Litre is a volume [m3].
func Litre(v float64) Shown { return Shown{Value: v, Unit: Litres, Digits: 2} }

// Speed is a speed [m/s].
func Speed(v float64) Shown { return Shown{Value: v, Unit: MetresPerSecond, Digits: 2} }

// Newton is a force [N].
func Newton(f float64) Shown { return Shown{Value: f, Unit: Newtons, Digits: 2} }

// Second is a time [s].
func Second(t float64) Shown { return Shown{Value: t, Unit: Seconds, Digits: 2} }

// With is the figure with so many significant digits.
func (s Shown) With(digits int) Shown {
	s.Digits = digits
	return s
}

// Of is a figure of a text in a unit, with so many significant digits and no zeros at
// their end; v in SI.
func (u Unit) Of(v float64, digits int) Shown {
	return Shown{Value: v, Unit: u, Rounding: Shortest, Digits: digits}
}

// Beside is the figure without its unit: the one behind it, of the same unit, says it
// for both.
func (s Shown) Beside() Shown {
	s.BeforeUnit = true
	return s
}

// To is a span between two figures of one unit.
func (s Shown) To(high Shown) Text { return Say("%s to %s", s.Beside(), high) }

// In is the figure written by another way of rounding, in so many digits.
func (s Shown) In(r Rounding, digits int) Shown {
	s.Rounding, s.Digits = r, digits
	return s
}

// shownDigits are the digits of a figure: two below 1, else three.
func shownDigits(v float64) int {
	if v < 1 {
		return 2
	}
	return 3
}

// roundedUp is Significant, but never below v.
func roundedUp(v float64, n int) string {
	s := Significant(v, n)
	shown, err := strconv.ParseFloat(s, 64)
	if err != nil || shown >= v || v <= 0 {
		return s
	}
	return Significant(v+0.5*math.Pow(10, math.Floor(math.Log10(v))-float64(n-1)), n)
}

// Percent writes a share [-].
func Percent(share float64) string { return Significant(100*share, 2) + " %" }

// ValueOf is the value of a key that a bench test can measure, in the unit that suits
// it.
func ValueOf(key string, v float64) Text {
	has := func(words ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(key, w) })
	}
	in := func(u Unit) Text { return Say("%s", Shown{Value: v, Unit: u, Digits: 3}) }
	switch {
	case has("cut_", "pressure", "gauge_error"):
		return Say("%s", Bar3(v))
	case has("time", "pulse"):
		return in(Milliseconds)
	case has("force"):
		return in(Newtons)
	case has("free_air"):
		return in(LitresPerMinute)
	case has("orifice", "bore", "diameter", "clearance"):
		return in(Millimetres)
	case has("mass"):
		return in(Grams)
	case has("volume"):
		return Say("%s", Litre(v))
	}
	return Words(Significant(v, 3))
}
