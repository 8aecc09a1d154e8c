//go:build !weaksearch

package search

// defaultStrength is full: no setting from outside can weaken a released program.
func defaultStrength() float64 { return 1 }
