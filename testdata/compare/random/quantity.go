package random

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// chance is true with probability p.
func (d *draw) chance(p float64) bool { return d.r.Float64() < p }

// uniform draws between two ends.
func (d *draw) uniform(low, high float64) float64 { return low + (high-low)*d.r.Float64() }

// log draws between two ends above zero, each factor as likely as another.
func (d *draw) log(low, high float64) float64 {
	return low * math.Pow(high/low, d.r.Float64())
}

// word draws one of some words.
func (d *draw) word(words ...string) string { return words[d.r.IntN(len(words))] }

// some draws those of the words that a coin of probability p shows, in order.
func (d *draw) some(p float64, words ...string) []string {
	out := []string{}
	for _, w := range words {
		if d.chance(p) {
			out = append(out, w)
		}
	}
	return out
}

// line writes one line.
func (d *draw) line(format string, args ...any) { fmt.Fprintf(&d.out, format+"\n", args...) }

// maybe writes one line with probability p. Its arguments are drawn either way.
func (d *draw) maybe(p float64, format string, args ...any) {
	if d.chance(p) {
		d.line(format, args...)
	}
}

// table begins a table.
func (d *draw) table(name string) { d.line("\n[%s]", name) }

// list writes words as a TOML list.
func list(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = strconv.Quote(w)
	}
	return "[" + strings.Join(quoted, ", ") + "]"
}

// number writes a figure with so many significant digits, without an exponent.
func number(v float64, digits int) string {
	if v == 0 {
		return "0"
	}
	scale := math.Pow(10, float64(digits-1)-math.Floor(math.Log10(math.Abs(v))))
	decimals := max(0, int(math.Ceil(math.Log10(scale)-1e-9)))
	s := strconv.FormatFloat(math.Round(v*scale)/scale, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// scale is a unit to write a figure in: so many of it make one of the unit that the
// figure is drawn in.
type scale struct {
	name string
	per  float64
}

// The units of each kind of figure, the one it is drawn in first.
var (
	bars    = []scale{{"bar", 1}, {"kPa", 100}, {"mbar", 1000}, {"psi", 14.5038}, {"bar gauge", 1}}
	gaps    = []scale{{"bar", 1}, {"kPa", 100}, {"psi", 14.5038}}
	litres  = []scale{{"L", 1}, {"mL", 1000}, {"cm3", 1000}, {"in3", 61.0237}}
	lengths = []scale{{"mm", 1}, {"cm", 0.1}, {"in", 1 / 25.4}}
	metres  = []scale{{"m", 1}, {"cm", 100}, {"ft", 1 / 0.3048}}
	grams   = []scale{{"g", 1}, {"kg", 0.001}, {"oz", 0.035274}}
	newtons = []scale{{"N", 1}, {"lbf", 0.224809}}
	millis  = []scale{{"ms", 1}, {"s", 0.001}}
	seconds = []scale{{"s", 1}, {"min", 1.0 / 60}}
	flows   = []scale{{"L/min", 1}, {"L/s", 1.0 / 60}, {"cfm", 0.0353147}}
	speeds  = []scale{{"m/s", 1}, {"km/h", 3.6}, {"mph", 2.23694}, {"ft/s", 3.28084}}
	degrees = []scale{{"deg", 1}}
	plain   = []scale{{"", 1}}
)

// unit draws a unit; the first is the likeliest.
func (d *draw) unit(units []scale) scale {
	if len(units) == 1 || d.chance(0.6) {
		return units[0]
	}
	return units[d.r.IntN(len(units))]
}

// origin draws how a figure is known; mostly nothing is said.
func (d *draw) origin() string {
	if d.chance(0.6) {
		return ""
	}
	return ", " + d.word("measured", "datasheet", "label", "estimated")
}

// quantity writes a figure above zero in one of the units, in quotes, with a
// tolerance of at most the fraction most, with one of its own on each side, none
// at all or ± 0, or as a range.
func (d *draw) quantity(v, most float64, units []scale) string {
	u := d.unit(units)
	x, name := v*u.per, strings.TrimRight(" "+u.name, " ")
	share := most * d.uniform(0.1, 1)
	text := number(x, 3) + name
	switch d.r.IntN(8) {
	case 0, 1: // the key's default band
	case 2, 3:
		text += " ± " + number(100*share, 2) + " %"
	case 4:
		text += " +/- " + number(share*x, 2) + name
	case 5:
		text += " -" + number(share*x, 2) + "/+" + number(most*d.uniform(0.1, 1)*x, 2) + name
	case 6:
		text += " ± 0"
	case 7:
		text = number(x*(1-share), 4) + " to " + number(x*(1+share), 4) + name
	}
	return strconv.Quote(text + d.origin())
}

// bare writes a figure without a tolerance.
func (d *draw) bare(v float64, units []scale) string {
	u := d.unit(units)
	return strconv.Quote(number(v*u.per, 3) + " " + u.name)
}

// fromZero writes a figure that may be none at all and whose tolerance may reach zero.
func (d *draw) fromZero(v float64, units []scale) string {
	if d.chance(0.15) {
		return d.none(units)
	}
	return d.reaching(v, units)
}

// real is fromZero of a figure that no part has none of.
func (d *draw) real(v float64, units []scale) string {
	if d.chance(0.15) {
		u := d.unit(units)
		return strconv.Quote(number(v*u.per, 3) + " " + u.name + " ± 0")
	}
	return d.reaching(v, units)
}

// none writes a figure of zero, exactly.
func (d *draw) none(units []scale) string { return strconv.Quote("0 " + d.unit(units).name + " ± 0") }

// reaching writes a figure whose tolerance may reach zero.
func (d *draw) reaching(v float64, units []scale) string {
	u := d.unit(units)
	x := number(v*u.per, 3)
	text := x + " " + u.name
	switch d.r.IntN(5) {
	case 0:
	case 1:
		text += " ± " + x + " " + u.name
	case 2:
		text += " -" + x + "/+" + number(v*u.per*d.uniform(0.2, 2), 2) + " " + u.name
	case 3:
		text += " ± " + number(d.uniform(2, 40), 2) + " %"
	case 4:
		text += " ± 0"
	}
	return strconv.Quote(text + d.origin())
}
