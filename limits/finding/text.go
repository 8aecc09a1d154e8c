package finding

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Figures inside sentences. Everyone distrusts an energy with four digits, so
// they get two; none is written with an exponent.

// Significant writes v with n significant digits and no exponent: 126.7 with
// two is "130", 0.996 is "1.0".
func Significant(v float64, n int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "not a number"
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

// Joule writes an energy [J].
func Joule(e float64) string { return Significant(e, 2) + " J" }

// WorstJoule and worstBar write an energy [J] and a pressure [Pa] that must not
// look smaller than they are: rounded up, to the digits that the screens show.
func WorstJoule(e float64) string { return RoundedUp(e, shownDigits(e)) + " J" }

func WorstBar(p float64) string { return RoundedUp(p/1e5, shownDigits(p/1e5)) + " bar" }

// shownDigits are the digits of a figure: two below 1, else three.
func shownDigits(v float64) int {
	if v < 1 {
		return 2
	}
	return 3
}

// RoundedUp is significant, but never below v.
func RoundedUp(v float64, n int) string {
	s := Significant(v, n)
	shown, err := strconv.ParseFloat(s, 64)
	if err != nil || shown >= v || v <= 0 {
		return s
	}
	return Significant(v+0.5*math.Pow(10, math.Floor(math.Log10(v))-float64(n-1)), n)
}

// Bar writes a pressure [Pa].
func Bar(p float64) string { return Significant(p/1e5, 2) + " bar" }

// Millimetre writes a length [m].
func Millimetre(d float64) string { return Significant(1e3*d, 3) + " mm" }

// Litre writes a volume [m3].
func Litre(v float64) string { return Significant(1e3*v, 2) + " L" }

// Percent writes a share [-].
func Percent(share float64) string { return Significant(100*share, 2) + " %" }

// ValueOf writes the value of a key that a bench test can measure, in the unit that
// suits it.
func ValueOf(key string, v float64) string {
	has := func(words ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(key, w) })
	}
	switch {
	case has("cut_", "pressure", "gauge_error"):
		return Bar3(v)
	case has("time", "pulse"):
		return Significant(1e3*v, 3) + " ms"
	case has("force"):
		return Significant(v, 3) + " N"
	case has("free_air"):
		return Significant(v*60e3, 3) + " L/min"
	case has("orifice", "bore", "diameter", "clearance"):
		return Millimetre(v)
	case has("mass"):
		return Significant(1e3*v, 3) + " g"
	case has("volume"):
		return Litre(v)
	}
	return Significant(v, 3)
}

// Bar3 writes a pressure [Pa] so that neighbours of a ladder can be told apart.
func Bar3(p float64) string { return fmt.Sprintf("%.3f bar", p/1e5) }

func JoinNotes(notes ...string) string {
	var out []string
	for _, n := range notes {
		if n != "" {
			out = append(out, n)
		}
	}
	return strings.Join(out, "; ")
}
