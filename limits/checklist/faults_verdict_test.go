package checklist

import (
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
	"testing"

	"github.com/stretchr/testify/assert"
)

// With a guard the verdict names both items that it rests on, and whether each is
// confirmed by the day of the question.
func TestAnUnaskedShotNamesItsItems(t *testing.T) {
	l := sample.Plain()
	l.Barrel.SealGuard = "ring with slots"
	l.Checklist = []finding.Confirmation{{Item: finding.ItemGuard, Who: "A. N.", Date: "2026-05-01"}}
	shot := fault.Result{Part: "fire", Mode: fault.StuckOpen, State: "armed", Effect: fault.FiresUnasked, Energy: 0.1, Judged: 0.1, Status: finding.Pass}
	a := judgedAlone(l, shot)
	a.Loading = vent.LoadingOf(l, 5000)
	a.Day = "2026-06-01"
	v := verdict.ShotUnasked(a)
	assert.Contains(t, v.Why.String(), finding.ItemTwoActions+", open")
	assert.Contains(t, v.Why.String(), finding.ItemGuard+", confirmed")
	assert.Contains(t, v.Advice.String(), "lips")
	itemIn(t, FaultItems(a), finding.ItemTwoActions)
	a.Day = "2026-04-01"
	assert.Contains(t, verdict.ShotUnasked(a).Why.String(), finding.ItemGuard+", open", "a day that is still to come confirms nothing")
	a.Faults.Faults = nil
	for _, it := range FaultItems(a) {
		assert.NotEqual(t, finding.ItemGuard, it.ID, "nothing shoots")
	}
}
