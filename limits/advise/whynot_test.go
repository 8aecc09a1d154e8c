package advise

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
)

// Where no way is found since a kinked hose fails, that is said; another fault, or a kinked hose that is within the limit, is not.
func TestWhyNotNamesAKinkedHose(t *testing.T) {
	kink := fault.Result{Part: "fire hose", Mode: fault.HoseKinked}
	open := fault.Result{Part: "fire", Mode: fault.StuckShut}
	for _, c := range []struct {
		name   string
		fault  fault.Result
		status finding.Status
		want   bool
	}{
		{"a kinked hose fails", kink, finding.Fail, true},
		{"a kinked hose holds", kink, finding.Pass, false},
		{"whether a kinked hose holds is unknown", kink, finding.Unknown, false},
		{"another fault fails", open, finding.Fail, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := finding.Verdict{ID: finding.EnergyFault, Status: c.status, Why: finding.Say("worst of %d single faults: %s", 2, c.fault.Name())}
			a := &attempt{name: "narrower", last: turned{l: sample.Plain()}}
			a.judged.report = limits.Report{Verdicts: []finding.Verdict{v}}
			a.mend(&a.judged)
			a.judged.report = limits.Report{} // it was made stricter, and failed otherwise
			said := whyNot(t.Context(), []*attempt{a}, nil).String()
			assert.Contains(t, said, "nothing leaves this barrel")
			if c.want {
				assert.Contains(t, said, "A kinked hose stands in the way")
			} else {
				assert.NotContains(t, said, "kinked hose stands")
			}
		})
	}
}
