package limits

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// By the ceiling 0.5 J allows 123, 47 and 13 mL at 0.3, 0.5 and 1.0 bar gauge
// (design of this project, section 8; own arithmetic there). The tolerance is the
// last digit printed.
func TestSizeByTheCeiling(t *testing.T) {
	s, err := FindSize(SizeQuestion{Limit: 0.5, Bore: 41e-3})
	require.NoError(t, err)
	want := map[float64]float64{0.3e5: 123, 0.5e5: 47, 1e5: 13}
	found := 0
	for _, r := range s.Rows {
		if ml, ok := want[r.Gauge]; ok {
			found++
			assert.InDelta(t, ml, r.Ceiling*1e6, 0.5)
		}
	}
	assert.Equal(t, len(want), found)
}

// The volume for a travel is where the isothermal work up to the muzzle meets the
// limit with the factor: put back by an integration of (p - pa) A dx by the
// trapezium rule, which knows nothing of the closed form.
func TestSizeForATravel(t *testing.T) {
	q := SizeQuestion{Limit: 0.5, Bore: 41e-3, Ambient: 101325}
	tried := 0
	for _, gauge := range []float64{0.1e5, 0.3e5, 1e5} {
		for _, x := range []float64{0.005, 0.02, 0.1} {
			v := doseForTravel(q, gauge, x)
			area := circle(q.Bore)
			if v == nil {
				assert.LessOrEqual(t, gauge*area*x, 0.5/ModelFactor, "any volume")
				continue
			}
			tried++
			const n = 20000
			work := 0.0
			over := func(x float64) float64 {
				return math.Max(0, (q.Ambient+gauge)**v/(*v+area*x)-q.Ambient) * area
			}
			for i := range n {
				a, b := x*float64(i)/n, x*float64(i+1)/n
				work += 0.5 * (over(a) + over(b)) * (b - a)
			}
			assert.InEpsilon(t, 0.5/ModelFactor, work, 1e-5, "%v Pa, %v m", gauge, x) // of the trapezium rule
		}
	}
	assert.Greater(t, tried, 4)
}

func TestSizeRefuses(t *testing.T) {
	for _, q := range []SizeQuestion{{}, {Limit: 0.5}, {Limit: -1, Bore: 1}, {Limit: math.NaN(), Bore: 1}, {Limit: 1, Bore: 1, Travel: -1},
		{Limit: math.Inf(1), Bore: 1}} {
		_, err := FindSize(q)
		assert.Error(t, err)
	}
	s, err := FindSize(SizeQuestion{Limit: 0.5, Bore: 0.04, Mass: 4e-3})
	require.NoError(t, err)
	assert.InDelta(t, 15.8, *s.Speed, 0.05) // sqrt(2 x 0.5 J/4 g), to its digits
}
