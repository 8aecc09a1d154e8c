package limits

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
)

// The harder of the loosest and the firmest hold counts: held firmly the projectile of
// a slow valve goes from more pressure.
func TestTheFirmestHoldIsPushedToo(t *testing.T) {
	energy := func(low, high float64) float64 {
		l := ventedTank()
		l.Paths[0].Unpowered = pneumatics.Open
		l.Projectile.Breakaway, l.Projectile.Restart = between("", low, high), between("", low, high)
		v := newVenter(VentInput{Launcher: l}, 1e5, 5000)
		e := &VentReport{}
		require.NoError(t, v.push(e, ventScenario{PowerLost, pneumatics.Armed}))
		require.Len(t, e.Pushes, 1)
		return e.Pushes[0].Energy
	}
	loose, firm := energy(0, 0), energy(20, 20)
	assert.Greater(t, math.Abs(firm-loose), 0.1*min(loose, firm))
	assert.InEpsilon(t, max(loose, firm), energy(0, 20), 1e-9, "the same run")
}
