package render

import (
	"math"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"strconv"
	"strings"
)

// Units is the system of units shown; the zero value is metric.
type Units = unit.System

// The systems.
const (
	Metric = unit.Metric
	US     = unit.US
)

// quantity shows an SI value with its unit. Every pressure that is shown here is
// a gauge reading, and says so.
func (s Style) quantity(d unit.Dimension, si float64, r unit.Rounding) string {
	t := unit.FormatRounded(si, d, s.Units, r)
	if d == unit.Pressure {
		t += " gauge"
	}
	return t
}

// near shows a value rounded to the nearest digit shown.
func (s Style) near(d unit.Dimension, si float64) string { return s.quantity(d, si, unit.Nearest) }

// worst shows a value that must not look better than it is.
func (s Style) worst(d unit.Dimension, si float64) string { return s.quantity(d, si, unit.Up) }

// figures shows a verdict's value and limit. The value is rounded towards its
// limit, and a value over its limit never looks equal to it.
func (s Style) figures(v finding.Verdict) (value, limit string) {
	d := dimensionOf(v.Unit)
	switch {
	case v.Value == nil:
		return "", ""
	case v.Unit == finding.InCount:
		value = number(*v.Value, 6)
		if v.Limit != nil {
			limit = number(*v.Limit, 6)
			if *v.Value == 0 && *v.Limit == 0 {
				return "none", ""
			}
		}
		return value, limit
	}
	towards := unit.Up
	if isLower(v) {
		towards = unit.Down
	}
	value = s.quantity(d, *v.Value, towards)
	if v.Limit == nil {
		return value, ""
	}
	limit = s.near(d, *v.Limit)
	if *v.Limit == 0 {
		if _, u, ok := strings.Cut(value, " "); ok {
			limit = "0 " + u
		}
	}
	if value == limit && v.Status == finding.Fail {
		value, limit = s.apart(d, *v.Value, *v.Limit)
	}
	return value, limit
}

// isLower tells whether a verdict's limit is one to stay above.
func isLower(v finding.Verdict) bool {
	return v.Value != nil && v.Limit != nil && v.Margin != nil && (*v.Limit-*v.Value)**v.Margin < 0
}

// apart shows two values with as many digits as it takes to tell them apart.
func (s Style) apart(d unit.Dimension, a, b float64) (string, string) {
	u, name := s.axisUnit(d, math.Max(math.Abs(a), math.Abs(b)))
	for digits := 3; digits < 15; digits++ {
		x, y := number(u.FromSI(a), digits), number(u.FromSI(b), digits)
		if x != y {
			return x + " " + name, y + " " + name
		}
	}
	return s.near(d, a), s.near(d, b)
}

// axisUnit is the unit for a whole axis whose largest value is top [SI]: the one
// in which that value would be shown.
func (s Style) axisUnit(d unit.Dimension, top float64) (unit.Unit, string) {
	text := unit.Format(top, d, s.Units)
	_, name, _ := strings.Cut(text, " ")
	u, ok := unit.Lookup(name)
	if !ok {
		return unit.Unit{Factor: 1}, name
	}
	if d == unit.Pressure {
		name += " gauge"
	}
	return u, name
}

// number shows v with some significant digits, without exponent or empty decimals.
func number(v float64, digits int) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	// The exponent form rounds first, so 9.996 counts as 10.
	e := strconv.FormatFloat(v, 'e', digits-1, 64)
	exp, _ := strconv.Atoi(e[strings.IndexByte(e, 'e')+1:])
	rounded, _ := strconv.ParseFloat(e, 64)
	t := strconv.FormatFloat(rounded, 'f', max(0, digits-1-exp), 64)
	if strings.Contains(t, ".") {
		t = strings.TrimRight(strings.TrimRight(t, "0"), ".")
	}
	return t
}

// margin shows how far a value is from its limit; a value more than twice its
// limit as a multiple of it, since nobody reads -1749 %.
func margin(share float64) string {
	if share < -1 {
		return number(1-share, 2) + " times the limit"
	}
	return "margin " + percent(share)
}

// percent shows a share rounded down, so that no margin looks larger than it is.
func percent(share float64) string {
	p := math.Floor(share*100 + 1e-9) // 1e-9: a share of 0.29 is 29 %, not 28 %
	return strconv.FormatFloat(p, 'f', 0, 64) + " %"
}

// dimensionOf is the dimension of a verdict's figures.
func dimensionOf(q finding.Quantity) unit.Dimension {
	switch q {
	case finding.InJoule:
		return unit.Energy
	case finding.InJoulePerArea:
		return unit.EnergyPerArea
	case finding.InPascalGauge:
		return unit.Pressure
	case finding.InSecond:
		return unit.Time
	case finding.InMetre:
		return unit.Length
	case finding.InMetrePerSecond:
		return unit.Speed
	}
	return unit.Dimensionless
}
