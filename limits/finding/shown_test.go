package finding_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
)

// Figures in sentences: two digits, no exponent.
func TestFiguresInText(t *testing.T) {
	for v, want := range map[float64]string{126.7: "130 J", 1.284: "1.3 J", 1: "1.0 J", 0.0996: "0.10 J", 0.00512: "0.0051 J", 0: "0 J",
		1402074: "1400000 J"} {
		assert.Equal(t, want, finding.Joule(v).String())
	}
	assert.Equal(t, "0.95 bar", finding.Bar(0.95e5).String())
	assert.Equal(t, "12.0 mm", finding.Millimetre(0.012).String())
	assert.Equal(t, "0.050 %", finding.Percent(0.0005))
}

// The highest pressure that a design may state is 400 bar; what is computed beyond it has no digits that mean anything.
func TestNoDigitsBeyondEveryModel(t *testing.T) {
	for p, want := range map[float64]string{1667e5: "over 400 bar", 401e5: "over 400 bar", 400e5: "400 bar", 360e5: "360 bar"} {
		assert.Equal(t, want, finding.Bar(p).String())
	}
	assert.Equal(t, "350 to over 400 bar", finding.Say("%s", finding.Bar(350e5).To(finding.Bar(1667e5))).String())
	assert.Equal(t, "1667 J", finding.Joules.Of(1667, 4).String())
}
