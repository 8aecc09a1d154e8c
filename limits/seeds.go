package limits

import "slices"

// seedsFor hands the worst case of normal operation on to a question with the same
// coordinates, or with further ones, which start in their middle; none where there
// is no worst case.
func seedsFor(l *Launcher, normal *worst, q question) [][]float64 {
	if normal == nil || !normal.result.Found {
		return nil
	}
	if newBox(l, q).dim == normal.box.dim {
		return [][]float64{normal.result.Best.Point}
	}
	var out []float64
	out = append(out, normal.result.Best.Point...)
	for range q.extra {
		out = append(out, 0.5)
	}
	return [][]float64{out}
}

// startSeed is a point of the box with its start pressure apart [Pa gauge].
type startSeed struct {
	u     []float64
	start float64
}

// in is the seed as a point of a box: at its own start pressure, or at the box's
// highest.
func (s startSeed) in(b *box) []float64 {
	u := slices.Clone(s.u)
	u[b.start] = min(1, s.start/b.q.startMax)
	return u
}
