package search_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"puffproof/limits/search"
)

// sketched gives a short search and its sketch from the same seeds.
func sketched(tb require.TestingT, dim int, f func([]float64) float64, seeds ...[]float64) (whole, sketch search.Result) {
	o := search.Light(seeds...)
	whole = maximise(tb, dim, f, o)
	o.Sketch = true
	return whole, maximise(tb, dim, f, o)
}

// On functions like a launcher's shots, seeded with the maximum of one that differs by a tenth, a sketch is no worse than its seed,
// never much below a short search, and a fraction of its cost.
func TestASketchTellsRoughly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dim := rapid.IntRange(14, 26).Draw(t, "dim")
		f := newLauncherLike(dim, rapid.Uint64().Draw(t, "function"))
		near := f
		near.factors = append([]factor(nil), f.factors...)
		for i := range near.factors {
			near.factors[i].a *= 1.1
			near.factors[i].c *= 1.1
		}
		seed := maximise(t, dim, near.Value, search.Options{}).Best.Point
		whole, sketch := sketched(t, dim, f.Value, seed)
		assert.True(t, sketch.Sketched)
		assert.False(t, whole.Sketched)
		assert.GreaterOrEqual(t, sketch.Best.Value, f.Value(seed))
		assert.Greater(t, 1.25*sketch.Best.Value, whole.Best.Value, "the room of those who rest on it (limits/worst)")
		assert.Less(t, sketch.Evaluations, whole.Evaluations)
	})
}

// Where nothing happens at any seed, where there is none, or where a value near it is undefined, a sketch tells nothing: the short search
// is made, point by point.
func TestASketchThatTellsNothingIsASearch(t *testing.T) {
	const dim = 12
	hill := func(u []float64) float64 {
		far := 0.0
		for _, x := range u {
			far += (1 - x) * (1 - x)
		}
		return math.Max(0, 1-far)
	}
	low := make([]float64, dim)
	holed := func(u []float64) float64 {
		if u[0] > 0.9 {
			return math.NaN()
		}
		return 1 + hill(u)
	}
	for name, c := range map[string]struct {
		f     func([]float64) float64
		seeds [][]float64
	}{"nothing happens": {hill, [][]float64{low}}, "no seed": {hill, nil}, "undefined": {holed, [][]float64{low}}} {
		whole, sketch := sketched(t, dim, c.f, c.seeds...)
		assert.False(t, sketch.Sketched, name)
		assert.GreaterOrEqual(t, sketch.Best.Value, 0.999*whole.Best.Value, name)
	}
}
