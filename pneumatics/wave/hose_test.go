package wave

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/flow"
)

// A hose made like a restriction passes what the restriction does: by the closed
// form of Fanno flow, and by the solver, once a blow-down through it is steady.
func TestHoseLikePassesTheSame(t *testing.T) {
	g := flow.Air()
	for _, k := range []struct{ bore, length float64 }{{0.004, 0.5}, {0.012, 1.5}, {0.02, 0.1}} {
		r := flow.HoseFlow(k.bore, k.length)
		h := HoseLike(k.bore, k.length, r, g)
		// A smooth pipe has f = 0.02 at a Reynolds number of 6e4 (Blasius); what HoseFlow
		// loses at the entry is counted in, so a short hose has several times that.
		assert.Greater(t, h.Darcy, 0.012, "%+v", k)
		assert.Less(t, h.Darcy, 0.15, "%+v", k)
		const p0, t0 = 5e5, 293.15
		flux, _, _ := FannoFlux(g.Gamma, g.R, p0, t0, 1e4, h.Darcy*k.length/k.bore)
		// Bisections to the last digits.
		assert.InEpsilon(t, r.MassFlow(g, p0, t0, 1e4, t0), flux*math.Pi/4*k.bore*k.bore, 1e-9)
	}
	// More than an ideal inlet cannot be had.
	assert.Zero(t, HoseLike(0.01, 1, flow.Nozzle(math.Pi/4*1e-4, 1.1), g).Darcy)
}
