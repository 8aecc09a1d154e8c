package show

import (
	"fmt"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/finding"
)

// Figures are a verdict's value and limit in words. The value is rounded towards
// its limit, and a value over its limit never looks equal to it.
func Figures(s quantity.System, v finding.Verdict) (value, limit string) {
	if v.Value == nil {
		return "", ""
	}
	q := quantity.OfVerdict(v.Unit)
	if q == quantity.Count && v.Limit != nil && *v.Value == 0 && *v.Limit == 0 {
		return "none", ""
	}
	towards := quantity.Up
	if IsLower(v) {
		towards = quantity.Down
	}
	value = s.Words(q, *v.Value, towards)
	if v.Limit == nil {
		return value, ""
	}
	value, limit = s.Like(q, *v.Value, *v.Limit, towards), s.Near(q, *v.Limit)
	if towards == quantity.Down {
		limit = s.Worst(q, *v.Limit)
	}
	if *v.Limit == 0 {
		if _, u, ok := strings.Cut(value, " "); ok {
			limit = "0 " + u
		}
	}
	const hair = 1e-4 // of the limit: a reader is not to see a pass at it for a rounding of the machine
	if value == limit && q != quantity.Count && (v.Status == finding.Fail || math.Abs(*v.Value-*v.Limit) > hair*math.Abs(*v.Limit)) {
		return s.Apart(q, *v.Value, *v.Limit)
	}
	return value, limit
}

// Condition says what people have to keep for a verdict, and by which items: "Holds
// while: nobody reaches in (seal-guard)."; "" it is not conditional.
func Condition(s quantity.System, v finding.Verdict) string {
	if v.Status != finding.Conditional {
		return ""
	}
	return "Holds while: " + strings.TrimRight(s.Text(v.Condition), ". ") + ItemsOf(v) + "."
}

// ItemsOf names the items of the checklist that stand for a verdict, in brackets behind
// a blank; "" there are none.
func ItemsOf(v finding.Verdict) string {
	if len(v.Items) == 0 {
		return ""
	}
	return " (" + strings.Join(v.Items, ", ") + ")"
}

// IsLower tells whether a verdict's limit is one to stay above; of one read from an old file
// the sign of the margin tells.
func IsLower(v finding.Verdict) bool {
	return v.AtLeast || v.Value != nil && v.Limit != nil && v.Margin != nil && (*v.Limit-*v.Value)**v.Margin < 0
}

// MarginOf is Margin of a verdict; how many times a limit to stay above is missed says
// nothing, so it stays a share.
func MarginOf(v finding.Verdict) string {
	switch quantity.OfVerdict(v.Unit) {
	case quantity.PeakLevel: // a share of decibels means nothing
		return "margin " + quantity.Fixed(*v.Limit-*v.Value, 0, quantity.Down) + " dB"
	case quantity.Count:
		return ""
	}
	if IsLower(v) && *v.Margin < -1 {
		return "margin " + quantity.Percent(*v.Margin, 0, quantity.Down)
	}
	if v.Unit == finding.InPascalGauge && v.Value != nil && v.Limit != nil && *v.Value > finding.MostPressure && *v.Limit > 0 {
		return "over " + quantity.Margin(1 - finding.MostPressure / *v.Limit)
	}
	return quantity.Margin(*v.Margin)
}

// NoneAllowed is said of a value over a limit of nothing; "" there is another limit, or none.
func NoneAllowed(v finding.Verdict) string {
	if v.Limit == nil || *v.Limit != 0 || IsLower(v) {
		return ""
	}
	return ", none allowed"
}

// OfLimit says "0.38 of 0.50 J": the unit once where both have the same. A limit to
// stay above is "at least"; of a limit of nothing none is allowed.
func OfLimit(v finding.Verdict, value, limit string) string {
	between := " of "
	if IsLower(v) {
		between = ", at least "
	}
	if limit == "" {
		return value
	}
	if none := NoneAllowed(v); none != "" {
		return value + none
	}
	number, u, _ := strings.Cut(value, " ")
	if _, lu, _ := strings.Cut(limit, " "); lu == u {
		return number + between + limit
	}
	return value + between + limit
}

// Counted says how many of some verdicts have which status, where it is not one alone.
func Counted(verdicts []finding.Verdict) string {
	var parts []string
	for _, st := range []finding.Status{finding.Fail, finding.Unknown, finding.Conditional} {
		if n := Tally(verdicts, st); n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, Word(st)))
		}
	}
	return " (" + strings.Join(parts, ", ") + ")"
}
