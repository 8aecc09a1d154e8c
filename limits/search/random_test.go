package search_test

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"puffproof/limits/search"
)

// launcherLike is a random function of the kind that the search is made for: a
// product with one factor per coordinate, most of them monotone, some humped,
// some in steps, and a few factors that jump where a weighted sum of two to four
// coordinates passes a threshold, as the energy does where one more hop fits
// into the travel. Invented data.
type launcherLike struct {
	factors []factor
	jumps   []jump
}

type factor struct {
	kind       int // 0 to 2: monotone, 3: hump, 4: steps
	a, c, w, n float64
}

type jump struct {
	at        []int
	weight    []float64
	threshold float64
	drop      float64
}

func newLauncherLike(dim int, seed uint64) launcherLike {
	r := rand.New(rand.NewPCG(seed, 0))
	var f launcherLike
	for range dim {
		f.factors = append(f.factors, factor{
			kind: r.IntN(5),
			a:    2 * (r.Float64() - 0.5),
			c:    1.2*r.Float64() - 0.1,
			w:    0.08 + 0.5*r.Float64(),
			n:    float64(2 + r.IntN(5)),
		})
	}
	for range r.IntN(4) {
		j := jump{threshold: 0.2 * (r.Float64() - 0.5), drop: 0.2 + 0.6*r.Float64()}
		for range min(dim, 2+r.IntN(3)) {
			i, w := r.IntN(dim), 2*r.Float64()-1
			j.at = append(j.at, i)
			j.weight = append(j.weight, w)
			j.threshold += w * r.Float64()
		}
		f.jumps = append(f.jumps, j)
	}
	return f
}

func (f launcherLike) Value(u []float64) float64 {
	product := 1.0
	for i, g := range f.factors {
		x := u[i]
		switch g.kind {
		case 3:
			product *= 0.5 + math.Exp(-(x-g.c)*(x-g.c)/(g.w*g.w))
		case 4:
			product *= math.Exp(g.a * math.Floor(g.n*x) / g.n * (1 - 0.3*x))
		default:
			product *= math.Exp(g.a * x * (1 + g.w*x))
		}
	}
	for _, j := range f.jumps {
		sum := 0.0
		for k, i := range j.at {
			sum += j.weight[k] * u[i]
		}
		if sum > j.threshold {
			product *= j.drop
		}
	}
	return product
}

// bestOfRandom is the greatest value at n points drawn evenly from the box.
func bestOfRandom(f search.Objective, dim, n int, seed uint64) (float64, []float64) {
	r := rand.New(rand.NewPCG(seed, 7))
	u := make([]float64, dim)
	top, at := math.Inf(-1), make([]float64, dim)
	for range n {
		for i := range u {
			u[i] = r.Float64()
		}
		if v := f.Value(u); v > top {
			top = v
			copy(at, u)
		}
	}
	return top, at
}

// The worst case never loses to the best of 2000 random launchers, in six
// dimensions and more, which every design has. No tolerance. When the search was
// made it lost to none of 46000 such functions.
func TestNeverLosesToRandomPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dim := rapid.IntRange(6, 20).Draw(t, "dim")
		seed := rapid.Uint64().Draw(t, "function")
		f := newLauncherLike(dim, seed)
		r := maximise(t, dim, f.Value, search.Options{})
		random, at := bestOfRandom(f, dim, 2000, seed+1)
		if r.Best.Value < random {
			t.Fatalf("search %.12g at %v, random %.12g at %v", r.Best.Value, r.Best.Point, random, at)
		}
	})
}

// In fewer dimensions 2000 random points are dense, and with slanted jumps the
// best piece of a function can be a sliver of less than a thousandth of the box,
// which no search meets for certain. When the search was made it lost 3 times in
// 50000. Here, on fixed functions, at most once in 1000: never in the first 100.
// PUFFPROOF_LONG=1 tries 1000.
func TestRarelyLosesInFewDimensions(t *testing.T) {
	functions := 8
	if os.Getenv("PUFFPROOF_MORE") != "" {
		functions = 20
	}
	if os.Getenv("PUFFPROOF_LONG") != "" {
		functions = 200
	}
	lost := 0
	for dim := 1; dim <= 5; dim++ {
		for s := range uint64(functions) {
			f := newLauncherLike(dim, s)
			r := maximise(t, dim, f.Value, search.Options{})
			if random, _ := bestOfRandom(f, dim, 2000, s+1); random > r.Best.Value {
				lost++
			}
		}
	}
	assert.LessOrEqual(t, lost, 5*functions/1000)
}

// The short search starts from the maximum of a function like the one asked:
// it never loses to 2000 random points either, nor to its seed.
func TestLightNeverLosesToRandomPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dim := rapid.IntRange(8, 20).Draw(t, "dim")
		seed := rapid.Uint64().Draw(t, "function")
		scale := rapid.Float64Range(0.9, 1.1).Draw(t, "scale")
		f := newLauncherLike(dim, seed)
		near := f
		near.factors = append([]factor(nil), f.factors...)
		for i := range near.factors {
			near.factors[i].a *= scale
			near.factors[i].c *= scale
		}
		whole := maximise(t, dim, near.Value, search.Options{})
		r := maximise(t, dim, f.Value, search.Light(whole.Best.Point))
		random, _ := bestOfRandom(f, dim, 2000, seed+1)
		assert.GreaterOrEqual(t, r.Best.Value, random)
		assert.GreaterOrEqual(t, r.Best.Value, f.Value(whole.Best.Point))
		assert.LessOrEqual(t, r.Evaluations, 1600)
		q := maximise(t, dim, f.Value, search.Quick(whole.Best.Point))
		assert.GreaterOrEqual(t, q.Best.Value, random, "quick")
		assert.GreaterOrEqual(t, q.Best.Value, f.Value(whole.Best.Point), "quick")
		assert.LessOrEqual(t, q.Evaluations, 1600+12*(200+30*dim), "its own, and what each climb may cost")
	})
}
