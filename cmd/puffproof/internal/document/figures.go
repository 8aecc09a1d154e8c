package document

import (
	"math"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"strconv"
	"strings"
)

// memoryFlag stands beside a benchmark that is known from memory only.
const memoryFlag = " (M)"

// style is the screens' way to show figures.
func (in *Input) style() render.Style { return render.Style{Units: in.Units} }

// near shows a value to the nearest digit.
func (in *Input) near(d unit.Dimension, si float64) string { return in.shown(d, si, unit.Nearest) }

// worst shows a value that must not look better than it is.
func (in *Input) worst(d unit.Dimension, si float64) string { return in.shown(d, si, unit.Up) }

// shown writes a figure as the screens do, so that nobody finds two figures for
// one thing.
func (in *Input) shown(d unit.Dimension, si float64, r unit.Rounding) string {
	switch {
	case math.IsNaN(si):
		return "not known"
	case math.IsInf(si, 0):
		return "without end"
	case r == unit.Up:
		return in.style().Worst(d, si)
	case r == unit.Down:
		return in.style().Rounded(d, si, unit.Down)
	}
	return in.style().Near(d, si)
}

// far shows a distance on the ground.
func (in *Input) far(m float64) string { return in.style().Worst(unit.Length, m) }

// two writes a figure with two significant digits and no exponent.
func two(v float64, r unit.Rounding) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	places := 1 - int(math.Floor(math.Log10(math.Abs(v))))
	scale := math.Pow(10, float64(places))
	// 1e-9: 0.29 written as 0.29 must not go up to 0.30.
	switch scaled := v * scale; r {
	case unit.Up:
		v = math.Ceil(scaled-1e-9*math.Abs(scaled)) / scale
	case unit.Down:
		v = math.Floor(scaled+1e-9*math.Abs(scaled)) / scale
	default:
		v = math.Round(scaled) / scale
	}
	if places = 1 - int(math.Floor(math.Log10(math.Abs(v))+1e-12)); places < 0 {
		places = 0
	}
	return strconv.FormatFloat(v, 'f', places, 64)
}

// figures shows a verdict's value and limit, the limit flagged where it is known
// from memory only.
func (in *Input) figures(v finding.Verdict) (value, limit string) {
	value, limit = in.style().Figures(v)
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
	if value == "" || v.Status == finding.Unknown || v.Status == finding.NotApplicable {
		return ""
	}
	if limit == "" {
		return value
	}
	if v.Unit == finding.InCount && *v.Limit == 0 {
		return value + ", none allowed"
	}
	if v.Status == finding.Pass && v.Margin != nil && *v.Margin < 0 { // on procedure: what people do stands in for the limit
		if render.IsLower(v) {
			return value + ", MISSES the limit of at least " + limit
		}
		return value + ", OVER the limit of " + limit
	}
	word := " of "
	switch {
	case render.IsLower(v):
		word = ", at least "
	case v.Status == finding.Fail:
		word = " against "
	}
	t := value + word + limit
	if v.Margin != nil && *v.Limit != 0 {
		t += ", " + render.MarginText(*v.Margin)
	}
	return t
}

// band shows a quantity with the ends of its tolerance.
func (in *Input) band(b launcher.Band, d unit.Dimension) string {
	if !b.Set {
		return "not stated"
	}
	t := in.style().Near(d, b.Nominal)
	low, high := in.style().Near(d, b.Low), in.style().Near(d, b.High)
	if low != high {
		t += " (" + strings.TrimSuffix(low, " gauge") + " to " + strings.TrimSuffix(high, " gauge") + ")"
	}
	return t
}

// plural counts things.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// count counts verdicts of a status.
func count(r limits.Report, st finding.Status) int {
	n := 0
	for _, v := range r.Verdicts {
		if v.Status == st {
			n++
		}
	}
	return n
}
