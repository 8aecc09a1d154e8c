package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is kept of a course is read as it was written, whatever came of it; words that only begin like one are none, and close nothing in a
// record either.
func TestACourseIsReadAsItWasKept(t *testing.T) {
	for _, judged := range []string{Tight, "leaks", "cannot tell"} {
		c := Course{Judged: judged, Start: Bar3(0.36e5), End: Bar3(0.355e5), Count: 9, Length: Minutes.Of(660, 2)}
		got, count, is := CourseIn(c.Text().String())
		assert.True(t, is, judged)
		assert.Equal(t, judged, got)
		assert.Equal(t, 9, count)
		answer := &Confirmation{Item: ItemLeakDown, Who: "A. N., B. N.", Date: "2026-05-01", Value: c.Text().String(), Recorded: true}
		outcome, _ := Judge(&Item{ID: ItemLeakDown, Figure: FigureBetween(InPascalGauge, 0, 1e3)}, answer, "2026-06-01")
		assert.Equal(t, judged == Tight, outcome == Closes, judged)
	}
	for _, words := range []string{"", "tight", "tight, from what we saw", "tight, from 0.36 bar", "tight, from 0.36 bar to 0.35 bar",
		"so tight, from 0.36 to 0.35 bar, 9 readings over 11 min", "failed: tight, from 0.360 bar to 0.355 bar, 9 readings over 11 min"} {
		_, _, is := CourseIn(words)
		assert.False(t, is, words)
		outcome, _ := Judge(&Item{ID: ItemLeakDown, Figure: FigureBetween(InPascalGauge, 0, 1e3)}, &Confirmation{Item: ItemLeakDown,
			Who: "A. N., B. N.", Date: "2026-05-01", Value: words, Recorded: true}, "2026-06-01")
		assert.NotEqual(t, Closes, outcome, words)
	}
}
