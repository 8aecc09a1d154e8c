package worst

import (
	"context"
	"math"
)

// edgeGuess is where the edge of a stuck projectile is expected: the logarithm of the start pressure, as a
// fraction of the highest, as a sum of what each coordinate makes of it alone, straight
// between its ends and the middle of the box.
type edgeGuess struct {
	middle float64
	ends   [][2]float64 // more than in the middle
}

// of is the expected edge at u, as a fraction of the highest start pressure; 0: nothing is expected.
func (g *edgeGuess) of(u []float64) float64 {
	if g == nil {
		return 0
	}
	sum := g.middle
	for i, x := range u {
		if x < 0.5 {
			sum += g.ends[i][0] * (1 - 2*x)
		} else {
			sum += g.ends[i][1] * (2*x - 1)
		}
	}
	return math.Exp(sum)
}

// guessEdge finds the edge in the middle of a box of dim coordinates and at both ends of each; nil: in the middle
// there is none. The error is the context's.
func guessEdge(ctx context.Context, dim int, worker func() *stuck) (*edgeGuess, error) {
	middle := func() []float64 {
		u := make([]float64, dim)
		for i := range u {
			u[i] = 0.5
		}
		return u
	}
	g := &edgeGuess{middle: worker().edgeAt(middle()), ends: make([][2]float64, dim)}
	if math.IsNaN(g.middle) {
		return nil, ctx.Err()
	}
	even := &edgeGuess{middle: g.middle, ends: make([][2]float64, dim)}
	err := SideBySide(dim, func(i int) error {
		s, u := worker(), middle()
		s.guess = even
		for k := range 2 {
			u[i] = float64(k)
			if p := s.edgeAt(u); !math.IsNaN(p) {
				g.ends[i][k] = p - g.middle
			}
		}
		return ctx.Err()
	})
	return g, err
}

// edgeAt is the logarithm of the edge at u, as a fraction of the highest start pressure; NaN: there is none.
func (s *stuck) edgeAt(u []float64) float64 {
	s.full[s.start] = 0
	s.atEdge(u, s.guess.of(u))
	if p := s.full[s.start]; p > 0 && p < 1 {
		return math.Log(p)
	}
	return math.NaN()
}
