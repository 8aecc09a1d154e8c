package launcher

import (
	"strings"

	"puffproof/limits/finding"
)

// HomeMade tells whether the design shows that a vessel is home-made: a proof test is stated, which no bought one needs,
// or its material says so.
func (v *VolumeSpec) HomeMade() bool {
	if finding.Declared(v.ProofTest) != "" {
		return true
	}
	m := strings.ToLower(v.Material)
	return strings.Contains(m, "home-made") || strings.Contains(m, "self-made") ||
		hasWord(v.Material, []string{"homemade", "printed", "welded"})
}
