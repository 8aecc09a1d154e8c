package vent

import (
	"math"
	"puffproof/limits/internal/sample"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The harder of the loosest and the firmest hold counts: held firmly the projectile of
// a slow valve goes from more pressure.
func TestTheFirmestHoldIsPushedToo(t *testing.T) {
	energy := func(low, high float64) float64 {
		l := sample.VentedTank()
		l.Paths[0].Unpowered = pneumatics.Open
		l.Projectile.Breakaway, l.Projectile.Restart = sample.Between("", low, high), sample.Between("", low, high)
		v := newVenter(Input{Launcher: l}, 1e5, 5000)
		e := &Report{}
		require.NoError(t, v.push(e, VentScenario{PowerLost, pneumatics.Armed}))
		require.Len(t, e.Pushes, 1)
		return e.Pushes[0].Energy
	}
	loose, firm := energy(0, 0), energy(20, 20)
	assert.Greater(t, math.Abs(firm-loose), 0.1*min(loose, firm))
	assert.InEpsilon(t, max(loose, firm), energy(0, 20), 1e-9, "the same run")
}
