package limits

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// The highest pressure of a vessel is that of the ladder or of a fault; what a barrel takes for a moment counts with it alone. What must
// not be reached is none, and what is not known is none either.
func TestHighestPressures(t *testing.T) {
	rungs := []launcher.Rung{{High: 2e4}, {High: 9e5, Limit: launcher.Yes}}
	high := func(r *Report, faults ...fault.Result) [2]float64 {
		vessels, anywhere := r.HighestPressures(rungs, &fault.Report{Faults: faults})
		return [2]float64{vessels, anywhere}
	}
	none := &Report{}
	assert.Equal(t, [2]float64{2e4, 2e4}, high(none, fault.Result{WorstGauge: math.NaN()}))
	assert.Equal(t, [2]float64{3e4, 3e4}, high(none, fault.Result{WorstGauge: 3e4, Where: "dose"}, fault.Result{WorstGauge: 8e4,
		Where: "barrel"}))
	blocked := finding.Verdict{ID: finding.BarrelBlocked}
	blocked.Judge(6e4, 1e6)
	assert.Equal(t, [2]float64{2e4, 6e4}, high(&Report{Verdicts: []finding.Verdict{blocked}}))
	vessels, anywhere := none.HighestPressures(nil, nil)
	assert.Zero(t, vessels+anywhere)
}
