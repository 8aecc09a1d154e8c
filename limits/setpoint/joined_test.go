package setpoint

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
)

// What a shot empties, read off the drawing.
func TestWhatAShotEmptiesInABranchedCircuit(t *testing.T) {
	l := sample.Branched()
	assert.Equal(t, []string{"tank", "dose", "side", "buffer"}, sample.VolumesOf(l, emptiedByShot(l)))
}
