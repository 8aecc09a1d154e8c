package design

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
)

// Numbers with a unit are found as people write them; others are none.
func TestFiguresInAnAnswer(t *testing.T) {
	bar := func(values ...float64) (out []finding.Figure) {
		for _, v := range values {
			out = append(out, finding.Figure{Value: v * 1e5, Unit: finding.InPascalGauge})
		}
		return out
	}
	for text, want := range map[string][]finding.Figure{
		"0.75 bar":                         bar(0.75),
		"0,75bar":                          bar(0.75),
		"3 lifts: 0.71, 0.74 and 0.76 bar": bar(0.71, 0.74, 0.76),
		"0.36 to 0.38 bar, sealed":         bar(0.36, 0.38),
		"1.4 bara":                         nil,
		"never empties":                    nil,
		"on 2026-05-01":                    nil,
		"":                                 nil,
		"12 s; then 0.02 bar":              append([]finding.Figure{{Value: 12, Unit: finding.InSecond}}, bar(0.02)...),
		"0.46 kg":                          {{Value: 0.46, Unit: "mass"}},
		"within 5 %":                       nil,
		"22 mm":                            {{Value: 0.022, Unit: finding.InMetre}},
	} {
		got := FiguresIn(text)
		if assert.Len(t, got, len(want), text) {
			for i := range want {
				assert.Equal(t, want[i].Unit, got[i].Unit, text)
				assert.InEpsilon(t, want[i].Value, got[i].Value, 1e-12, text)
			}
		}
	}
}
