package spring

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestLines: shut and open where each part's figures say so, half way between them half open, and no further than that.
func TestLines(t *testing.T) {
	for _, line := range []struct {
		name       string
		shut, open float64
		at         func(p float64) float64
	}{
		{"relief valve, rising", 5e4, 6e4, func(p float64) float64 { return float64(Lift(0).At(p, 4e4, 5e4, 6e4)) }},
		{"relief valve, falling", 4e4, 5e4, func(p float64) float64 { return float64(Lift(1).At(p, 4e4, 5e4, 6e4)) }},
		{"regulator", 3e4, 2e4, func(p float64) float64 { return Regulator(p, 3e4, 1e4) }},
		{"regulator, its own droop", 3e4, 0.95 * 3e4, func(p float64) float64 { return Regulator(p, 3e4, 0) }},
		{"check valve", 5e4, 5.5e4, func(p float64) float64 { return Check(p, 5e4) }},
		{"check valve without a spring", 0, 1000, func(p float64) float64 { return Check(p, 0) }},
	} {
		beyond := line.open - line.shut
		assert.Zero(t, line.at(line.shut-beyond), line.name)
		assert.Zero(t, line.at(line.shut), line.name)
		// 1e-9: rounding of the regulator's difference.
		assert.InDelta(t, 0.5, line.at((line.shut+line.open)/2), 1e-9, line.name)
		assert.InDelta(t, 1, line.at(line.open), 1e-9, line.name)
		assert.Equal(t, 1.0, line.at(line.open+beyond), line.name)
	}
}
