package finding

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A value at its limit passes, one just beyond fails, on either side: the limit is the
// limit, without a share to spare.
func TestVerdictsAtTheirLimit(t *testing.T) {
	judged := func(judge func(v *Verdict, value, limit float64), value float64) Verdict {
		v := NewVerdict("id", "title", InJoule)
		judge(&v, value, 0.5)
		return v
	}
	for _, c := range []struct {
		value        float64
		upper, lower Status
	}{
		{0.5, Pass, Pass},
		{math.Nextafter(0.5, 1), Fail, Pass},
		{math.Nextafter(0.5, 0), Pass, Fail},
		{0.51, Fail, Pass},
		{0.49, Pass, Fail},
		{0, Pass, Fail},
		{math.NaN(), Unknown, Unknown},
		{math.Inf(1), Unknown, Unknown},
	} {
		upper, lower := judged((*Verdict).Judge, c.value), judged((*Verdict).JudgeLower, c.value)
		assert.Equal(t, c.upper, upper.Status, "upper limit, %v", c.value)
		assert.Equal(t, c.lower, lower.Status, "lower limit, %v", c.value)
	}
}

// The margin is the share of the limit that is left; negative where it fails.
func TestMarginIsAShareOfTheLimit(t *testing.T) {
	v := NewVerdict("id", "title", InJoule)
	v.Judge(0.4, 0.5)
	require.NotNil(t, v.Margin)
	assert.InDelta(t, 0.2, *v.Margin, 1e-12)
	v.JudgeLower(0.4, 0.5)
	assert.InDelta(t, -0.2, *v.Margin, 1e-12)
	v.Judge(0.1, 0)
	assert.InDelta(t, -1, *v.Margin, 1e-12, "nothing is allowed")
}
