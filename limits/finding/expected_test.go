package finding

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A press test is told by a force and a flattening each time: of a spring half their product is the work, F s/2; 20 N over 10 mm do
// 0.1 J. A kitchen scale shows a force as a mass, 2 kg being 19.6 N.
func TestAPressTestIsTwoFigures(t *testing.T) {
	it := &Item{ID: ItemTip, Figure: &Expected{Unit: InNewton, Low: 0.1, High: math.Inf(1),
		With: FigureBetween(InMetre, 1e-3, math.Inf(1)), Work: 0.09}}
	newton, mm, kg := func(v float64) Figure { return Figure{v, InNewton} }, func(v float64) Figure { return Figure{v * 1e-3, InMetre} },
		func(v float64) Figure { return Figure{v, OnScale} }
	for name, c := range map[string]struct {
		figures []Figure
		want    Outcome
	}{
		"words":                    {nil, Unusable},
		"a force":                  {[]Figure{newton(20)}, Unusable},
		"a flattening":             {[]Figure{mm(10)}, Unusable},
		"both":                     {[]Figure{newton(20), mm(10)}, Closes},
		"on a scale":               {[]Figure{kg(2), mm(10)}, Closes},
		"three states":             {[]Figure{newton(20), mm(10), newton(19), mm(11), newton(30), mm(7)}, Closes},
		"one state without a side": {[]Figure{newton(20), mm(10), newton(19)}, Unusable},
		"too little work":          {[]Figure{newton(20), mm(5)}, Failing},
		"hard in the cold":         {[]Figure{newton(20), mm(10), newton(60), mm(2)}, Failing},
		"it did not give way":      {[]Figure{newton(900), mm(0.5)}, Failing},
		"a pressure":               {[]Figure{{2e5, InPascalGauge}}, Unusable},
	} {
		got, why := Judge(it, &Confirmation{Who: "AB", Date: "2026-05-01", Value: "as read", Figures: c.figures}, "2026-05-02")
		assert.Equal(t, c.want, got, "%s: %s", name, why)
	}
}

// A figure in a unit that nobody knows may be the one that fails: with it an answer is none, whatever its other figures say.
func TestAnUnknownUnitIsRefused(t *testing.T) {
	it := &Item{ID: ItemSwitchTest, Figure: FigureBetween(InPascalGauge, 0.3e5, 0.4e5)}
	good := Confirmation{Who: "AB", Date: "2026-05-01", Value: "0.35 bar", Figures: []Figure{{0.35e5, InPascalGauge}}}
	assert.Empty(t, Refuses(it, &good, "2026-05-02"))
	good.Value = "0.35 bar, 9 psii"
	good.Odd = []string{"9 psii (did you mean psi?)"}
	got, why := Judge(it, &good, "2026-05-02")
	assert.Equal(t, Unusable, got)
	assert.Contains(t, why.String(), "did you mean psi")
}

// Words that would be as true of a launcher that nobody looked at tell nothing.
func TestTelling(t *testing.T) {
	for text, want := range map[string]int{"fine": 0, "all fine": 0, "OK, done.": 0, "looks good": 0, "it is as expected": 0, "2 bar": 1,
		"AB 12":     1,
		"no cracks": 2, "nothing hard felt": 3, "": 0} {
		assert.Equal(t, want, Telling(text), text)
	}
}
