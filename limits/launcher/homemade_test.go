package launcher

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A vessel that was joined by hand, or that has a proof test, was made at home; one of a known metal alone was not.
func TestHomeMade(t *testing.T) {
	for material, want := range map[string]bool{"steel": false, "aluminium, anodised": false, "steel, home-made, welded": true,
		"mild steel, brazed by me": true, "copper, soldered": true, "own make, brass": true, "PLA, printed": true} {
		assert.Equal(t, want, (&VolumeSpec{Material: material}).HomeMade(), material)
	}
	assert.True(t, (&VolumeSpec{Material: "steel", ProofTest: "15 bar, water"}).HomeMade())
	assert.False(t, (&VolumeSpec{Material: "steel", ProofTest: "none"}).HomeMade())
}
