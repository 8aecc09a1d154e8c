package limits

import (
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An answer from a day to come closes nothing here either, nor does it prove a tip;
// without a day no date is judged.
func TestEmptyKnowsTheDay(t *testing.T) {
	l := sample.VentedTank()
	l.Projectile.TipProof = ""
	answer := func(id, date string) finding.Confirmation {
		return finding.Confirmation{Item: id, Who: "A. N.", Date: date}
	}
	l.Checklist = []finding.Confirmation{answer(finding.ItemStaysEmpty, "2099-05-01"), answer(finding.ItemOpenTag, "2026-05-01"), answer(finding.ItemTip, "2099-05-01")}
	for day, closed := range map[string]bool{"2026-06-01": false, "2099-05-01": true, "": true} {
		e, err := Empty(weakly(), l, VentOptions{Day: day})
		require.NoError(t, err)
		future, past := e.Items[finding.IndexOfItem(e.Items, finding.ItemStaysEmpty)], e.Items[finding.IndexOfItem(e.Items, finding.ItemOpenTag)]
		assert.NotNil(t, past.Done, day)
		assert.Equal(t, closed, future.Done != nil, day)
		assert.Equal(t, !closed, len(future.OpenWhy) != 0, day)
		tip := benchmark.BenchmarkOf(benchmark.TotalRigid)
		if closed {
			tip = benchmark.BenchmarkOf(benchmark.TotalResilient)
		}
		assert.InDelta(t, tip.Value, e.LeftLimit, 1e-12, day)
	}
}
