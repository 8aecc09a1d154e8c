package limits

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What a hand could free from behind a projectile that jams is no pass: its row is
// open until the drill is confirmed, the item names the figure, and energy.fault is
// not about it.
func TestAJammedProjectileIsOpenUntilTheDrillIsConfirmed(t *testing.T) {
	l := dumped()
	r := faultsOf(t, l, FaultOptions{})
	jam := faultNamed(t, r.Faults, "projectile.jammed")
	assert.Greater(t, jam.Freed, r.Limit)
	assert.Equal(t, OpenItem, jam.Status)
	assert.Contains(t, jam.Reason, "OPEN: jam drill")
	assert.Contains(t, jam.Consequence, "barrel.stalled", "why the two figures differ")
	assert.Contains(t, itemIn(t, r.Items, ItemJamDrill).Expect, worstJoule(jam.Freed))
	assert.Equal(t, Pass, verdictIn(t, r.Verdicts, "energy.fault").Status)

	l.Checklist = []Confirmation{{Item: ItemJamDrill, Who: "A. N.", Date: "2026-05-01"}}
	jam = faultNamed(t, faultsOf(t, l, FaultOptions{}).Faults, "projectile.jammed")
	assert.Equal(t, Pass, jam.Status)
	assert.Equal(t, OnProcedure, jam.Basis)
}

// A pair that was not computed has no figures: those of one fault alone are not its.
func TestAPairThatWasNotComputedHasNoFigures(t *testing.T) {
	r := faultsOf(t, dumped(), FaultOptions{})
	assert.NotEmpty(t, r.Pairs)
	for _, p := range r.Pairs {
		assert.Equal(t, NotComputed, p.Effect)
		for _, figure := range []float64{p.Energy, p.Judged, p.Freed, p.WorstGauge} {
			assert.True(t, math.IsNaN(figure), "%s with %s", p.ID, p.With)
		}
	}
}

// A word that puts a guard off is none, and with a guard the verdict still names
// both items that it rests on.
func TestAGuardToBeMadeIsNoGuard(t *testing.T) {
	for _, word := range []string{"to be made", "TODO", "planned", "later", "?", "will be a ring", "not yet fitted", "tbd (ring)", " "} {
		assert.Empty(t, Declared(word), word)
	}
	for _, word := range []string{"ring with four slots", "todorov's ring, 8 mm", "a grid of 5 mm"} {
		assert.NotEmpty(t, Declared(word), word)
	}
	l := dumped()
	v := verdictIn(t, faultsOf(t, l, FaultOptions{}).Verdicts, "shot.unasked")
	assert.Equal(t, Pass, v.Status)
	assert.Equal(t, OnProcedure, v.Basis)
	assert.Contains(t, v.Why, ItemTwoActions+", open")
	assert.Contains(t, v.Why, ItemGuard+", open")
	assert.Contains(t, v.Advice, "lips")
	l.Barrel.SealGuard = "to be made"
	assert.Equal(t, Fail, verdictIn(t, faultsOf(t, l, FaultOptions{}).Verdicts, "shot.unasked").Status)
}
