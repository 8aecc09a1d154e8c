package worst

import (
	"slices"

	"puffproof/limits/launcher"
)

// SeedsFor hands the worst case of normal operation on to a question with the same
// coordinates, or with further ones, which start in their middle; none where there
// is no worst case.
func SeedsFor(l *launcher.Launcher, normal *Case, q Question) [][]float64 {
	if normal == nil || !normal.Result.Found {
		return nil
	}
	if NewBox(l, q).Dim == normal.Box.Dim {
		return [][]float64{normal.Result.Best.Point}
	}
	var out []float64
	out = append(out, normal.Result.Best.Point...)
	for range q.Extra {
		out = append(out, 0.5)
	}
	return [][]float64{out}
}

// StartSeed is a point of the box with its start pressure apart [Pa gauge].
type StartSeed struct {
	U     []float64
	Start float64
}

// In is the seed as a point of a box: at its own start pressure, or at the box's
// highest.
func (s StartSeed) In(b *Box) []float64 {
	u := slices.Clone(s.U)
	u[b.Start] = min(1, s.Start/b.Question.StartMax)
	return u
}
