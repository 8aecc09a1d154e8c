package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An answer from a day to come closes nothing here either, nor does it prove a tip;
// without a day no date is judged.
func TestEmptyKnowsTheDay(t *testing.T) {
	l := ventedTank()
	l.Projectile.TipProof = ""
	answer := func(id, date string) Confirmation { return Confirmation{Item: id, Who: "A. N.", Date: date} }
	l.Checklist = []Confirmation{answer(ItemStaysEmpty, "2099-05-01"), answer(ItemOpenTag, "2026-05-01"), answer(ItemTip, "2099-05-01")}
	for day, closed := range map[string]bool{"2026-06-01": false, "2099-05-01": true, "": true} {
		e, err := Empty(weakly(), l, VentOptions{Day: day})
		require.NoError(t, err)
		future, past := e.Items[indexOfItem(e.Items, ItemStaysEmpty)], e.Items[indexOfItem(e.Items, ItemOpenTag)]
		assert.NotNil(t, past.Done, day)
		assert.Equal(t, closed, future.Done != nil, day)
		assert.Equal(t, !closed, future.OpenWhy != "", day)
		tip := BenchmarkOf(TotalRigid)
		if closed {
			tip = BenchmarkOf(TotalResilient)
		}
		assert.InDelta(t, tip.Value, e.LeftLimit, 1e-12, day)
	}
}
