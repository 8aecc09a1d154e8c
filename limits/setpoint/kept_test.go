package setpoint

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/fault"
	"puffproof/limits/finding"
)

// What an item keeps from being shot, however hard it is, says nothing of how near the settings come to their limit: the hardest of the
// other faults does.
func TestTheShareOfALimitIsThatOfWhatIsShot(t *testing.T) {
	const limit, wet, other = 0.5, 2.0, 0.4
	value, margin := wet, 1-wet/limit
	j := judgement{[]finding.Verdict{{ID: finding.EnergyFault, Status: finding.Conditional, Value: &value, Margin: &margin}},
		&fault.Report{Limit: limit, Faults: []fault.Result{{ID: "wet", Effect: fault.ChangesShot, Judged: wet, HeldBy: finding.ItemWeighed},
			{ID: "other", Effect: fault.ChangesShot, Judged: other}, {ID: "small", Effect: fault.ChangesShot, Judged: 0.1}}}}
	assert.InEpsilon(t, other/limit, j.share(finding.EnergyFault), 1e-12)
	assert.Zero(t, j.share(finding.EnergyTotal))
	some := j.hardest()
	assert.Equal(t, []bool{true, true, false}, []bool{some("wet"), some("other"), some("small")})
}
