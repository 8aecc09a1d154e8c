package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Rounding is the direction in which a shown figure may leave the true one. A
// figure that must not look better than it is goes Up or Down.
type Rounding uint8

const (
	Nearest Rounding = iota
	Up
	Down
)

// Fixed writes v with so many decimals and never as a zero with a minus. With
// fewer than none it rounds to tens, hundreds and so on.
func Fixed(v float64, decimals int, r Rounding) string {
	step := math.Pow(10, float64(decimals))
	scaled := v * step
	slack := math.Max(1e-6, 1e-9*math.Abs(scaled)) // of a step: 0.29 written as 0.29 must not go up to 0.30
	switch {
	case r == Up:
		v = math.Ceil(scaled-slack) / step
	case r == Down:
		v = math.Floor(scaled+slack) / step
	case decimals < 0:
		v = math.RoundToEven(scaled) / step
	}
	text := strconv.FormatFloat(v, 'f', max(decimals, 0), 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// decimals is how many decimals show n significant digits of v once it is rounded:
// 2 for 0.996 and two digits, since that is 1.0; negative where zeros are left.
func decimals(v float64, n int) int {
	e := strconv.FormatFloat(v, 'e', n-1, 64) // rounds first
	exponent, _ := strconv.Atoi(e[strings.IndexByte(e, 'e')+1:])
	return n - 1 - exponent
}

// Significant writes v with n significant digits and no exponent: 126.7 with two
// is "130", 0.996 is "1.0".
func Significant(v float64, n int, r Rounding) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	text := Fixed(v, decimals(v, n), r)
	rounded, _ := strconv.ParseFloat(text, 64)
	return Fixed(rounded, decimals(rounded, n), Nearest) // 9.93 goes up to 10, not to 10.0
}

// Number is Significant, to the nearest, without the zeros at its end: "1.25", "10".
func Number(v float64, digits int) string { return trimmed(Significant(v, digits, Nearest)) }

// Tenths writes v to the nearest tenth: "2.5", "3".
func Tenths(v float64) string { return trimmed(Fixed(v, 1, Nearest)) }

func trimmed(text string) string {
	if !strings.Contains(text, ".") {
		return text
	}
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

// Short writes a figure whose size may be far from one, with an exponent where it
// is: "0.034", "1.2e-07".
func Short(v float64, digits int) string { return strconv.FormatFloat(v, 'g', digits, 64) }

// Power writes a figure as a power of ten, in one digit: "2e-09".
func Power(v float64) string { return strconv.FormatFloat(v, 'e', 0, 64) }

// Exact writes every digit that a figure has: "0.528".
func Exact(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// Tick writes a value of an axis with the decimals that suit the axis' top.
func Tick(v, top float64) string {
	places := 0
	if top > 0 {
		places = min(max(1-int(math.Floor(math.Log10(top))), 0), 4)
	}
	if t := Fixed(v, places, Nearest); trimmed(t) != "0" {
		return t
	}
	return "0"
}

// Percent writes a share: "25 %". A share that must not look larger than it is goes
// Down.
func Percent(share float64, decimals int, r Rounding) string {
	return Fixed(share*100, decimals, r) + " %"
}

// Deviation writes a share with its sign: "+1.20 %"; "-" where there is none.
func Deviation(share float64) string {
	if math.IsNaN(share) || math.IsInf(share, 0) {
		return "-"
	}
	sign := "+"
	if math.Signbit(share) {
		sign = "-"
	}
	return sign + Percent(math.Abs(share), 2, Nearest)
}

// Margin says how far a value is from its limit; a value more than twice its limit
// as a multiple of it, since nobody reads -1749 %.
func Margin(share float64) string {
	if share < -1 {
		return Number(1-share, 2) + " times the limit"
	}
	return "margin " + Percent(share, 0, Down)
}
