package barrier

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/graph"
)

// TestFind: a tank (0) stands behind a regulator set to 2e5 and a check valve of 3e4 before a dose (1); beside the check valve runs one of
// 1e4. Nothing leads back from the barrel, and a volume (2) has no way out at all.
func TestFind(t *testing.T) {
	links := []graph.Link{{From: 0, To: 1}, {From: 1, To: graph.Barrel}, {From: 1, To: graph.Barrel}, {From: graph.Barrel, To: 2}}
	drops := []float64{0, 3e4, 1e4, 0}
	limits := []float64{2e5, math.Inf(1), math.Inf(1), math.Inf(1)}
	var b Barriers
	b.Find(links, 5, func(link int, way graph.Way) (limit, drop float64) {
		if way == graph.Against {
			return 0, 0
		}
		return limits[link], drops[link]
	})
	inf := math.Inf(1)
	assert.Equal(t, graph.PerNode[float64]{2e5, inf, 0, inf, 0}, b.Caps)
	assert.Equal(t, graph.PerNode[float64]{1e4, 1e4, inf, 0, inf}, b.Drops)
	assert.Equal(t, 2e5, b.Through(0, 9e5))
	assert.Equal(t, 1.4e5, b.Through(1, 1.5e5))
	b.Clear(5)
	assert.Equal(t, 9e5, b.Through(0, 9e5))
}

// TestOver: what air gives beyond a check valve, by steps of the flow's availability, is below V d^2/(2 pa), at a small d by gamma
// times. Where nothing is held back air below ambient pressure counts as it did.
func TestOver(t *testing.T) {
	const gamma, pa, drop = 1.4, 1e5, 3e4
	b := Barriers{Drops: graph.PerNode[float64]{drop, 0}}
	for _, gauge := range []float64{3.01e4, 4e4, 9e4} {
		d, done := b.Over(0, gauge), 0.0
		const steps = 1000
		for i := range steps {
			p := pa + d*(float64(i)+0.5)/steps
			done += (1 - math.Pow(pa/p, (gamma-1)/gamma)) * d / steps / (gamma - 1) // of a cubic metre
		}
		bound := d * d / (2 * pa)
		assert.Less(t, done, bound)
		if d < 1e3 {
			assert.InEpsilon(t, gamma, bound/done, 0.01)
		}
	}
	assert.Zero(t, b.Over(0, 2e4))
	assert.Equal(t, -2e4, b.Over(1, -2e4))
}
