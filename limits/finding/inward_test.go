package finding

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// By hand: an end is rounded to the side that is accepted, and keeps the digits that its band needs; what is no end stays.
func TestEndsAreRoundedInwards(t *testing.T) {
	band := FigureBetween(InPascalGauge, 0.3249e5, 0.3851e5)
	for want, text := range map[string]Text{
		"0.33 bar to 0.38 bar, about 0.35 bar": Say("%s to %s, about %s", Bar(0.3249e5), Bar(0.3851e5), Bar(0.354e5)),
		"0.325 bar to 0.385 bar":               Say("%s to %s", Bar3(0.3249e5), Bar3(0.3851e5)),
		"a shot of 0.32 m/s":                   Say("a shot of %s", Speed(0.3249)),
	} {
		assert.Equal(t, want, text.Inward(band).String())
	}
	narrow := FigureBetween(InPascalGauge, 0.3249e5, 0.3306e5)
	assert.Equal(t, "0.325 bar to 0.33 bar", Say("%s to %s", Bar(0.3249e5), Bar(0.3306e5)).Inward(narrow).String())
	open := FigureBetween(InPascalGauge, 10.04e5, math.Inf(1))
	assert.Equal(t, "at least 11 bar", Say("at least %s", Bar(10.04e5)).Inward(open).String())
	assert.Equal(t, "at least 10 bar", Say("at least %s", Bar(10e5)).Inward(FigureBetween(InPascalGauge, 10e5, math.Inf(1))).String())
	assert.Equal(t, "110 mm", Say("%s", Millimetre(0.1096)).Inward(FigureBetween(InMetre, 0, 0.1104)).String(), "no end")
	assert.Equal(t, "110 mm", Say("%s", Millimetre(0.1104)).Inward(FigureBetween(InMetre, 0, 0.1104)).String())
	far := &Expected{Unit: InMetre, High: 1e9, Reach: 2.74}
	assert.Equal(t, "nobody within 2.8 m", Say("nobody within %s", Metre(2.74)).Inward(far).String())
	exact := FigureBetween(InMetre, 0.4049e-3, 0.4049e-3)
	assert.Equal(t, "0.405 mm", Say("%s", Millimetre(0.4049e-3)).Inward(exact).String(), "one value has no side")
	it := Item{Expect: Say("tank %s, dose %s", Bar(1.04e5), Bar(2.04e5)), Figure: FigureBetween(InPascalGauge, 1.04e5, math.Inf(1)),
		Parts: []NamedPart{{Name: "tank", Expected: *FigureBetween(InPascalGauge, 1.04e5, math.Inf(1))},
			{Name: "dose", Expected: *FigureBetween(InPascalGauge, 2.04e5, math.Inf(1))}}}
	assert.Equal(t, "tank 1.1 bar, dose 2.1 bar", it.Inward().String())
}

// Whatever the band: both ends as they are printed lie within it, and the lower one is not above the other.
func TestPrintedEndsAreAccepted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := math.Pow(10, rapid.Float64Range(-2, 2).Draw(t, "low"))
		high := low * (1 + math.Pow(10, rapid.Float64Range(-2, 1).Draw(t, "width")))
		e := FigureBetween(InMetrePerSecond, low, high)
		text := Say("%s and %s", Speed(low).In(rapid.SampledFrom([]Rounding{Nearest, Upwards, Decimals, Shortest}).Draw(t, "way"), 2),
			Speed(high)).
			Inward(e).String()
		parts := strings.Split(strings.ReplaceAll(text, " m/s", ""), " and ")
		a, err := strconv.ParseFloat(parts[0], 64)
		require.NoError(t, err)
		b, err := strconv.ParseFloat(parts[1], 64)
		require.NoError(t, err)
		require.GreaterOrEqual(t, a, low*(1-1e-8), text)
		require.LessOrEqual(t, b, high*(1+1e-8), text)
		require.LessOrEqual(t, a, b, "%g to %g: %s", low, high, text)
	})
}
