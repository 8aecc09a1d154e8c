package launcher

import (
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/material"
)

// HomeMade tells whether the design shows that a vessel is home-made: a proof test is stated, which no bought one needs,
// or its material says so.
func (v *VolumeSpec) HomeMade() bool {
	if finding.Declared(v.ProofTest) != "" {
		return true
	}
	m := strings.ToLower(v.Material)
	has := func(words string) bool { return strings.Contains(m, words) }
	return has("home-made") || has("self-made") || has("by me") || has("by us") ||
		material.Has(v.Material, "homemade", "printed", "welded", "brazed", "soldered", "riveted", "glued", "bonded", "own", "my", "diy")
}
