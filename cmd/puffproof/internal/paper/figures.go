package paper

import (
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// memoryFlag stands beside a benchmark that is known from memory only.
const memoryFlag = " (M)"

// figures shows a verdict's value and limit, the limit flagged where it is known
// from memory only.
func (in *Input) figures(v finding.Verdict) (value, limit string) {
	value, limit = show.Figures(in.Units, v)
	if limit != "" && fromMemory(v.Source) {
		limit += memoryFlag
	}
	return value, limit
}

// fromMemory tells whether a source names a benchmark that nobody looked up.
func fromMemory(source string) bool { return strings.Contains(source, "(M: ") }

// against says "0.21 J of 0.50 J, margin 58 %".
func (in *Input) against(v finding.Verdict) string {
	value, limit := in.figures(v)
	if value == "" || !show.Judged(v) {
		return ""
	}
	if limit == "" {
		return value
	}
	if none := show.NoneAllowed(v); none != "" {
		return value + none
	}
	if v.Status == finding.Conditional && v.Margin != nil && *v.Margin < 0 { // what people do stands in for the limit
		if show.IsLower(v) {
			return value + ", MISSES the limit of at least " + limit
		}
		return value + ", OVER the limit of " + limit
	}
	word := " of "
	switch {
	case show.IsLower(v):
		word = ", at least "
	case v.Status == finding.Fail:
		word = " against "
	}
	t := value + word + limit
	if v.Margin != nil && *v.Limit != 0 {
		t += show.Lead(", ", show.MarginOf(v))
	}
	return t
}

// asStated shows a figure of the design: zeros at its end that a rounding of three digits would add were not stated.
func (in *Input) asStated(q quantity.Kind, v float64) string {
	number, unit, _ := strings.Cut(in.Units.Near(q, v), " ")
	if strings.Contains(number, ".") {
		number = strings.TrimRight(strings.TrimRight(number, "0"), ".")
	}
	return strings.TrimSpace(number + " " + unit)
}

// band shows a quantity with the ends of its tolerance.
func (in *Input) band(b launcher.Band, q quantity.Kind) string {
	if !b.Set {
		return "not stated"
	}
	t := in.asStated(q, b.Nominal)
	if q == quantity.Gauge { // said once
		q = quantity.Pressure
	}
	if low, high := in.asStated(q, b.Low), in.asStated(q, b.High); low != high {
		t += " (" + low + " to " + high + ")"
	}
	return t
}

// keys shows values of keys of the design.
func (in *Input) keys() show.Keys { return show.Keys{Units: in.Units, DimensionOf: in.DimensionOf} }

// seconds is a time that a person reads off a stopwatch: whole seconds, up.
func (in *Input) seconds(t float64) string {
	switch {
	case t >= 120:
		return in.Units.Worst(quantity.Time, t)
	case t < 1: // nobody times less by hand
		return "at once"
	}
	return quantity.Fixed(t, 0, quantity.Up) + " s"
}

func (in *Input) timeText(t float64) string {
	if math.IsInf(t, 1) || math.IsNaN(t) {
		return "never"
	}
	if t < 1 { // nobody times less by hand
		return "at once"
	}
	return in.Units.Worst(quantity.Time, t)
}
