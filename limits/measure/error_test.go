package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics/flight"
)

// Errors of a sum: systematic ones add, independent ones as squares (3 and 4 give 5),
// random ones as squares of half-widths over the root of 3 (JCGM 100:2008, F.2.3.3).
func TestErrorsAddByTheirKind(t *testing.T) {
	sum := func(x []float64) float64 { return x[0] + x[1] }
	for kind, want := range map[errorKind][2]float64{systematic: {7, 0}, independent: {5, 0}, random: {0, 5 / math.Sqrt(3)}} {
		u := propagate(sum, []errorSource{{"a", 100, 3, kind}, {"b", 200, 4, kind}})
		assert.InDelta(t, 300, u.value, 0)
		assert.InEpsilon(t, 1+want[0], 1+u.systematic, sample.Rounding)
		assert.InEpsilon(t, 1+want[1], 1+u.random, sample.Rounding)
	}
}

// The error of the loss to drag by hand: k goes with drag, the square of the diameter and
// one over the mass; half-widths of 20, 2.5 and 2.5 %, and 4 % of the air's density.
func TestErrorOfTheDrag(t *testing.T) {
	l := sample.Plain(sample.Measured)
	l.Projectile.Diameter = sample.Between("projectile.diameter", 40e-3*0.975, 40e-3*1.025)
	d := Decay(l, 0)
	assert.InEpsilon(t, 0.20+2*0.025+0.025+0.04, d.error/d.Value, sample.Rounding)
	assert.InEpsilon(t, flight.Decay(airDensity(l, 0), math.Pi/4*40e-3*40e-3, 0.5, 4e-3), d.Value, sample.Rounding)
}

// A stated error of the chronograph counts in full.
func TestStatedErrorOfTheChronograph(t *testing.T) {
	l := sample.Plain(sample.Measured)
	s := SpeedOf(l, &Shot{Method: Chronograph, Speed: 8, SpeedError: 0.05})
	assert.GreaterOrEqual(t, s.Systematic, 0.05*8)
	assert.Less(t, s.Systematic, 0.06*8, "drag over the 20 mm of the distance's error adds a little")
}

// Without drag a video's speed is span times rate over frames: here 4 m/s. By hand, of its systematic errors: 2 % of the span
// and 5 mm of its ends, 0.5 % of the rate.
func TestErrorsOfAVideo(t *testing.T) {
	l := sample.Plain(sample.Measured)
	l.Projectile.Drag = launcher.Exact("projectile.drag_coefficient", 0)
	s := SpeedOf(l, &Shot{Method: Video, FrameRate: 100, Frames: 50, Span: 2})
	assert.InEpsilon(t, 4, s.Speed, sample.Rounding)
	want := map[string]float64{"span": 4 * (0.02*2 + 0.005) / 2, "frame rate": 4 * 0.005}
	found := 0
	for _, p := range s.Parts {
		if by, known := want[p.Name]; known {
			found++
			assert.InDelta(t, by, math.Abs(p.Effect), 1e-4, p.Name) // the conversion's slope over a finite step
		}
	}
	assert.Equal(t, len(want), found)
	assert.InDelta(t, 0.09+0.02, s.Systematic, 1e-4)
}

// Where no temperature is stated the air is as the design's nominal one.
func TestAirOfAnUnstatedTemperature(t *testing.T) {
	l := sample.Plain(sample.Measured)
	l.Ambient.Temperature = launcher.Band{Set: true, Low: 270, Nominal: 290, High: 320}
	assert.InEpsilon(t, l.Ambient.Pressure.Nominal/(287.05*290), airDensity(l, 0), 1e-3) // R of dry air to four digits
	assert.InEpsilon(t, airDensity(l, 0)*290/310, airDensity(l, 310), sample.Rounding)
}
