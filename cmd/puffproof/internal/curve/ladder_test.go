package curve

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/launcher"
)

// A rung that nothing may reach is drawn as such, and is named where it is too far away to be drawn; the others keep their bands.
func TestTheLadderNamesWhatIsBeyondIt(t *testing.T) {
	rungs := []launcher.Rung{{Name: "cut-out", Gauge: 36e3, Low: 33e3, High: 39e3}, {Name: "left in the heat", Gauge: 63e3, Low: 47e3,
		High: 63e3},
		{Name: "energy limit", Gauge: 90e3, Low: 90e3, High: 90e3, Limit: launcher.Yes},
		{Name: "lowest rating", Gauge: 6e5, Low: 6e5, High: 6e5, Limit: launcher.Yes}}
	f := Ladder(rungs, quantity.Metric)
	assert.Equal(t, []string{"lowest rating 6.00 bar"}, f.Beyond)
	assert.Len(t, f.Words, 4)
	assert.Len(t, f.Rows.Rows, 3)
	assert.Equal(t, figure.Row{Name: "cut-out", Low: 0.33, Mark: 0.36, Top: 0.39, Value: "0.36 bar"}, f.Rows.Rows[0])
	assert.Equal(t, figure.Computed, f.Rows.Rows[1].Kind)
	assert.Equal(t, figure.Boundary, f.Rows.Rows[2].Kind)
	assert.Equal(t, "Pressure, bar gauge", f.Rows.Axis)
}
