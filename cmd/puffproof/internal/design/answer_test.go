package design

import (
	"math"
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
		"tank 0.71, dose 0.74 bar":         bar(0.71, 0.74),
		"3 lifts, tank 0.71 bar":           bar(0.71),
		"0.71, 3 lifts, 0.74 bar":          bar(0.71, 0.74),
		"within 5 %":                       nil,
		"22 mm":                            {{Value: 0.022, Unit: finding.InMetre}},
		"2 bars, then 1.5 Bars":            bar(2, 1.5),
		"12 seconds":                       {{Value: 12, Unit: finding.InSecond}},
		"2 A and 500 mA":                   {{Value: 2, Unit: finding.InAmpere}, {Value: 0.5, Unit: finding.InAmpere}},
		"60 newtons":                       {{Value: 60, Unit: finding.InNewton}},
		"108 dB(C)":                        {{Value: 108, Unit: finding.InDecibel}},
		"108 dB (c), 109 dBC":              {{Value: 108, Unit: finding.InDecibel}, {Value: 109, Unit: finding.InDecibel}},
		"108 dB(A) or 110 dBZ":             {{Value: 108, Unit: finding.InOtherDecibel}, {Value: 110, Unit: finding.InOtherDecibel}},
		"for two minutes, five metres off": {{Value: 120, Unit: finding.InSecond}, {Value: 5, Unit: finding.InMetre}},
		"after eleven minutes":             {{Value: 660, Unit: finding.InSecond}},
		"two of them, one second person":   {{Value: 1, Unit: finding.InSecond}},
		"cold at 10 degC":                  {{Value: 283.15, Unit: finding.InKelvin}},
		"75 deg":                           {{Value: 75 * math.Pi / 180, Unit: finding.InRadian}},
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

// What is all but a unit is told with the unit that was probably meant; what is plainly a word, or behind no number, is not.
func TestWhatIsAllButAUnitIsTold(t *testing.T) {
	for text, want := range map[string][]string{
		"0.3 bar, 3 psii": {"3 psii (did you mean psi? a count stands in words)"},
		"0.71 baar":       {"0.71 baar (did you mean bar? a count stands in words)"},
		"0.3 bra":         nil, // two letters from it: no figure at all, which an item that asks for one refuses
		"5 hPaa and 2 barr": {"5 hPaa (did you mean hPa? a count stands in words)",
			"2 barr (did you mean bar? a count stands in words)"},
		"3 lifts, 4 men, 2 bad ones, 12 o'clock": nil,
		"0.75 bar kPa":                           {"0.75 bar kPa (one unit stands behind a figure)"},
		"0.75 bar (11 psi), 60 N 8 mm in all":    nil,
		"2 bars":                                 nil,
		"the barr is bent":                       nil,
	} {
		assert.Equal(t, want, OddIn(text), text)
	}
}

// The words before a figure name what it is of, each in a list too.
func TestTheWordsBeforeAFigure(t *testing.T) {
	for text, want := range map[string][]string{
		"tank and dose 10 bar, barrel 6 bar, for air": {" tank dose", " barrel"},
		"feed 1.2, bleed 1.0 mm":                      {" feed", " bleed"},
		"10 bar tank, 6 bar barrel":                   {"", " tank"},
		"0.71, 0.74 bar":                              {"", ""},
	} {
		assert.Equal(t, want, BesideIn(text), text)
	}
}
