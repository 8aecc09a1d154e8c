package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
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
