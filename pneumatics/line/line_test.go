package line

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/flow"
)

// Fanno flow of gamma 1.4 (f L*/D, Darcy, tabulated in any text on gas dynamics, for instance Shapiro 1953; digits
// from the closed form, solved independently): the Mach number to the table's digits.
func TestFannoMach(t *testing.T) {
	air := flow.Air()
	for mach, length := range map[float64]float64{0.2: 14.533266, 0.3: 5.2992531, 0.5: 1.0690603} {
		assert.InEpsilon(t, mach, fannoMach(&air, length), 1e-7)
	}
}

// TestFriction: 64/Re; smooth pipes of the Moody chart 0.0309 at 1e4, 0.0180 at
// 1e5, 0.0116 at 1e6 (White, Fluid Mechanics, table 6.1, from memory), Haaland within 2 %. The
// branches join without a jump.
func TestFriction(t *testing.T) {
	assert.InEpsilon(t, 0.064, Friction(1000), 1e-12)
	for re, f := range map[float64]float64{1e4: 0.0309, 1e5: 0.0180, 1e6: 0.0116} {
		assert.InEpsilon(t, f, Friction(re), 0.02)
	}
	for _, at := range []float64{laminarEnd, turbulentBegin} {
		assert.InEpsilon(t, Friction(at*(1-1e-9)), Friction(at*(1+1e-9)), 1e-7)
	}
	for re := 1.0; re < 1e7; re *= 1.01 { // what friction takes rises with the flow
		assert.Greater(t, Friction(re*1.01)*1.01*1.01, Friction(re))
	}
}

// The table is the law: 5e-7, a cubic's error over a sixteenth of an octave, and 3e-5 beside the joins of the branches, where
// the law's curvature jumps. It has no jumps of its own.
func TestFrictionTable(t *testing.T) {
	for re := 1e-3; re < 1e9; re *= 1.00037 {
		within := 5e-7
		if math.Abs(re/laminarEnd-1) < 0.04 || math.Abs(re/turbulentBegin-1) < 0.04 {
			within = 3e-5
		}
		assert.InEpsilon(t, Friction(re), FrictionOfSquare(re*re), within, "Re %g", re)
	}
	for i := range len(frictionTable) {
		at := math.Ldexp(1+float64(i&15)/16, i>>tableBits)
		assert.InEpsilon(t, FrictionOfSquare(at*(1+1e-12)), FrictionOfSquare(at*(1-1e-12)), 1e-11)
	}
	assert.Zero(t, FrictionOfSquare(0))
}
