package search

import (
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// elite is the number of best corners that mixed points are made from.
const elite = 8

// sample evaluates low-discrepancy points, then mixed points.
func (r *run) sample() {
	if r.dim == 0 {
		return
	}
	// In many dimensions points spread evenly seldom lie near a maximum: of nine random
	// launchers they improved on the corners in one, mixed points in five.
	n := r.o.PerCoordinate * r.dim
	r.evaluate(halton(min(max(n/4, r.o.LeastPoints), r.left*2/5), r.dim, r.o.Scramble))
	r.evaluate(r.mixed(min(n, r.left/4)))
}

// halton gives n points of the Halton sequence, scrambled with a fixed seed, so
// that equal arguments give equal points. Method: Owen, A. B. (2017), "A
// randomized Halton algorithm in R", arXiv:1706.02808, as in gonum.
func halton(n, dim int, scramble uint64) [][]float64 {
	if n <= 0 {
		return nil
	}
	source := rand.NewPCG(scramble, 2)
	batch := mat.NewDense(n, dim, nil)
	samplemv.Halton{
		Kind: samplemv.Owen,
		Q:    distmv.NewUnitUniform(dim, nil),
		Src:  source,
	}.Sample(batch)
	points := make([][]float64, n)
	for k := range points {
		points[k] = slices.Clone(batch.RawRowView(k))
		for i, u := range points[k] {
			points[k][i] = min(max(u, 0), 1) // a last digit may round past the end
		}
	}
	return points
}

// mixed gives n points with one to three coordinates inside the box and the
// others at an end: those of the best corners in turn, and every second time
// those of a random corner. Greatest values mostly lie at such points.
func (r *run) mixed(n int) [][]float64 {
	if n <= 0 {
		return nil
	}
	best(r.corner)
	var base [][]float64
	for _, m := range r.corner {
		if len(base) < elite && !slices.ContainsFunc(base, func(b []float64) bool { return slices.Equal(b, m.Point) }) {
			base = append(base, m.Point)
		}
	}
	inside := halton(n, r.dim, r.o.Scramble+1)
	random := rand.New(rand.NewPCG(r.o.Scramble, 3))
	points := make([][]float64, n)
	for k := range points {
		u := make([]float64, r.dim)
		if k%2 == 0 && len(base) > 0 {
			copy(u, base[k/2%len(base)])
		} else {
			for i := range u {
				u[i] = float64(random.IntN(2))
			}
		}
		for range 1 + k%3 {
			i := random.IntN(r.dim)
			u[i] = inside[k][i]
		}
		points[k] = u
	}
	return points
}
