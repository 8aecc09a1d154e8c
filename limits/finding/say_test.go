package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A span writes the unit once in metric; each figure keeps it for another system.
func TestSpanSaysTheUnitOnce(t *testing.T) {
	span := Millimetres.Of(0, 3).To(Millimetres.Of(31.2e-3, 3))
	assert.Equal(t, "0 to 31.2 mm", span.String())
	for _, p := range span {
		if p.Figure != nil {
			assert.Equal(t, Millimetres, p.Figure.Unit)
		}
	}
}
