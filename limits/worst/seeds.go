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
	return append(seeds, b.OtherHills(seeds[0])...)
}

// Hills are points from which each kind of shot is climbed to (OtherHills), in the middle of the box else, at its highest start
// pressure: where a projectile is sealed only if it is tight and leaves before the valve shuts only from a place near the muzzle,
// climbs from corners all came to the same, and to two fifths of the hardest shot.
func (b *Box) Hills() [][]float64 {
	u := b.Carry(nil, nil, 0.5)
	if b.Start >= 0 {
		u[b.Start] = 1
	}
	return b.OtherHills(u)
}

// OtherHills are points like u where another kind of shot is hardest: pushed right in or just behind the muzzle, tight or
// loose. A change that makes that kind the harder one is not seen from the hill of u.
func (b *Box) OtherHills(u []float64) (out [][]float64) {
	const nearMuzzle = 0.93 // of the travel
	bore, ball := slices.Index(b.Labels, "barrel.bore"), slices.Index(b.Labels, "projectile.diameter")
	if over := slices.Index(b.Labels, "barrel.tube_outer_diameter"); over >= 0 { // its bore is the projectile's
		bore, ball = slices.Index(b.Labels, "projectile.inside_diameter"), over
	}
	for _, seat := range [...]float64{0, nearMuzzle} {
		for _, tight := range [...]float64{0, 1} {
			v := slices.Clone(u)
			for i, x := range map[int]float64{b.Seat: seat, bore: 1 - tight, ball: tight} {
				if i >= 0 {
					v[i] = x
				}
			}
			if !slices.ContainsFunc(append(out, u), func(w []float64) bool { return slices.Equal(v, w) }) {
				out = append(out, v)
			}
		}
	}
	return out
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
