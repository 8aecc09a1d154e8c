package launcher_test

import (
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestGridMesh(t *testing.T) {
	for text, want := range map[string]float64{"grid of 5 mm": 5e-3, "grid of 2.5 mm": 2.5e-3} {
		got, ok := launcher.GridMesh(text)
		assert.True(t, ok)
		assert.InEpsilon(t, want, got, sample.Rounding)
	}
	for _, text := range []string{"", "grid of mm", "grid of 5 in", "supervised loading by the adult in charge"} {
		_, ok := launcher.GridMesh(text)
		assert.False(t, ok, text)
	}
}
