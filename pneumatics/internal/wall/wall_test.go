package wall

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
)

// TestWallHeatFollowsTheCorrelation checks the heat flow of one wall against a
// hand calculation of the same correlation: 0.2 m, 298 K walls, air at 270 K and
// 3 bar. Ra = g dT L^3 rho^2 cp/(T mu k) is 3e8, where 0.13 Ra^(1/3) is the larger
// of the two laws. Rounding only.
func TestWallHeatFollowsTheCorrelation(t *testing.T) {
	air := flow.Air()
	w := Of(16.18e-3, 0.2, &air)
	assert.InEpsilon(t, 16.18e-3*4/0.2+2*math.Pi*0.01, w.Area, 1e-12) // side and two ends
	rho, k := 3e5/(287.05287*270), air.Conductivity(270)
	ra := 9.80665 * 28 / 270 * 0.008 * rho * rho * air.Cp() / (air.Viscosity(270) * k)
	require.InEpsilon(t, 2.993e8, ra, 1e-3)
	assert.InEpsilon(t, 0.13*math.Cbrt(ra)*k/0.2*w.Area*28, w.HeatFlow(&air, 3e5, 270, 298), 1e-12)
	assert.Zero(t, w.HeatFlow(&air, 3e5, 298, 298))
	assert.Negative(t, w.HeatFlow(&air, 3e5, 320, 298))
	// At a small difference the laminar law is left: Nu tends to 0.68, not 0.
	// (1 %: the laminar law's own term at this small Ra.)
	const dt = 1e-9
	assert.InEpsilon(t, 0.68*air.Conductivity(298)/0.2*w.Area, w.HeatFlow(&air, 100, 298-dt, 298)/dt, 0.01)
}

// TestDefaultWallIsThreeDiametersLong: V = 3 pi d^3/4.
func TestDefaultWallIsThreeDiametersLong(t *testing.T) {
	air := flow.Air()
	w := Of(3*math.Pi/4*0.001, 0, &air)
	assert.InEpsilon(t, 0.1, w.Length, 1e-12)
	assert.InEpsilon(t, math.Pi*0.1*0.3+math.Pi*0.005, w.Area, 1e-12)
}
