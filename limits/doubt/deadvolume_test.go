package doubt

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A tube of 14 mm, 35 mm of it in the rocket, holds pi/4 (14 mm)^2 35 mm = 5.388 mL at least; 30 bores more of it hold 70.042 mL.
// Behind a ball that fills a bore of 41 mm there is pi (41 mm)^3/24 = 9.022 mL where it touches the breech; 60 mm of bore and 100 mm,
// which is more than two bores, hold 211.24 mL; of 80 mm, two bores are more. A flat back may leave less than a ball.
func TestADeadVolumeThatTheBarrelDoesNotLeave(t *testing.T) {
	band := func(low, high float64) launcher.Band {
		return launcher.Band{Set: true, Nominal: (low + high) / 2, Low: low, High: high}
	}
	tube, bore, wide := &launcher.Launcher{}, &launcher.Launcher{}, &launcher.Launcher{}
	tube.Barrel = launcher.BarrelSpec{Fit: pneumatics.OverTube, TubeInnerDiameter: launcher.Exact("", 0.014),
		Engagement: launcher.Exact("", 0.035)}
	bore.Barrel = launcher.BarrelSpec{Bore: launcher.Exact("", 0.041), Travel: launcher.Exact("", 0.06)}
	wide.Barrel = launcher.BarrelSpec{Bore: launcher.Exact("", 0.08), Travel: launcher.Exact("", 0.06)}
	for _, c := range []struct {
		name       string
		of         *launcher.Launcher
		low, high  float64 // stated [mL]
		least, top float64 // that counts [mL]
	}{
		{"less than the tube's own bore", tube, 1, 5, 1, 70.0418},
		{"it touches what the tube leaves", tube, 1, 5.4, 1, 5.4},
		{"a tube as usual", tube, 20, 24, 20, 24},
		{"the longest tube", tube, 70, 80, 70, 80},
		{"more than any tube", tube, 71, 80, 5.388, 80},
		{"a flat back in the bore", bore, 0.5, 1, 0.5, 1},
		{"a bore as usual", bore, 35, 45, 35, 45},
		{"a long breech", bore, 211, 230, 211, 230},
		{"a breech that is too long", bore, 212, 230, 9.022, 230},
		{"two wide bores", wide, 1105, 1200, 1105, 1200},
		{"three wide bores", wide, 1107, 1200, 67.021, 1200},
		{"more than any bore", bore, 1990, 2010, 9.022, 2010},
	} {
		l := *c.of
		l.Barrel.DeadVolume = band(1e-6*c.low, 1e-6*c.high)
		DeadVolume(&l)
		got := l.Barrel.DeadVolume
		assert.InDeltaSlice(t, []float64{c.least, c.top}, []float64{1e6 * got.Low, 1e6 * got.High}, 6e-4, "%s: digits printed", c.name)
		stated, _, other := OtherDeadVolume(&l)
		assert.Equal(t, c.least != c.low || c.top != c.high, other, "%s: told", c.name)
		assert.InDelta(t, 1e-6*c.low, stated.Low, 1e-15, c.name)
		DeadVolume(&l)
		assert.Equal(t, got, l.Barrel.DeadVolume, "%s: doubted once", c.name)
	}
}
