package checklist

import (
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/vent"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The sheet of a leak-down: a launcher that is tight reads between lowest and
// highest, whatever its cut-out, warmth and room; one that leaks by the greatest
// leak that may hide is below in the end.
func TestTheLeakDownSheetHoldsATightLauncher(t *testing.T) {
	l := sample.SealedTank()
	e, err := vent.Compute(weakly(), ventInputOf(t, l), vent.FullSheets)
	require.NoError(t, err)
	require.Len(t, e.Leaks, 1)
	test := e.Leaks[0]
	m := vent.NewLeakModel(l, "tank", 0.8e5)
	end := test.Sheet[len(test.Sheet)-1].Time
	assert.GreaterOrEqual(t, end, 600.0)
	for _, cutOut := range []float64{vent.LowestStart(l), 0.8e5, test.High} {
		for _, warmth := range []float64{0, 0.5, 1} {
			c, err := m.Course(0, cutOut, warmth, end)
			require.NoError(t, err)
			for _, r := range test.Sheet {
				assert.GreaterOrEqual(t, c.At(r.Time), r.Low-1)
				assert.LessOrEqual(t, c.At(r.Time), r.High+1)
			}
		}
	}
	assert.InDelta(t, 0.8e5, test.Sheet[0].Gauge, 1e-3)
	words := expectLeakDown(&assessment.Assessment{Launcher: l, Emptying: e})
	assert.Contains(t, words, finding.Bar(test.Start-test.FallsMost))
	assert.Contains(t, words, vent.Minutes(test.Needed).String())
}
