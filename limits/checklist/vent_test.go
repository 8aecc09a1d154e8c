package checklist

import (
	"math"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The test that a builder can do begins where the supply stops by itself, not at
// the pressure of a fault, and the item asks for its time.
func TestTheStopwatchTestBeginsAtTheCutOut(t *testing.T) {
	l := sample.VentedTank()
	l.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: launcher.Band{Set: true, Key: "pressure_switch.cut_out", Nominal: 0.36e5, Low: 0.33e5, High: 0.39e5}}
	e, err := vent.Compute(weakly(), ventInputOf(t, l), vent.FullSheets)
	require.NoError(t, err)
	require.Len(t, e.Tests, len(l.Volumes))
	for _, test := range e.Tests {
		require.NotEmpty(t, test.Sheet)
		first := test.Sheet[0]
		assert.InDelta(t, l.Switch.CutOut.Nominal, first.Gauge, 1, "the expected reading at the start")
		assert.LessOrEqual(t, first.Low, l.Switch.CutOut.Low)
		assert.GreaterOrEqual(t, first.High, l.Switch.CutOut.High)
		assert.Less(t, first.High, e.Start, "below the pressure of a fault")
	}
	assert.Less(t, e.LatestTest().Slowest, e.WorstOf(vent.PowerLost).Slowest)
	words, figure := expectVent(e)
	assert.Contains(t, words, finding.Significant(math.Ceil(e.LatestTest().Slowest), 3)+" s at the latest")
	assert.InDelta(t, e.LatestTest().Slowest, figure.High, 1, "the next whole second")
}
