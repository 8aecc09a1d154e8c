package search_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/search"
)

// plainFunction is a function of no state as an Objective.
type plainFunction func(u []float64) float64

func (f plainFunction) Value(u []float64) float64 { return f(u) }

func plain(f func([]float64) float64) func() search.Objective {
	return func() search.Objective { return plainFunction(f) }
}

func maximise(t require.TestingT, dim int, f func([]float64) float64, o search.Options) search.Result {
	r, err := search.Maximise(context.Background(), dim, plain(f), o)
	require.NoError(t, err)
	return r
}

func TestKnownMaxima(t *testing.T) {
	for _, p := range problems() {
		t.Run(p.name, func(t *testing.T) {
			r := maximise(t, p.dim, p.value, search.Options{Budget: p.budget()})
			require.True(t, r.Found)
			assert.GreaterOrEqual(t, r.Best.Value, p.best-p.within, "%s; best at %v", p.reason, r.Best.Point)
			assert.LessOrEqual(t, r.Best.Value, p.best+1e-5, "above the known maximum: the test function is wrong")
			assert.Equal(t, p.value(r.Best.Point), r.Best.Value, "the point gives the value")
			t.Logf("%s: %.9g, %d evaluations, %d maxima, step %g", p.name, r.Best.Value, r.Evaluations, len(r.Maxima), r.Step)
			for i, u := range r.Best.Point {
				require.True(t, u >= 0 && u <= 1, "coordinate %d of the best point is %v", i, u)
			}
			quick := 0
			if p.dim > 10 { // twelve climbs, and the screening before them
				quick = 12*(200+30*p.dim) + 4*p.dim
			}
			assert.LessOrEqual(t, r.Evaluations, max(7500, 1000+250*p.dim, p.budget())+150*p.dim+5*11*10+quick)
		})
	}
}

// No step of the length that the result claims improves on the best point.
func TestCoordinatewiseOptimal(t *testing.T) {
	for _, p := range problems() {
		t.Run(p.name, func(t *testing.T) {
			for name, o := range map[string]search.Options{"whole": {}, "light": search.Light(), "quick": search.Quick()} {
				r := maximise(t, p.dim, p.value, o)
				require.Positive(t, r.Step, name)
				require.LessOrEqual(t, r.Step, 1.0/1024, name)
				for i := range p.dim {
					for _, step := range []float64{r.Step, -r.Step} {
						u := slices.Clone(r.Best.Point)
						u[i] = min(max(u[i]+step, 0), 1)
						assert.LessOrEqual(t, p.value(u), r.Best.Value, "%s: coordinate %d, step %g", name, i, step)
					}
				}
			}
		})
	}
}

// The result is the same bit for bit for any number of workers, undefined
// points included.
func TestSameForAnyNumberOfWorkers(t *testing.T) {
	for _, dim := range []int{1, 2, 7, 13} {
		inner := newLauncherLike(dim, uint64(dim))
		f := func(u []float64) float64 {
			if u[0] > 0.6 && u[0] < 0.65 {
				return math.NaN()
			}
			return inner.Value(u)
		}
		one := maximise(t, dim, f, search.Options{Workers: 1})
		for _, workers := range []int{2, 3, 8} {
			assert.Equal(t, one, maximise(t, dim, f, search.Options{Workers: workers}), "%d workers, %d dimensions", workers, dim)
		}
	}
}

// ownScratch fails the race detector, or gives wrong values, if two goroutines
// use it at once.
type ownScratch struct{ u []float64 }

func (o *ownScratch) Value(u []float64) float64 {
	copy(o.u, u)
	sum := 0.0
	for i := range o.u {
		sum += o.u[i] * float64(i+1)
	}
	return sum
}

func TestOneEvaluatorPerWorker(t *testing.T) {
	made := 0
	r, err := search.Maximise(context.Background(), 5, func() search.Objective {
		made++
		return &ownScratch{u: make([]float64, 5)}
	}, search.Options{Workers: 4})
	require.NoError(t, err)
	assert.Equal(t, 4, made)
	assert.Equal(t, 15.0, r.Best.Value)
	assert.True(t, r.AllCorners)
}

func TestCounts(t *testing.T) {
	calls, undefined := 0, 0
	f := func(u []float64) float64 {
		calls++
		switch {
		case u[0] > 0.9:
			undefined++
			return math.NaN()
		case u[1] > 0.9:
			undefined++
			return math.Inf(1)
		}
		return u[0] + u[1] + u[2]
	}
	r := maximise(t, 3, f, search.Options{Workers: 1})
	assert.Equal(t, calls, r.Evaluations)
	assert.Equal(t, undefined, r.Undefined)
	require.Len(t, r.UndefinedAt, 3)
	assert.True(t, r.UndefinedAt[0] > 0.9 || r.UndefinedAt[1] > 0.9)
	assert.InDelta(t, 2.8, r.Best.Value, 1e-3, "the edge of the undefined part is approached to 2^-24, or to 2^-10 where a sweep is cut short")
	assert.LessOrEqual(t, r.Best.Value, 2.8)
}

func TestNothingDefined(t *testing.T) {
	for _, dim := range []int{0, 1, 12} {
		r := maximise(t, dim, func([]float64) float64 { return math.NaN() }, search.Options{})
		assert.False(t, r.Found)
		assert.Empty(t, r.Maxima)
		assert.Equal(t, r.Evaluations, r.Undefined)
		assert.Positive(t, r.Undefined)
		assert.Len(t, r.UndefinedAt, dim)
	}
}

func TestNoDimension(t *testing.T) {
	r := maximise(t, 0, func([]float64) float64 { return 7 }, search.Options{})
	assert.True(t, r.Found)
	assert.Equal(t, 7.0, r.Best.Value)
	assert.Equal(t, 1, r.Evaluations)
	assert.Len(t, r.Maxima, 1)
}

// Two humps of known height: their maxima are told apart, the gap is right.
func TestMaximaAndGap(t *testing.T) {
	hump := func(u []float64, c, height float64) float64 {
		s := 0.0
		for _, x := range u {
			s += (x - c) * (x - c)
		}
		return height * math.Exp(-30*s)
	}
	f := func(u []float64) float64 { return max(hump(u, 0.25, 1), hump(u, 0.8, 0.9)) }
	r := maximise(t, 4, f, search.Options{})
	require.Len(t, r.Maxima, 2, "%v", r.Maxima)
	assert.InDelta(t, 1, r.Maxima[0].Value, 1e-8, "settled to 2^-24: rounding")
	assert.InDelta(t, 0.1, r.Gap, 1e-4, "the second is settled to 2^-10: 0.9 * 4 * 30 * (2^-11)^2 = 3e-5 at worst")
	for i := range 4 {
		assert.InDelta(t, 0.25, r.Maxima[0].Point[i], 1e-4)
		assert.InDelta(t, 0.8, r.Maxima[1].Point[i], 1.0/1024)
	}
}

// Coordinates without influence make one maximum, not many.
func TestPlateauIsOneMaximum(t *testing.T) {
	r := maximise(t, 8, func(u []float64) float64 { return -math.Abs(u[0] - 0.5) }, search.Options{})
	assert.Len(t, r.Maxima, 1)
	assert.Zero(t, r.Gap)
	assert.Zero(t, r.Best.Value)
}

// A spike that no sampling finds is found from its seed, even with the smallest
// budget.
func TestSeedsAreAlwaysTried(t *testing.T) {
	const dim = 12
	seed := make([]float64, dim)
	for i := range seed {
		seed[i] = 0.1234 + 0.05*float64(i)
	}
	spike := func(u []float64) float64 {
		d := 0.0
		for i, x := range u {
			d = max(d, math.Abs(x-seed[i]))
		}
		if d < 0.001 {
			return 10
		}
		return 1 - d
	}
	for _, o := range []search.Options{{Budget: 1}, {}, search.Light()} {
		o.Seeds = [][]float64{centreOf(dim), seed}
		r := maximise(t, dim, spike, o)
		assert.Equal(t, 10.0, r.Best.Value)
	}
}

func centreOf(dim int) []float64 {
	u := make([]float64, dim)
	for i := range u {
		u[i] = 0.5
	}
	return u
}

func TestCallerBugsPanic(t *testing.T) {
	run := func(dim int, o search.Options) func() {
		return func() { _, _ = search.Maximise(context.Background(), dim, plain(ackley), o) }
	}
	assert.PanicsWithValue(t, "search: dimension -1", run(-1, search.Options{}))
	assert.PanicsWithValue(t, "search: seed 0 has 1 coordinates, the box has 2", run(2, search.Options{Seeds: [][]float64{{0}}}))
	assert.PanicsWithValue(t, "search: coordinate 1 of seed 0 is 1.5, outside [0, 1]", run(2, search.Options{Seeds: [][]float64{{0, 1.5}}}))
	defer func() {
		r, ok := recover().(search.Raised)
		require.True(t, ok, "the panic of a worker reaches the caller")
		assert.Equal(t, "evaluator", r.String())
		assert.Contains(t, string(r.Stack), "search_test.go", "and tells where it was")
		assert.Equal(t, r, search.Caught(r), "raised once more too")
	}()
	_, _ = search.Maximise(context.Background(), 3, plain(func([]float64) float64 { panic("evaluator") }), search.Options{Workers: 4})
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	var calls, late atomic.Int64
	var cancelled atomic.Bool
	_, err := search.Maximise(ctx, 10, plain(func(u []float64) float64 {
		if cancelled.Load() {
			late.Add(1)
		}
		if calls.Add(1) == 500 {
			cancel()
			cancelled.Store(true)
		}
		return u[0]
	}), search.Options{Workers: 2})
	assert.ErrorIs(t, err, context.Canceled)
	// Counted from the moment cancel has returned, so that the scheduler has no say:
	// each worker may be past its look at the context once.
	assert.LessOrEqual(t, late.Load(), int64(2), "it stops at once")
}

// The budgets that the documentation states.
func TestBudgets(t *testing.T) {
	f := newLauncherLike(16, 1)
	whole := maximise(t, 16, f.Value, search.Options{})
	assert.True(t, whole.Evaluations >= 600 && whole.Evaluations <= 3000, "climbs meet: %d", whole.Evaluations)
	long := maximise(t, 16, f.Value, search.Options{Meet: -1})
	assert.True(t, long.Evaluations >= 5000 && long.Evaluations <= 10000, "%d", long.Evaluations)
	assert.InEpsilon(t, long.Best.Value, whole.Best.Value, 1e-7,
		"both are settled to a step of 2^-24, 6e-8, along a slope of the order of one")
	light := maximise(t, 16, f.Value, search.Light(whole.Best.Point))
	assert.True(t, light.Evaluations >= 600 && light.Evaluations <= 1100, "%d", light.Evaluations)
	assert.Equal(t, whole.Best.Value, light.Best.Value, "the seed is already the maximum")
	quick := maximise(t, 16, f.Value, search.Quick(whole.Best.Point))
	assert.True(t, quick.Evaluations >= 300 && quick.Evaluations <= 1100, "%d", quick.Evaluations)
	assert.Equal(t, whole.Best.Value, quick.Best.Value, "the seed is already the maximum")
	o := search.Quick(whole.Best.Point)
	o.Far = 0
	near := maximise(t, 16, f.Value, o)
	assert.True(t, near.Evaluations >= 60 && near.Evaluations <= 400, "%d", near.Evaluations)
	assert.Equal(t, whole.Best.Value, near.Best.Value, "the seed is already the maximum")
}

func BenchmarkMaximise(b *testing.B) {
	for _, dim := range []int{4, 10, 16, 32} {
		f := newLauncherLike(dim, 1)
		b.Run(fmt.Sprint(dim), func(b *testing.B) {
			n := 0
			for b.Loop() {
				n += maximise(b, dim, f.Value, search.Options{}).Evaluations
			}
			b.ReportMetric(float64(n)/float64(b.N), "evaluations")
		})
		b.Run(fmt.Sprintf("light %d", dim), func(b *testing.B) {
			n := 0
			for b.Loop() {
				n += maximise(b, dim, f.Value, search.Light()).Evaluations
			}
			b.ReportMetric(float64(n)/float64(b.N), "evaluations")
		})
	}
}

// A caller who only asks whether a value is exceeded gets his answer early: what
// is returned exceeds it, and far fewer points are tried. Where nothing exceeds it
// the search is the whole one.
func TestEnough(t *testing.T) {
	f := newLauncherLike(16, 5)
	whole := maximise(t, 16, f.Value, search.Options{})
	half := 0.5 * whole.Best.Value
	early := maximise(t, 16, f.Value, search.Options{Enough: &half})
	assert.Greater(t, early.Best.Value, half)
	assert.Equal(t, early.Best.Value, early.Maxima[0].Value)
	assert.Less(t, early.Evaluations, whole.Evaluations/4)
	above := whole.Best.Value
	assert.Equal(t, whole, maximise(t, 16, f.Value, search.Options{Enough: &above}))
}

// A quick search whose seed lies on a lower hill finds the higher one in the opposite corner, since it goes far away; one that may not
// stays on its seed's hill. The function is a sum of two hills.
func TestAQuickSearchLeavesItsSeed(t *testing.T) {
	const dim = 12
	hills := func(u []float64) float64 {
		low, high := 0.0, 0.0
		for _, x := range u {
			low += (x - 0.1) * (x - 0.1)
			high += (x - 1) * (x - 1)
		}
		return math.Exp(-4*low) + 3*math.Exp(-4*high)
	}
	seed, top := make([]float64, dim), make([]float64, dim)
	for i := range seed {
		seed[i], top[i] = 0.1, 1
	}
	far := maximise(t, dim, hills, search.Quick(seed))
	assert.InEpsilon(t, hills(top), far.Best.Value, 1e-9, "a corner is met exactly")
	o := search.Quick(seed)
	o.Far = 0
	near := maximise(t, dim, hills, o)
	assert.InEpsilon(t, hills(seed), near.Best.Value, 1e-3, "the seed's hill, whose top the other one moves a little")
	assert.Less(t, near.Evaluations, far.Evaluations)
}

// A glimpse values the seeds and a handful of points; at a fiftieth of the effort it is a search still.
func TestAGlimpseIsAHandfulOfPoints(t *testing.T) {
	const dim = 8
	seed := make([]float64, dim)
	seed[0] = 1
	at := func(strength float64) search.Result {
		r, err := search.Maximise(search.WithStrength(t.Context(), strength), dim, plain(func(u []float64) float64 { return u[0] }),
			search.Options{Seeds: [][]float64{seed}})
		require.NoError(t, err)
		return r
	}
	glimpse := at(0.00005)
	assert.LessOrEqual(t, glimpse.Evaluations, 12)
	assert.InDelta(t, 1, glimpse.Best.Value, 0, "the seed is among them")
	assert.Greater(t, at(0.02).Evaluations, 2*glimpse.Evaluations)
}

// A hill that no corner leads to, a slender one with 2.5 times as much, is found from a seed on its foot, though all climbs from corners
// come to the same; they then do not count as having met. Without a seed they do, and miss it: that is what seeds are for.
func TestClimbsThatMeetAreHeldToTheSeeds(t *testing.T) {
	const dim = 14
	f := plain(func(u []float64) float64 {
		slope := 1.0
		for i, x := range u {
			slope -= 0.02 * float64(i%3+1) * math.Abs(x-float64(i%2))
		}
		off := (u[0]-0.9)*(u[0]-0.9) + (u[1]-0.4)*(u[1]-0.4)
		return max(slope, 2.5*slope*math.Exp(-off/0.002))
	})
	seed := make([]float64, dim)
	for i := range seed {
		seed[i] = 0.5
	}
	seed[0], seed[1] = 0.87, 0.42
	alone, err := search.Maximise(context.Background(), dim, f, search.Options{})
	require.NoError(t, err)
	require.True(t, alone.Met)
	with, err := search.Maximise(context.Background(), dim, f, search.Options{Seeds: [][]float64{seed}})
	require.NoError(t, err)
	assert.False(t, with.Met)
	assert.Greater(t, with.Best.Value, 2*alone.Best.Value)
}
