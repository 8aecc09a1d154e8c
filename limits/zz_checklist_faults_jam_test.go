package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a hand could free from behind a projectile that jams is no pass: its row is
// open until the drill is confirmed, on a day that has come, and the item names the
// figure.
func TestAJammedProjectileIsOpenUntilTheDrillIsConfirmed(t *testing.T) {
	l := dumped()
	st := stageOf(t, l)
	jam := runFault(t, st, "projectile.jammed")
	assert.Greater(t, jam.Freed, st.Limits.Total.Value)
	assert.Equal(t, OpenItem, jam.Status)
	assert.Contains(t, jam.Reason, "OPEN: jam drill")
	assert.Contains(t, jam.Consequence, "barrel.stalled", "why the two figures differ")
	a := &Assessment{Launcher: l, Loading: st.Loading, Faults: &FaultReport{Faults: []FaultResult{jam}}}
	item := itemIn(t, faultItems(a), ItemJamDrill)
	assert.Contains(t, item.Expect, worstJoule(jam.Freed))
	assert.Contains(t, item.Why, jam.Consequence)
	require.Len(t, jamNotes(a), 1)
	assert.Contains(t, jamNotes(a)[0], worstJoule(jam.Freed))

	l.Checklist = []Confirmation{{Item: ItemJamDrill, Who: "A. N.", Date: "2026-05-01"}}
	for day, want := range map[string]Status{"2026-05-01": Pass, "2026-04-30": OpenItem} {
		st := stageOf(t, l)
		st.Day = day
		jam = runFault(t, st, "projectile.jammed")
		assert.Equal(t, want, jam.Status, day)
		assert.Equal(t, OnProcedure, jam.Basis)
	}
}
