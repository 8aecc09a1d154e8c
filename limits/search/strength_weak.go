//go:build weaksearch

package search

import (
	"os"
	"strconv"
)

// defaultStrength reads PUFFPROOF_STRENGTH. Only a build with the tag weaksearch
// has it: testdata/compare runs two such builds over many designs.
func defaultStrength() float64 {
	share, err := strconv.ParseFloat(os.Getenv("PUFFPROOF_STRENGTH"), 64)
	if err != nil || !(share > 0 && share <= 1) {
		return 1
	}
	return share
}
