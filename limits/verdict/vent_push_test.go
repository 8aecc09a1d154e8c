package verdict

import (
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A firing valve that opens without power shoots when the plug is pulled: no action,
// no guard makes that clean, however small the energy.
func TestPowerLossThatShootsIsNoCleanVent(t *testing.T) {
	l := sample.Dumped()
	sample.PathNamed(l, "fire").Unpowered = pneumatics.Open
	a := assessedVent(t, l)
	e, v := a.Emptying, ventPowerLoss(a)
	assert.Equal(t, finding.Fail, v.Status)
	assert.Contains(t, v.Why.String(), "shot.unasked")
	for _, p := range e.Pushes {
		assert.InDelta(t, p.Energy*worst.ModelFactor, p.Judged, 1e-12, "one figure in verdict and screen")
	}
}
