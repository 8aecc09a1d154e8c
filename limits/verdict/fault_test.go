package verdict

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/worst"
)

func TestEnergyFault(t *testing.T) {
	one := func(judged float64, status finding.Status) fault.Result {
		return fault.Result{Part: "part", Mode: fault.StuckOpen, State: "any", Effect: fault.ChangesShot,
			Energy: judged / worst.ModelFactor, Judged: judged, Status: status}
	}
	none := fault.Result{Part: "quiet", Mode: fault.StuckShut, State: "any", Effect: fault.NoEffect, Energy: 9, Judged: 9,
		Status: finding.Pass}
	open := one(math.NaN(), finding.Unknown)
	open.Reason = finding.Words("no figure")
	for _, c := range []struct {
		name   string
		faults []fault.Result
		want   finding.Status
		value  float64
		why    string
	}{
		{"at the limit", []fault.Result{none, one(1, finding.Pass)}, finding.Pass, 1, "worst of 2 single faults, 1 of which can change the shot"},
		{"above it", []fault.Result{one(0.2, finding.Pass), one(above(1), finding.Fail)}, finding.Fail, above(1), "worst of 2"},
		{"one unknown, the others below", []fault.Result{one(1, finding.Pass), open}, finding.Unknown, 0, "no figure"},
		{"one unknown, another above", []fault.Result{open, one(above(1), finding.Fail)}, finding.Fail, above(1), "others are unknown"},
		{"none can change the shot", []fault.Result{none}, finding.NotApplicable, 0, "none of 1 single faults"},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := Of(assessed.WithFaults(sample.Plain(), c.faults...), finding.EnergyFault)
			require.Equal(t, c.want, v.Status, v.Why.String())
			assert.Contains(t, v.Why.String(), c.why)
			if c.value > 0 {
				require.NotNil(t, v.Value)
				assert.Equal(t, c.value, *v.Value)
				assert.Equal(t, 1.0, *v.Limit)
			}
			assert.Equal(t, c.want == finding.Fail, len(v.Advice) != 0)
		})
	}
	a := assessed.WithFaults(sample.Plain(), one(0.1, finding.Pass))
	a.NoStart = finding.Words("no pressure known")
	assert.Equal(t, finding.Unknown, Of(a, finding.EnergyFault).Status, "normal operation is not known")
	assert.Equal(t, finding.Unknown, Of(a, finding.ShotUnasked).Status)
}

// The faults stand worst first in the report; where two are equal the verdicts name
// the first in the order of the parts.
func TestVerdictsReadTheFaultsInTheOrderOfTheParts(t *testing.T) {
	late := fault.Result{Part: "late", Mode: fault.StuckOpen, State: "any", Effect: fault.ChangesShot, Judged: 0.5, WorstGauge: 2,
		Status: finding.Pass, Place: 1}
	early := fault.Result{Part: "early", Mode: fault.StuckOpen, State: "any", Effect: fault.ChangesShot, Judged: 0.5, WorstGauge: 1,
		Status: finding.Pass, Place: 0}
	assert.Contains(t, Of(assessed.WithFaults(sample.Plain(), late, early), finding.EnergyFault).Why.String(), "early")
}
