package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
)

// Factors by definition: 1 psi is 6894.757 Pa, 1 in is 25.4 mm, 1 ft is 0.3048 m, 1 oz
// is 28.3495 g, 1 lbf is 4.44822 N, 1 cfm is 28.3168 L/min (NIST SP 811, 2008, Appendix
// B). The metric text stands beside each.
func TestTextInUSUnits(t *testing.T) {
	mm := func(v float64) finding.Shown { return finding.Millimetre(v / 1000) }
	for _, c := range []struct {
		text       finding.Text
		metric, us string
	}{
		{finding.Say("stuck after a shot from %s: the most", finding.Bar(42e3)), "stuck after a shot from 0.42 bar: the most",
			"stuck after a shot from 6.1 psi: the most"},
		{finding.Say("%s at up to %s mixed", finding.Litre(3.6e-3), finding.Bar(78e3)), "3.6 L at up to 0.78 bar mixed",
			"220 in3 at up to 11.3 psi mixed"},
		{finding.Say("at least %s across", mm(31.6)), "at least 31.6 mm across", "at least 1.25 in across"}, // 1.244: rounded to the safe side
		{finding.Say("between %s and %s across", mm(20), mm(24)), "between 20.0 mm and 24.0 mm across", "between 0.787 in and 0.945 in across"},
		{finding.Words("PN10 pipe of 2026-11-25, 5 barrels, 1 bar"), "PN10 pipe of 2026-11-25, 5 barrels, 1 bar",
			"PN10 pipe of 2026-11-25, 5 barrels, 1 bar"}, // words of the design stay
		{finding.Say("%s in %s", finding.Joule(0.31), finding.Second(2.5)), "0.31 J in 2.5 s", "0.31 J in 2.5 s"},
		{finding.Say("about %s", finding.Speed(4.8)), "about 4.8 m/s", "about 15.7 ft/s"},
		{finding.Say("%s away", finding.Metre(3)), "3.0 m away", "9.84 ft away"},
		{finding.Say("a pull of %s", finding.Newton(12)), "a pull of 12 N", "a pull of 2.7 lbf"},
		{finding.Text{{Figure: &finding.Shown{Value: 0.004, Unit: finding.Grams, Digits: 2}}}, "4.0 g", "0.141 oz"},
		{finding.Text{{Figure: &finding.Shown{Value: 12e-3 / 60, Unit: finding.LitresPerMinute, Digits: 2}}}, "12 L/min", "0.424 cfm"},
		// Settings go to a hundredth of a psi, and to the safe side: 1.063 bar is
		// 15.4175 psi, 0.749 bar 10.8633 psi.
		{finding.Say("set to at most %s", finding.Bar3(106300)), "set to at most 1.063 bar", "set to at most 15.41 psi"},
		{finding.Say("hold the pressure at %s or less", finding.Bar3(106300)), "hold the pressure at 1.063 bar or less",
			"hold the pressure at 15.41 psi or less"},
		{finding.Say("at least %s", finding.Bar3(74900)), "at least 0.749 bar", "at least 10.87 psi"},
		{finding.Say("a gauge that reads to %s or more", finding.Bar3(74900)), "a gauge that reads to 0.749 bar or more",
			"a gauge that reads to 10.87 psi or more"},
		{finding.Say("must rest between %s and %s", finding.Bar3(63400), finding.Bar3(106300)), "must rest between 0.634 bar and 1.063 bar",
			"must rest between 9.20 psi and 15.42 psi"},
		// What must not look smaller than it is goes up, whatever stands around it: 0.784
		// bar is 11.371 psi.
		{finding.Say("holds up to %s while loading", finding.WorstBar(78400)), "holds up to 0.79 bar while loading",
			"holds up to 11.4 psi while loading"},
		{finding.Say("expect %s of water", finding.Millimetres.Of(0, 3).To(finding.Millimetres.Of(0.03, 3))), "expect 0 to 30 mm of water",
			"expect 0 in to 1.18 in of water"},
		{finding.Say("it may drift by %s", finding.Kelvins.Of(2, 2)), "it may drift by 2 K", "it may drift by 3.6 °F"},
		{finding.Say("k = %s", finding.PerMetre.Of(0.0402, 3)), "k = 0.0402 per m", "k = 0.0123 per ft"},
		{finding.Say("15 is %s", finding.Celsius.Of(288.15, 3)), "15 is 15 degC", "15 is 59 °F"},
		{finding.Say("at %s", finding.Hectopascals.Of(101325, 6)), "at 1013.25 hPa", "at 14.7 psi"},
		// 98 mbar/m: 9800 Pa/m x 0.3048 m/ft / 6894.757 Pa/psi = 0.4332 psi/ft.
		{finding.Say("water: %s", finding.MillibarsPerMetre.Of(9800, 2)), "water: 98 mbar per metre", "water: 0.43 psi per foot"},
		{finding.Say("goes up to %s", finding.BarLitres.Of(5000, 2)), "goes up to 50 bar L", "goes up to 25 psi ft3"}, // 25.6, a limit: down
		{finding.Say("%s to %s", finding.Bar(0.3249e5), finding.Bar(0.3851e5)).Inward(finding.FigureBetween(finding.InPascalGauge, 0.3249e5,
			0.3851e5)), "0.33 bar to 0.38 bar", "4.8 psi to 5.5 psi"}, // 4.712 and 5.585
		{nil, "", ""},
	} {
		assert.Equal(t, c.metric, Metric.Text(c.text))
		assert.Equal(t, c.us, US.Text(c.text))
	}
}

// Every unit that a text can have is known here: one that is not would be shown in
// metric to a reader who asked for the other.
func TestEveryUnitOfATextIsWrittenInUSUnits(t *testing.T) {
	same := map[finding.Unit]bool{finding.Joules: true, finding.Seconds: true, finding.Milliseconds: true,
		finding.Minutes: true, finding.Decibels: true, finding.Amperes: true}
	metric := func(f finding.Shown) (text string, known bool) {
		defer func() { known = recover() == nil }() // the panic of a unit that there is not
		return f.String(), true
	}
	units := 0
	for u := finding.Unit(0); ; u++ {
		f := finding.Shown{Value: 1, Unit: u, Digits: 2}
		text, known := metric(f)
		if !known {
			break
		}
		units++
		if got := US.Text(finding.Text{{Figure: &f}}); same[u] {
			assert.Equal(t, text, got)
		} else {
			assert.NotEqual(t, text, got)
		}
	}
	assert.Greater(t, units, len(same))
}
