package design

import (
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"strconv"
	"strings"
)

// rule is a default tolerance: relative to the value, but at least so much on
// each side that has any.
type rule struct {
	below, above float64 // fractions of the nominal value
	least        float64 // SI
	exact        bool    // a declaration, not a measurement: no tolerance
}

// bands are the default tolerances of a key by origin. All are common practice
// without a published source; they err wide.
type bands struct {
	measured rule
	other    rule // unstated, estimated, label, datasheet
	datasheet,
	label *rule // where they differ from other
}

// plusMinus is a rule with equal sides.
func plusMinus(fraction, least float64) rule {
	return rule{below: fraction, above: fraction, least: least}
}

// declared is the default of limits, ratings and wishes: they are taken as
// written.
func declared() bands { return bands{measured: rule{exact: true}, other: rule{exact: true}} }

// of gives the rule for an origin.
func (b bands) of(o launcher.Origin) rule {
	switch {
	case o == launcher.Measured:
		return b.measured
	case o == launcher.Datasheet && b.datasheet != nil:
		return *b.datasheet
	case o == launcher.Label && b.label != nil:
		return *b.label
	}
	return b.other
}

// apply gives the ends of the default band of a nominal value.
func (r rule) apply(nominal float64) (low, high float64) {
	if r.exact {
		return nominal, nominal
	}
	size := nominal
	if size < 0 {
		size = -size
	}
	down, up := r.below*size, r.above*size
	if r.below > 0 || r.least > 0 {
		down = max(down, r.least)
	}
	if r.above > 0 || r.least > 0 {
		up = max(up, r.least)
	}
	return nominal - down, nominal + up
}

// words writes the rule: "± 10 %, at least ± 0.5 g".
func (r rule) words(d unit.Dimension) finding.Text {
	if r.exact {
		return finding.Words("taken as written")
	}
	share := ""
	switch {
	case r.below == r.above && r.below > 0:
		share = "± " + percent(r.above) + " %"
	case r.below != r.above:
		share = "-" + percent(r.below) + "/+" + percent(r.above) + " %"
	}
	switch {
	case r.least <= 0:
		return finding.Words(share)
	case share == "":
		return finding.Say("± %s", plainSize(r.least, d))
	}
	return finding.Say("%s, at least ± %s", share, plainSize(r.least, d))
}

func percent(f float64) string { return strconv.FormatFloat(100*f, 'g', 4, 64) }

// textUnits are the units of figures in texts, by their symbols.
var textUnits = map[string]finding.Unit{"bar": finding.Bars, "mm": finding.Millimetres, "m": finding.Metres, "L": finding.Litres,
	"m/s": finding.MetresPerSecond, "N": finding.Newtons, "g": finding.Grams, "L/min": finding.LitresPerMinute}

// plainSize is a width of a tolerance, without zeros at its end.
func plainSize(si float64, d unit.Dimension) finding.Text {
	if d == unit.Temperature {
		return finding.Say("%s", finding.Kelvins.Of(si, 3))
	}
	number, name, _ := strings.Cut(show.Metric.Near(show.Of(d), si), " ")
	if u, ok := textUnits[name]; ok {
		return finding.Say("%s", u.Of(si, significant(number)))
	}
	if strings.Contains(number, ".") {
		number = strings.TrimRight(strings.TrimRight(number, "0"), ".")
	}
	return finding.Words(strings.TrimSpace(number + " " + name))
}

// significant counts the significant digits of a number.
func significant(number string) int {
	return len(strings.TrimLeft(strings.ReplaceAll(strings.TrimLeft(number, "-"), ".", ""), "0"))
}

// practised is a reason that rests on common practice.
func practised(format string, args ...any) finding.Text {
	return finding.Say(format, args...).Say(" (%s)", practice)
}

// practice is what the defaults rest on.
const practice = "common practice, no source"

// widen gives a quantity without a tolerance the default band of its key.
func (k *key) widen(b *launcher.Band) {
	r := k.bands.of(b.Origin)
	b.Low, b.High = r.apply(b.Nominal)
	if r.exact {
		return
	}
	b.Assumed = true
	b.Reason = practised("no tolerance stated; default for %s, %s: %s", k.name, b.Origin, r.words(k.dimension))
	floor := 0.0
	switch {
	case k.sign == anySign:
		return
	case k.sign == positive:
		floor = b.Nominal / 10
	}
	if b.Low < floor {
		b.Low = floor
		b.Reason = b.Reason.Say("; low end held at %s", plainSize(floor, k.dimension))
	}
}
