package fault

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
)

// Whose air flows to the barrel in a shot, read off the drawing: none of what lies
// behind the regulator.
func TestWhatFlowsToTheBarrelInABranchedCircuit(t *testing.T) {
	l := sample.Branched()
	assert.Equal(t, []string{"tank", "dose", "buffer"}, sample.VolumesOf(l, flowsToBarrel(l)))
}
