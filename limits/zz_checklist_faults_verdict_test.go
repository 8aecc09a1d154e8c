package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// With a guard the verdict names both items that it rests on, and whether each is
// confirmed by the day of the question.
func TestAnUnaskedShotNamesItsItems(t *testing.T) {
	l := plain()
	l.Barrel.SealGuard = "ring with slots"
	l.Checklist = []Confirmation{{Item: ItemGuard, Who: "A. N.", Date: "2026-05-01"}}
	shot := FaultResult{Part: "fire", Mode: StuckOpen, State: "armed", Effect: FiresUnasked, Energy: 0.1, Judged: 0.1, Status: Pass}
	a := judgedAlone(l, shot)
	a.Loading = loadingOf(l, 5000)
	a.Day = "2026-06-01"
	v := shotUnasked(a)
	assert.Contains(t, v.Why, ItemTwoActions+", open")
	assert.Contains(t, v.Why, ItemGuard+", confirmed")
	assert.Contains(t, v.Advice, "lips")
	itemIn(t, faultItems(a), ItemTwoActions)
	a.Day = "2026-04-01"
	assert.Contains(t, shotUnasked(a).Why, ItemGuard+", open", "a day that is still to come confirms nothing")
	a.Faults.Faults = nil
	for _, it := range faultItems(a) {
		assert.NotEqual(t, ItemGuard, it.ID, "nothing shoots")
	}
}
