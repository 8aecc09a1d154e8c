package vent

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A sheet has a reading a second at the most, but where it is over before that makes a course of readings: then it says so.
func TestRowsThatAPersonCanRead(t *testing.T) {
	for slowest, want := range map[float64]float64{1: 0.1, 3: 0.2, 4: 0.2, 5: 1, 14.7: 1, 30: 2, 600: 30} {
		step, n := sheetSteps([]Case{{Slowest: slowest}}, math.NaN())
		assert.InDelta(t, want, step, 1e-12, "%g s", slowest)
		assert.GreaterOrEqual(t, step*float64(n-1), 1.2*slowest-1e-9)
		rows := make([]Reading, n)
		for k := range rows {
			rows[k].Time = step * float64(k)
		}
		assert.Equal(t, step < 1, Filmed(rows), "%g s", slowest)
	}
	assert.False(t, Filmed(nil))
	assert.False(t, Filmed([]Reading{{Time: 0}}))
}
