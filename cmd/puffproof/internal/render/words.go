package render

import (
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

// The words and figures that papers share with the screens.

// StatusWord is the word of a status.
func StatusWord(st finding.Status) string { return statusWord(st) }

// Near shows a value rounded to the nearest digit shown; a pressure says gauge.
func (s Style) Near(d unit.Dimension, si float64) string { return s.near(d, si) }

// Worst shows a value that must not look better than it is.
func (s Style) Worst(d unit.Dimension, si float64) string { return s.worst(d, si) }

// Rounded shows a value rounded in a direction.
func (s Style) Rounded(d unit.Dimension, si float64, r unit.Rounding) string {
	return s.quantity(d, si, r)
}

// Apart shows two values with as many digits as it takes to tell them apart.
func (s Style) Apart(d unit.Dimension, a, b float64) (string, string) { return s.apart(d, a, b) }

// Figures shows a verdict's value and limit; neither looks better than it is.
func (s Style) Figures(v finding.Verdict) (value, limit string) { return s.figures(v) }

// MarginText says how far a value is from its limit.
func MarginText(share float64) string { return margin(share) }

// Number shows a figure with some significant digits, without an exponent.
func Number(v float64, digits int) string { return number(v, digits) }

// IsLower tells whether a verdict's limit is one to stay above.
func IsLower(v finding.Verdict) bool { return isLower(v) }

// DimensionOf is the dimension of a verdict's figures.
func DimensionOf(q finding.Quantity) unit.Dimension { return dimensionOf(q) }

// AxisUnit is the unit for a whole axis whose largest value is top [SI], and its
// name.
func (s Style) AxisUnit(d unit.Dimension, top float64) (unit.Unit, string) { return s.axisUnit(d, top) }
