package checklist

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/vent"
)

// A course of readings that somebody writes into the design is judged as one that commission takes: the expected one of a sealed launcher
// closes the leak-down, one that goes on falling does not, and says why.
func TestACourseByHandIsJudged(t *testing.T) {
	l := sample.VentedTank()
	a := assessed.Emptying(t, l, vent.FullSheets)
	require.NotEmpty(t, a.Emptying.Leaks)
	const day = "2026-06-01"
	closes := func(falls float64) finding.Item {
		c := finding.Confirmation{Item: finding.ItemLeakDown, Who: "AB, CD", Date: day, Value: "as read"}
		sheet := a.Emptying.Leaks[0].Sheet
		for _, r := range sheet {
			c.Figures = append(c.Figures, finding.Figure{Value: r.Time, Unit: finding.InSecond},
				finding.Figure{Value: r.Gauge * (1 - falls*r.Time/sheet[len(sheet)-1].Time), Unit: finding.InPascalGauge})
		}
		l.Checklist = []finding.Confirmation{c}
		items := []finding.Item{leakDownItem(a)}
		answeredBySeries(items, l, day)
		return items[0]
	}
	assert.NotNil(t, closes(0).Done)
	leaks := closes(0.5)
	assert.Nil(t, leaks.Done)
	assert.Contains(t, leaks.OpenWhy.String(), "leaks")
}
