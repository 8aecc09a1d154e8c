package flow

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestPairIsExact holds the closed form of two ellipses in series to the marched
// solution over all regimes (seriesFlow: bisection, no quadratic; itself held to
// series.csv). 1e-9 of the choked flow: the bisection settles the flow to
// rounding, and the quadratic loses at most half of the digits near standstill.
func TestPairIsExact(t *testing.T) {
	air := Air()
	k := air.ReferenceDensity * math.Sqrt(ReferenceTemperature)
	for _, b1 := range []float64{0, 0.1, 0.35, 0.5, 0.6} {
		for _, b2 := range []float64{0, 0.2, 0.35, 0.528} {
			for _, c1 := range []float64{0.05, 0.1, 0.2, 0.35, 0.5, 0.8, 1, 1.5, 4, 20} {
				p := NewPair(c1*1e-8, b1, 1e-8, b2)
				for i := range 40 {
					r := (float64(i) + 0.5) / 40
					q, _ := seriesFlow(air, 4e5, roomTemperature, r*4e5, SonicConductance(c1*1e-8, b1), SonicConductance(1e-8, b2))
					want := q * math.Sqrt(roomTemperature) / (k * 4e5)
					assert.InDelta(t, want, p.Conductance(r, 1), 1e-9*p.c, "C1/C2 %g, b %g %g, r %g", c1, b1, b2, r)
				}
			}
		}
	}
}
