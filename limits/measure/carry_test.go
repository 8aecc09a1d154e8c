package measure

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
)

// The carry against a plain scan of 400 pressures on a launcher without
// tolerances, whose energy falls with the pressure at first (a sticky projectile
// hops) and then rises. The search runs the model at 1e-5, which the hops
// amplify: it may be 1 % above the scan, but below it by no more than the scan's
// own 1e-3.
func TestCarrySeesBetween(t *testing.T) {
	l := sample.Plain(sample.FireCv(0.4), sample.Friction(30, 0.6), sample.PartsOff)
	l.Projectile.Drag = launcher.Exact("projectile.drag_coefficient", 0.5)
	m := NewShotModel(l.Clone())
	energy := func(p float64) float64 {
		v, _ := m.Shot(p, 0)
		return 0.5 * 4e-3 * v * v
	}
	group := func(from float64) SpeedGroup {
		v := math.Sqrt(2 * energy(from) / 4e-3)
		return SpeedGroup{Gauge: from, Mean: v, SD: 0.03 * v, K: 5.741, Temperature: 293.15}
	}
	for _, c := range []struct{ from, high float64 }{{0.57 * sample.Bars, 0.66 * sample.Bars}, {0.64 * sample.Bars, 0.80 * sample.Bars}} {
		base, most := energy(c.from), 0.0
		require.Positive(t, base)
		for i := range 401 {
			most = math.Max(most, energy(c.from+(c.high-c.from)*float64(i)/400))
		}
		g := group(c.from)
		ratio, err := CarryRatio(context.Background(), l, &g, 0, c.high, search.Options{})
		require.NoError(t, err)
		assert.GreaterOrEqual(t, ratio, (1-1e-3)*most/base)
		assert.LessOrEqual(t, ratio, (1+1e-2)*most/base)
		assert.GreaterOrEqual(t, ratio, 1-1e-3, "the upper end alone would lower the bound")
	}
	// Points that shoot far weaker than the shots do not count: none is left.
	quick := sample.Plain(sample.PartsOff)
	v, _ := NewShotModel(quick.Clone()).Shot(0.8*sample.Bars, 0)
	ratio, err := CarryRatio(context.Background(), quick, &SpeedGroup{Gauge: 0.8 * sample.Bars, Mean: 3 * v, SD: 0.09 * v, K: 5.741}, 0, 0.9*sample.Bars, search.Options{})
	require.NoError(t, err)
	assert.Zero(t, ratio)
}
