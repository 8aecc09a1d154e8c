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
	return strings.Contains(m, "home-made") || strings.Contains(m, "self-made") || strings.Contains(m, "by me") || strings.Contains(m, "by us") ||
		material.Has(v.Material, "homemade", "printed", "welded", "brazed", "soldered", "riveted", "glued", "bonded", "own", "my", "diy")
}
