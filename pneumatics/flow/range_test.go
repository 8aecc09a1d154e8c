package flow

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestRangeIsRefusedWithItsReason checks the words and the edges of the range.
func TestRangeIsRefusedWithItsReason(t *testing.T) {
	require.NoError(t, CheckRange(0, 293.15))
	require.NoError(t, CheckRange(MaxGauge, MinTemperature))
	require.NoError(t, CheckRange(MaxGauge, MaxTemperature))
	for _, c := range []struct {
		gauge, temp float64
		words       []string
	}{
		{10.5e5, 293.15, []string{"10.5 bar gauge", "at most 10 bar"}},
		{1e5, 240, []string{"240 K", "250 to 340 K"}},
		{1e5, 350, []string{"350 K", "250 to 340 K"}},
		{math.NaN(), 293.15, []string{"NaN"}},
		{1e5, math.NaN(), []string{"NaN"}},
	} {
		err := CheckRange(c.gauge, c.temp)
		require.Error(t, err)
		for _, w := range c.words {
			assert.ErrorContains(t, err, w)
		}
	}
}
