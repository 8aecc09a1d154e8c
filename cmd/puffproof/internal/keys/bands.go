package keys

import (
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// rule is a default tolerance: relative to the value, but at least so much on
// each side that has any.
type rule struct {
	below, above float64 // fractions of the nominal value
	least        float64 // SI
	zero         float64 // SI, above a value stated as zero: of nothing a fraction leaves nothing
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
	if nominal == 0 {
		up = max(up, r.zero)
	}
	return nominal - down, nominal + up
}

// words writes the rule: "± 10 %, at least ± 0.5 g".
func (r rule) words(d unit.Dimension) finding.Text {
	if r.exact {
		return finding.Words("taken as written")
	}
	var s finding.Text
	switch {
	case r.below == r.above && r.below > 0:
		s = finding.Say("± %s %%", percent(r.above))
	case r.below != r.above:
		s = finding.Say("-%s/+%s %%", percent(r.below), percent(r.above))
	}
	if r.least > 0 {
		if len(s) != 0 {
			s = s.Say(", at least ")
		}
		s = s.Say("± %s", plainSize(r.least, d))
	}
	if r.zero > 0 {
		s = s.Say(", of zero up to %s", plainSize(r.zero, d))
	}
	return s
}

func percent(f float64) string { return strconv.FormatFloat(100*f, 'g', 4, 64) }

// plainSize writes a size of a dimension, without zeros at its end.
func plainSize(si float64, d unit.Dimension) finding.Text {
	u, ok := sizeUnit(si, d)
	if !ok {
		number, name, _ := strings.Cut(quantity.Metric.Near(quantity.Of(d), si), " ") // the same in all systems
		if strings.Contains(number, ".") {
			number = strings.TrimRight(strings.TrimRight(number, "0"), ".")
		}
		return finding.Words(strings.TrimSpace(number + " " + name))
	}
	digits := 3
	if d == unit.Pressure || d == unit.Force {
		digits = 2
	}
	return finding.Say("%s", u.Of(si, digits))
}

// sizeUnit is the unit in which a text has a size of a dimension; false where that has one
// unit only, or none.
func sizeUnit(si float64, d unit.Dimension) (finding.Unit, bool) {
	small := map[unit.Dimension]struct {
		below        float64
		small, large finding.Unit
	}{unit.Length: {1, finding.Millimetres, finding.Metres}, unit.Volume: {1e-3, finding.Millilitres, finding.Litres},
		unit.Time: {1, finding.Milliseconds, finding.Seconds}}
	if s, two := small[d]; two {
		if si < s.below {
			return s.small, true
		}
		return s.large, true
	}
	u, known := map[unit.Dimension]finding.Unit{unit.Temperature: finding.Kelvins, unit.Pressure: finding.Bars, unit.Mass: finding.Grams,
		unit.Force: finding.Newtons, unit.Speed: finding.MetresPerSecond, unit.VolumeFlow: finding.LitresPerMinute}[d]
	return u, known
}

// Practice is what the defaults rest on.
const Practice = "common practice, no source"

// Celsius is a temperature in a text [°C].
func Celsius(v float64) finding.Shown { return finding.Celsius.Of(v+273.15, 3) }

// TooNarrow tells that a stated tolerance is narrower than anything of its origin gives, and what that gives as a rule: with calipers,
// scales and gauges that people have a twentieth of the default band can still be told, and no label, data sheet or guess is ten times
// better than it (own rules of this project, no source). Nothing that is exactly nothing is a claim of its own, "0 km/h ± 0" stands still,
// but where its default reaches above zero.
func (k *Key) TooNarrow(b launcher.Band) (usual finding.Text, is bool) {
	const told, promised = 1.0 / 20, 1.0 / 10
	r := k.Bands.of(b.Origin)
	if r.exact || b.Nominal == 0 && r.zero == 0 {
		return nil, false
	}
	least := promised
	if b.Origin == launcher.Measured {
		least = told
	}
	low, high := r.apply(b.Nominal)
	if b.Width() >= least*(high-low) {
		return nil, false
	}
	return r.words(k.Dimension), true
}

// Widen gives a quantity without a tolerance the default band of its key.
func (k *Key) Widen(b *launcher.Band) {
	r := k.Bands.of(b.Origin)
	b.Low, b.High = r.apply(b.Nominal)
	if r.exact {
		return
	}
	b.Assumed = true
	b.Reason = finding.Say("no tolerance stated; default for %s, %s: %s (%s)", k.Name, b.Origin, r.words(k.Dimension), Practice)
	floor := 0.0
	switch {
	case k.Sign == AnySign:
		return
	case k.Sign == Positive:
		floor = b.Nominal / 10
	}
	if b.Low < floor {
		b.Low = floor
		b.Reason = b.Reason.Say("; low end held at %s", plainSize(floor, k.Dimension))
	}
}
