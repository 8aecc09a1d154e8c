package show

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/finding"
	"puffproof/limits/progress"
)

// The line says what is looked at, how far it is and what it found, in the reader's
// units, and is never wider than the terminal: what was found is cut last.
func TestWaitLine(t *testing.T) {
	r := progress.Report{Done: 59, All: 78, Found: finding.Say("up to %s", finding.Bar(1.2e5)),
		Looking: []finding.Text{finding.Words("4 of 6, faults"), finding.Words("12 of 45"), finding.Words("relief \x1b[2Jstuck shut")}}
	us := quantity.US
	for _, c := range []struct {
		units   quantity.System
		columns int
		want    string
	}{
		{quantity.Metric, 90, "check, 7 s: 4 of 6, faults: 12 of 45: relief " + Clean("\x1b") + "[2Jstuck shut, 75 %, up to 1.2 bar"},
		{us, 90, "check, 7 s: 4 of 6, faults: 12 of 45: relief " + Clean("\x1b") + "[2Jstuck shut, 75 %, up to 17.4 psi"},
		{quantity.Metric, 45, "check, 7 s: 4 of 6, fau…, 75 %, up to 1.2 bar"},
		{quantity.Metric, 20, "check, 7 s: 4 of 6,…"},
	} {
		got := WaitLine(c.units, "check", 7900*time.Millisecond, r, c.columns)
		assert.Equal(t, c.want, got)
		assert.LessOrEqual(t, Columns(got), c.columns)
	}
	assert.Equal(t, "check, 0 s", WaitLine(quantity.Metric, "check", 300*time.Millisecond, progress.Report{}, 80))
}
