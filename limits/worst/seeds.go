package worst

import (
	"slices"

	"puffproof/limits/launcher"
)

// SeedsFor hands the best maxima of normal operation on to another question; coordinates
// that are new start in their middle. None where there is no worst case.
func SeedsFor(l *launcher.Launcher, normal *Case, q Question) [][]float64 {
	if normal == nil || !normal.Result.Found {
		return nil
	}
	const most = 4
	b := NewBox(l, q)
	seeds := [][]float64{b.Carry(normal.Box.Labels, normal.Result.Best.Point, 0.5)}
	for _, m := range normal.Result.Maxima[:min(most, len(normal.Result.Maxima))] {
		seeds = append(seeds, b.Carry(normal.Box.Labels, m.Point, 0.5))
	}
	return seeds
}

// StartSeed is a point of a box with its start pressure apart [Pa gauge].
type StartSeed struct {
	Labels []string // of the box's coordinates
	U      []float64
	Start  float64
}

// Fits tells whether the seed's box had all the coordinates of b: a search over it was
// one over b and more.
func (s StartSeed) Fits(b *Box) bool {
	return !slices.ContainsFunc(b.Labels, func(label string) bool { return !slices.Contains(s.Labels, label) })
}

// In is the seed as a point of a box: at its own start pressure, or at the box's
// highest.
func (s StartSeed) In(b *Box) []float64 {
	u := b.Carry(s.Labels, s.U, 0.5)
	if b.Start >= 0 {
		u[b.Start] = min(1, s.Start/b.Question.StartMax)
	}
	return u
}
