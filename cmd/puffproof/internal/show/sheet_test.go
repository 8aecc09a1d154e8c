package show

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/cmd/puffproof/internal/quantity"
)

// Whoever pumps by hand, or fills elsewhere, has no cut-out: what an emptying begins at is the highest that it is filled to, whatever ends
// the filling.
func TestAtMostToTargetNamesNoSwitch(t *testing.T) {
	assert.Equal(t, "At most 12.0 s to the target from the highest that it is filled to.", AtMostToTarget(quantity.Metric, 12))
}
