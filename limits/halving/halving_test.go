package halving

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The square root of two, and the sixth power of ten: sixty halvings leave the last bits
// of a double, so 4e-16 relative, two of them.
func TestATurnIsBracketed(t *testing.T) {
	before, after := Between(1, 2, 60, func(x float64) bool { return x*x >= 2 })
	require.InEpsilon(t, math.Sqrt2, before, 4e-16)
	require.InEpsilon(t, math.Sqrt2, after, 4e-16)
	require.Less(t, before*before, 2.0)
	require.GreaterOrEqual(t, after*after, 2.0)

	before, after = OnScale(1e-3, 1e9, 60, func(x float64) bool { return x >= 1e6 })
	require.InEpsilon(t, 1e6, before, 4e-16)
	require.InEpsilon(t, 1e6, after, 4e-16)
}

func TestStepsHalveTheBracket(t *testing.T) {
	before, after := Between(0, 8, 2, func(x float64) bool { return x > 3 })
	require.Equal(t, []float64{2, 4}, []float64{before, after})
	before, after = OnScale(1, 16, 2, func(x float64) bool { return x > 3 })
	require.Equal(t, []float64{2, 4}, []float64{before, after})
}
