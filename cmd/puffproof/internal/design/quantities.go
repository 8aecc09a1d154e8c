package design

import (
	"fmt"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
)

// quantity reads a number with unit, tolerance and origin, and holds it to what
// is possible for its key.
func (s *section) quantity(k *keys.Key, e *toml.Entry) {
	v := e.Value
	if v.Kind == toml.IsNumber && k.Dimension == unit.Dimensionless {
		v = &toml.Value{Kind: toml.IsString, Text: strings.ReplaceAll(v.Text, "_", ""), Offset: v.Offset - 1, Plain: true}
	}
	if v.Kind == toml.IsNumber {
		s.wrong(k, v.Offset, Problem{Message: "is a bare number", Found: v.Text, Want: "text with a unit, such as " + k.ExampleIn(s.r.units),
			Hint: fmt.Sprintf("write %s = \"%s %s\" with the unit that is meant", e.Name, v.Text, k.ExampleUnit(s.r.units))})
		return
	}
	if !s.like(k, v, toml.IsString, "text with a unit, such as") {
		return
	}
	q, ok := s.parse(k.Name, v, k.Dimension)
	if !ok || !s.reference(k, e, q) {
		return
	}
	b := launcher.Band{Set: true, Nominal: q.Nominal, Low: q.Low, High: q.High, Key: s.dotted(k.Name), Origin: origin(q.Origin),
		Line: s.r.Line(e.Value.Offset)}
	absolute := k.Dimension == unit.Pressure && k.Pressure == keys.AsGauge && q.Reference == unit.Absolute
	if !q.Stated && !absolute {
		k.Widen(&b)
	}
	if usual, narrow := k.TooNarrow(b); narrow && q.Stated {
		s.r.narrow = append(s.r.narrow, launcher.Narrow{Key: b.Key, Origin: b.Origin, Usual: usual})
	}
	if absolute {
		b = s.fromAbsolute(k, b, q)
	}
	if s.possible(k, v, b) {
		if k.Sign == keys.OrZero {
			b.Low = max(b.Low, 0) // rounding of "0.3 N ± 0.3 N" in other units
		}
		s.bands[k.Name], s.stated[k.Name] = b, q.Stated
	}
}

// parse reads a quantity's text and reports its fault at its place in the file.
func (s *section) parse(name string, v *toml.Value, d unit.Dimension) (unit.Quantity, bool) {
	q, err := unit.System(s.r.units).Parse(v.Text, d)
	if err == nil {
		switch key := s.dotted(name); q.Origin { // also of a point of a curve, and of a reading
		case unit.Template:
			s.r.template = append(s.r.template, key)
		case unit.Declared:
			s.r.declared = append(s.r.declared, key)
		}
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
		unit.Estimated: launcher.Estimated, unit.Declared: launcher.Declared,
		unit.Template: launcher.Template, unit.Unstated: launcher.Unstated}[o]
}

// reference holds a pressure to gauge, absolute or difference, and a peak of sound to a weighting that keeps low tones.
// IEC 61672-1:2013, table 3: at 63 Hz weighting A is -26.2 dB, C -0.8 dB.
func (s *section) reference(k *keys.Key, e *toml.Entry, q unit.Quantity) bool {
	p := Problem{Key: s.dotted(k.Name), Found: e.Value.Text}
	switch {
	case k.PeakSound && q.Reference == unit.AWeighted:
		p.Message, p.Want = "is A-weighted", "a peak that is C-weighted, dB(C), or not weighted, dB, such as "+k.ExampleIn(s.r.units)
		p.Hint = "limits of peaks are C-weighted; weighting A takes up to 26 dB from low tones (63 Hz), so a bang reads low: " +
			"set the meter to peak and C, and record again"
	case k.Dimension != unit.Pressure:
		return true
	case k.Pressure == keys.AsAbsolute && q.Reference == unit.Gauge:
		p.Message, p.Want = "is a gauge pressure", "an absolute pressure, such as "+k.ExampleIn(s.r.units)
	case k.Pressure == keys.AsDifference && q.Reference == unit.Absolute:
		p.Message, p.Want = "is an absolute pressure", "a difference of pressures, such as "+k.ExampleIn(s.r.units)
	default:
		return true
	}
	s.r.Fault(e.Value.Offset, p)
	return false
}

// toGauge turns the values of an absolute reading into gauge values at the
// ambient pressure's nominal value.
func (s *section) toGauge(k *keys.Key, q unit.Quantity) unit.Quantity {
	if q.Reference == unit.Absolute {
		q.Nominal -= s.r.ambient.Nominal
		q.Low -= s.r.ambient.Nominal
		q.High -= s.r.ambient.Nominal
	}
	return q
}

// fromAbsolute turns an absolute pressure into a gauge band: what the ambient
// pressure may differ by widens it.
func (s *section) fromAbsolute(k *keys.Key, b launcher.Band, q unit.Quantity) launcher.Band {
	g := s.toGauge(k, q)
	b.Nominal, b.Low, b.High = g.Nominal, g.Low, g.High
	if !q.Stated {
		k.Widen(&b)
	}
	b.Low -= s.r.ambient.High - s.r.ambient.Nominal
	b.High += s.r.ambient.Nominal - s.r.ambient.Low
	return b
}

// possible holds a band to the range of its key and to its sign.
func (s *section) possible(k *keys.Key, v *toml.Value, b launcher.Band) bool {
	p := Problem{Key: s.dotted(k.Name), Found: v.Text}
	slack := 1e-12 * math.Max(math.Abs(k.Min), math.Abs(k.Max))
	at := v.Offset
	if v.Plain {
		at++
	}
	switch {
	case k.Sign == keys.Positive && b.Nominal <= 0:
		p.Message, p.Want, p.Hint = "must be above zero", k.Span(s.r.units), rangeHint(k, s.r.units)
	case k.Sign == keys.OrZero && b.Nominal < 0:
		p.Message, p.Want = "cannot be negative", k.Span(s.r.units)
	case b.Nominal < k.Min-slack || b.Nominal > k.Max+slack:
		p.Message, p.Want, p.Hint = "is outside what is possible", k.Span(s.r.units), rangeHint(k, s.r.units)
	case k.Sign == keys.Positive && b.Low <= 0:
		p.Message, p.Want, p.Hint = "has a tolerance that reaches zero", "a low end above zero: -N/+N for unequal sides", rangeHint(k, s.r.units)
	case k.Sign == keys.OrZero && b.Low < -1e-12*math.Abs(b.Nominal):
		p.Message, p.Want = "has a tolerance that reaches below zero", "a low end of zero or more: -N/+N for unequal sides"
	case !b.Assumed && (b.Low < k.Min-k.Past-slack || b.High > k.Max+k.Past+slack):
		p.Message, p.Want = "has a tolerance that leaves what is possible", k.Span(s.r.units)+", tolerance included"
		p.Hint = rangeHint(k, s.r.units)
		if k.Past > 0 {
			p.Want = k.Span(s.r.units) + ", and a tolerance of at most " +
				s.r.units.Words(quantity.Of(k.Dimension), k.Past, quantity.Down) + " beyond"
		}
	default:
		return true
	}
	s.r.Fault(at, p)
	return false
}

// rangeHint gives the reason of a range that is not plain sense.
func rangeHint(k *keys.Key, u quantity.System) string {
	switch {
	case k.Name == "total_energy" || k.Name == "energy_per_area":
		return "your own limit may be stricter than the published one, never looser"
	case k.Name == "cut_out" || k.Name == "cut_in":
		return checkedUpTo(u)
	case k.Name == "dead_volume":
		return "the recess of a valve's seat and its fitting always hold some air; none would be filled in no time, and the computing never ends"
	case k.Table == "venting" && k.Name == "within":
		return "nobody stands off a launcher that may still shoot for longer (common practice, no source): vent it through a wider bore"
	case k.Dimension == unit.Temperature:
		return "the gas model was checked from " + checkedBetween(u) + " only"
	}
	return ""
}
