package design

import (
	"fmt"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// quantity reads a number with unit, tolerance and origin, and holds it to what
// is possible for its key.
func (s *section) quantity(k *key, e *toml.Entry) {
	v := e.Value
	if v.Kind == toml.IsNumber && k.dimension == unit.Dimensionless {
		v = &toml.Value{Kind: toml.IsString, Text: strings.ReplaceAll(v.Text, "_", ""), Offset: v.Offset - 1, Plain: true}
	}
	if v.Kind == toml.IsNumber {
		s.wrong(k, v.Offset, Problem{Message: "is a bare number", Found: v.Text, Want: "text with a unit, such as " + k.exampleIn(s.r.units),
			Hint: fmt.Sprintf("write %s = \"%s %s\" with the unit that is meant", e.Name, v.Text, k.exampleUnit(s.r.units))})
		return
	}
	if !s.like(k, v, toml.IsString, "text with a unit, such as") {
		return
	}
	q, ok := s.parse(k.name, v, k.dimension)
	if !ok || !s.reference(k, e, q) {
		return
	}
	b := launcher.Band{Set: true, Nominal: q.Nominal, Low: q.Low, High: q.High, Key: s.dotted(k.name), Origin: origin(q.Origin),
		Line: s.r.Line(e.Value.Offset)}
	absolute := k.dimension == unit.Pressure && k.pressure == asGauge && q.Reference == unit.Absolute
	if !q.Stated && !absolute {
		k.widen(&b)
	}
	if absolute {
		b = s.fromAbsolute(k, b, q)
	}
	if s.possible(k, v, b) {
		if k.sign == orZero {
			b.Low = max(b.Low, 0) // rounding of "0.3 N ± 0.3 N" in other units
		}
		s.bands[k.name], s.stated[k.name] = b, q.Stated
		s.declares(k, q.Origin == unit.Declared)
	}
}

// parse reads a quantity's text and reports its fault at its place in the file.
func (s *section) parse(name string, v *toml.Value, d unit.Dimension) (unit.Quantity, bool) {
	q, err := unit.System(s.r.units).Parse(v.Text, d)
	if err == nil {
		return withoutRounding(q), true
	}
	at := v.Offset
	if v.Plain {
		at += 1 + err.Offset
	}
	p := Problem{Key: s.dotted(name), Message: faultWords(err.Kind), Found: err.Text, Want: err.Want, Hint: err.Hint}
	s.r.Fault(at, p)
	return q, false
}

// faultWords says a parser's fault as a sentence about the key.
func faultWords(k unit.Kind) string {
	words, known := map[unit.Kind]string{unit.Empty: "is empty", unit.NotANumber: "has no number here",
		unit.CommaNumber: "has a comma in its number", unit.FractionNumber: "is a fraction", unit.TooExtreme: "has an impossible number",
		unit.NoUnit: "has no unit", unit.UnknownUnit: "has an unknown unit", unit.WrongDimension: "has a unit of something else",
		unit.BadTolerance: "has a tolerance that cannot be read", unit.BadOrigin: "has an unknown origin",
		unit.BelowZero: "is below absolute zero"}[k]
	if !known {
		return "has text left over"
	}
	return words
}

func origin(o unit.Origin) launcher.Origin {
	return map[unit.Origin]launcher.Origin{unit.Measured: launcher.Measured, unit.Datasheet: launcher.Datasheet, unit.Label: launcher.Label,
		unit.Estimated: launcher.Estimated, unit.Declared: launcher.Declared, unit.Unstated: launcher.Unstated}[o]
}

// reference holds a pressure to gauge, absolute or difference.
func (s *section) reference(k *key, e *toml.Entry, q unit.Quantity) bool {
	if k.dimension != unit.Pressure {
		return true
	}
	p := Problem{Key: s.dotted(k.name), Found: e.Value.Text}
	switch {
	case k.pressure == asAbsolute && q.Reference == unit.Gauge:
		p.Message, p.Want = "is a gauge pressure", "an absolute pressure, such as "+k.exampleIn(s.r.units)
	case k.pressure == asDifference && q.Reference == unit.Absolute:
		p.Message, p.Want = "is an absolute pressure", "a difference of pressures, such as "+k.exampleIn(s.r.units)
	default:
		return true
	}
	s.r.Fault(e.Value.Offset, p)
	return false
}

// toGauge turns the values of an absolute reading into gauge values at the
// ambient pressure's nominal value.
func (s *section) toGauge(k *key, q unit.Quantity) unit.Quantity {
	if q.Reference == unit.Absolute {
		q.Nominal -= s.r.ambient.Nominal
		q.Low -= s.r.ambient.Nominal
		q.High -= s.r.ambient.Nominal
	}
	return q
}

// fromAbsolute turns an absolute pressure into a gauge band: what the ambient
// pressure may differ by widens it.
func (s *section) fromAbsolute(k *key, b launcher.Band, q unit.Quantity) launcher.Band {
	g := s.toGauge(k, q)
	b.Nominal, b.Low, b.High = g.Nominal, g.Low, g.High
	if !q.Stated {
		k.widen(&b)
	}
	b.Low -= s.r.ambient.High - s.r.ambient.Nominal
	b.High += s.r.ambient.Nominal - s.r.ambient.Low
	return b
}

// possible holds a band to the range of its key and to its sign.
func (s *section) possible(k *key, v *toml.Value, b launcher.Band) bool {
	p := Problem{Key: s.dotted(k.name), Found: v.Text}
	slack := 1e-12 * math.Max(math.Abs(k.min), math.Abs(k.max))
	at := v.Offset
	if v.Plain {
		at++
	}
	switch {
	case k.sign == positive && b.Nominal <= 0:
		p.Message, p.Want, p.Hint = "must be above zero", k.span(s.r.units), rangeHint(k, s.r.units)
	case k.sign == orZero && b.Nominal < 0:
		p.Message, p.Want = "cannot be negative", k.span(s.r.units)
	case b.Nominal < k.min-slack || b.Nominal > k.max+slack:
		p.Message, p.Want, p.Hint = "is outside what is possible", k.span(s.r.units), rangeHint(k, s.r.units)
	case k.sign == positive && b.Low <= 0:
		p.Message, p.Want, p.Hint = "has a tolerance that reaches zero", "a low end above zero: -N/+N for unequal sides", rangeHint(k, s.r.units)
	case k.sign == orZero && b.Low < -1e-12*math.Abs(b.Nominal):
		p.Message, p.Want = "has a tolerance that reaches below zero", "a low end of zero or more: -N/+N for unequal sides"
	case !b.Assumed && (b.Low < k.min-k.past-slack || b.High > k.max+k.past+slack):
		p.Message, p.Want = "has a tolerance that leaves what is possible", k.span(s.r.units)+", tolerance included"
		p.Hint = rangeHint(k, s.r.units)
		if k.past > 0 {
			p.Want = k.span(s.r.units) + ", and a tolerance of at most " +
				s.r.units.Words(quantity.Of(k.dimension), k.past, quantity.Down) + " beyond"
		}
	default:
		return true
	}
	s.r.Fault(at, p)
	return false
}

// span words the possible range of a key; both ends as they are shown are within.
func (k *key) span(u quantity.System) string {
	q := quantity.Of(k.dimension)
	low := u.Words(q, k.min, quantity.Up)
	if k.min == 0 && k.sign == positive {
		low = "above 0"
	}
	return low + " to " + u.Words(q, k.max, quantity.Down)
}

// rangeHint gives the reason of a range that is not plain sense.
func rangeHint(k *key, u quantity.System) string {
	switch {
	case k.name == "total_energy" || k.name == "energy_per_area":
		return "your own limit may be stricter than the published one, never looser"
	case k.name == "cut_out" || k.name == "cut_in":
		return checkedUpTo(u)
	case k.name == "dead_volume":
		return "the recess of a valve's seat and its fitting always hold some air; none would be filled in no time, and the computing never ends"
	case k.dimension == unit.Temperature:
		return "the gas model was checked from " + checkedBetween(u) + " only"
	}
	return ""
}

// widen gives a quantity without a tolerance the default band of its key.
func (k *key) widen(b *launcher.Band) {
	r := k.bands.of(b.Origin)
	b.Low, b.High = r.apply(b.Nominal)
	if r.exact {
		return
	}
	b.Assumed = true
	b.Reason = finding.Say("no tolerance stated; default for %s, %s: %s (%s)", k.name, b.Origin, r.words(k.dimension), practice)
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
