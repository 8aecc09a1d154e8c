package search_test

import (
	"context"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/progress"
	"puffproof/limits/search"
)

// Whoever waits is told how far a search is and the greatest value so far, which only
// ever rises; what the search finds is the same, bit for bit, as when nobody listens.
func TestASearchTellsHowFarItIs(t *testing.T) {
	objective := plain(hartmann6)
	var mu sync.Mutex
	var told []progress.Report
	ctx := progress.With(t.Context(), func(r progress.Report) {
		mu.Lock()
		defer mu.Unlock()
		told = append(told, r)
	})
	ctx = progress.Looking(ctx, finding.Words("a function"))
	var values []float64
	o := search.Light()
	o.Say = func(v float64) finding.Text { values = append(values, v); return finding.Words("found") }
	watched, err := search.Maximise(ctx, 6, objective, o)
	require.NoError(t, err)
	alone, err := search.Maximise(context.Background(), 6, objective, search.Light())
	require.NoError(t, err)
	assert.Equal(t, alone, watched)
	require.Greater(t, len(told), 5)
	for i, r := range told {
		assert.Equal(t, []finding.Text{finding.Words("a function")}, r.Looking)
		assert.LessOrEqual(t, r.Done, r.All)
		assert.True(t, i == 0 || told[i-1].Done <= r.Done)
	}
	assert.IsNonDecreasing(t, values)
	assert.LessOrEqual(t, values[len(values)-1], watched.Best.Value)
	assert.Greater(t, values[len(values)-1], 0.0)
}

// BenchmarkTelling shows what telling costs an evaluation: the difference of the two. A
// shot takes some 10 us.
func BenchmarkTelling(b *testing.B) {
	heard := progress.With(context.Background(), func(progress.Report) {})
	for _, c := range []struct {
		name string
		ctx  context.Context
	}{{"nobody", context.Background()}, {"somebody", heard}} {
		b.Run(c.name, func(b *testing.B) {
			n := 0
			for b.Loop() {
				o := search.Light()
				o.Workers, o.Say = 1, func(v float64) finding.Text { return finding.Say("up to %s", finding.Joule(v)) }
				r, err := search.Maximise(c.ctx, 6, plain(hartmann6), o)
				require.NoError(b, err)
				n += r.Evaluations
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(n), "ns/evaluation")
		})
	}
}
