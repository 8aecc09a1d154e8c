package search_test

import (
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/search"
)

// around is an objective that is told near which point it is asked, and notes it.
type around struct {
	f    func([]float64) float64
	note func(u, at []float64)
}

func (o around) Value(u []float64) float64 { o.note(u, nil); return o.f(u) }

func (o around) ValueNear(u, at []float64) float64 { o.note(u, at); return o.f(u) }

// A climb tells its objective where it stands: a point that was asked for before, and most of what it asks differs from that in one
// coordinate. Whoever gives the same value either way gets the same search, bit for bit, on any number of workers.
func TestAClimbTellsWhereItStands(t *testing.T) {
	const dim = 20 // in fewer than FullCorners dimensions there are no quick climbs
	slope := func(u []float64) float64 {
		sum := 0.0
		for i, x := range u {
			sum += float64(i%5-2)*x - 0.3*(x-0.4)*(x-0.4)
		}
		return 10 + sum
	}
	var mu sync.Mutex
	var known [][]float64
	near, alone, unknown := 0, 0, 0
	note := func(u, at []float64) {
		mu.Lock()
		defer mu.Unlock()
		known = append(known, slices.Clone(u))
		if at == nil {
			return
		}
		near++
		moved := 0
		for i := range u {
			if u[i] != at[i] {
				moved++
			}
		}
		if moved == 1 {
			alone++
		}
		if !slices.ContainsFunc(known, func(k []float64) bool { return slices.Equal(k, at) }) {
			unknown++
		}
	}
	told, err := search.Maximise(t.Context(), dim, func() search.Objective { return around{slope, note} }, search.Quick())
	require.NoError(t, err)
	assert.Greater(t, near, 500)
	assert.Greater(t, alone, near/2)
	assert.Zero(t, unknown, "points that it never asked for")
	for _, workers := range []int{1, 3} {
		o := search.Quick()
		o.Workers = workers
		plainly, err := search.Maximise(t.Context(), dim, plain(slope), o)
		require.NoError(t, err)
		assert.Equal(t, plainly, told, "%d workers", workers)
	}
}
