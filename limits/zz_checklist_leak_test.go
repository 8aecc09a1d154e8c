package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The sheet of a leak-down: a launcher that is tight reads between lowest and
// highest, whatever its cut-out, warmth and room; one that leaks by the greatest
// leak that may hide is below in the end.
func TestTheLeakDownSheetHoldsATightLauncher(t *testing.T) {
	l := sealedTank()
	e, err := computeVents(weakly(), ventInputOf(t, l), FullSheets)
	require.NoError(t, err)
	require.Len(t, e.Leaks, 1)
	test := e.Leaks[0]
	m := newLeakModel(l, "tank", 0.8e5)
	end := test.Sheet[len(test.Sheet)-1].Time
	assert.GreaterOrEqual(t, end, 600.0)
	for _, cutOut := range []float64{l.lowestStart(), 0.8e5, test.High} {
		for _, warmth := range []float64{0, 0.5, 1} {
			c, err := m.course(0, cutOut, warmth, end)
			require.NoError(t, err)
			for _, r := range test.Sheet {
				assert.GreaterOrEqual(t, c.at(r.Time), r.Low-1)
				assert.LessOrEqual(t, c.at(r.Time), r.High+1)
			}
		}
	}
	assert.InDelta(t, 0.8e5, test.Sheet[0].Gauge, 1e-3)
	words := expectLeakDown(&Assessment{Launcher: l, Emptying: e})
	assert.Contains(t, words, bar(test.Start-test.FallsMost))
	assert.Contains(t, words, minutes(test.Needed))
}
