package limits

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Figures inside sentences. Everyone distrusts an energy with four digits, so
// they get two; none is written with an exponent.

// significant writes v with n significant digits and no exponent: 126.7 with
// two is "130", 0.996 is "1.0".
func significant(v float64, n int) string {
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

// joule writes an energy [J].
func joule(e float64) string { return significant(e, 2) + " J" }

// worstJoule and worstBar write an energy [J] and a pressure [Pa] that must not
// look smaller than they are: rounded up, to the digits that the screens show.
func worstJoule(e float64) string { return roundedUp(e, shownDigits(e)) + " J" }

func worstBar(p float64) string { return roundedUp(p/1e5, shownDigits(p/1e5)) + " bar" }

// shownDigits are the digits of a figure: two below 1, else three.
func shownDigits(v float64) int {
	if v < 1 {
		return 2
	}
	return 3
}

// roundedUp is significant, but never below v.
func roundedUp(v float64, n int) string {
	s := significant(v, n)
	shown, err := strconv.ParseFloat(s, 64)
	if err != nil || shown >= v || v <= 0 {
		return s
	}
	return significant(v+0.5*math.Pow(10, math.Floor(math.Log10(v))-float64(n-1)), n)
}

// bar writes a pressure [Pa].
func bar(p float64) string { return significant(p/1e5, 2) + " bar" }

// millimetre writes a length [m].
func millimetre(d float64) string { return significant(1e3*d, 3) + " mm" }

// litre writes a volume [m3].
func litre(v float64) string { return significant(1e3*v, 2) + " L" }

// percent writes a share [-].
func percent(share float64) string { return significant(100*share, 2) + " %" }

// valueOf writes the value of a key that a bench test can measure, in the unit that
// suits it.
func valueOf(key string, v float64) string {
	has := func(words ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(key, w) })
	}
	switch {
	case has("cut_", "pressure", "gauge_error"):
		return bar3(v)
	case has("time", "pulse"):
		return significant(1e3*v, 3) + " ms"
	case has("force"):
		return significant(v, 3) + " N"
	case has("free_air"):
		return significant(v*60e3, 3) + " L/min"
	case has("orifice", "bore", "diameter", "clearance"):
		return millimetre(v)
	case has("mass"):
		return significant(1e3*v, 3) + " g"
	case has("volume"):
		return litre(v)
	}
	return significant(v, 3)
}

// bar3 writes a pressure [Pa] so that neighbours of a ladder can be told apart.
func bar3(p float64) string { return fmt.Sprintf("%.3f bar", p/1e5) }

func joinNotes(notes ...string) string {
	var out []string
	for _, n := range notes {
		if n != "" {
			out = append(out, n)
		}
	}
	return strings.Join(out, "; ")
}
