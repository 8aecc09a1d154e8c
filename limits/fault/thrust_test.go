package fault

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
)

// Thrust is the change of momentum: at a choked exit p* + rho v^2 = (1 + g) p*, with
// p*/p0 = 0.52828 for g = 1.4; at Mach 0.5 twice the dynamic pressure, with p/p0 =
// 0.84302 (NACA Report 1135, table I, from memory: five digits). Near zero gauge it
// tends to 2 p A, the momentum of an incompressible jet (Bernoulli).
func TestThrust(t *testing.T) {
	const pa, g = 101325.0, 1.4
	choked := 5 * sample.Bars
	assert.InEpsilon(t, (1+g)*0.52828*(pa+choked)-pa, Thrust(1, choked, pa, g), 2e-5, "five digits of the table")
	still := pa / 0.84302
	assert.InEpsilon(t, g*0.5*0.5*pa, Thrust(1, still-pa, pa, g), 1e-4, "five digits, of which the gauge pressure is a sixth")
	assert.InEpsilon(t, 2*10*1e-4, Thrust(1e-4, 10, pa, g), 1e-3)
	critical := pa * (math.Pow(1.2, 3.5) - 1)
	assert.InEpsilon(t, Thrust(1, critical*(1-1e-9), pa, g), Thrust(1, critical*(1+1e-9), pa, g), 1e-6, "the two forms meet")
}
