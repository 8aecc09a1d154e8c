package flight

import "math"

// Reach is the farthest landing over a range of elevations.
type Reach struct {
	Elevation float64 // [rad]
	Flight    Flight
}

// How the farthest landing is looked for.
const (
	scanStep      = math.Pi / 90 // [rad]
	scanTolerance = 1e-6         // a landing is off by a millionth of its distance: no hump of two degrees is taken for another
	settledWithin = 2e-5         // [rad] of a smooth top: the distance is off by the square of it
)

// Farthest finds the elevation between low and high [rad] at which a throw
// lands farthest ahead (sign = +1) or farthest behind (sign = -1) of the
// muzzle. It scans steps of at most two degrees and settles the best between its
// neighbours by golden section: the distance is smooth and has one hump, or two
// broad ones where the wind carries what goes up.
func Farthest(b Body, a Air, t Throw, low, high, sign float64) Reach {
	f := newFlier(b, a, scanTolerance)
	distance := func(elevation float64) float64 {
		t.Elevation = elevation
		return sign * f.fall(t, math.Inf(1), nil).Landing.X
	}
	steps := max(1, int(math.Ceil((high-low)/scanStep)))
	best, at := math.Inf(-1), low
	width := (high - low) / float64(steps)
	for i := range steps + 1 {
		e := low + width*float64(i)
		if d := distance(e); d > best {
			best, at = d, e
		}
	}
	f.tolerance = tolerance
	best = distance(at)
	if d, e := goldenSection(distance, math.Max(low, at-width), math.Min(high, at+width)); d > best {
		at = e
	}
	t.Elevation = at
	return Reach{Elevation: at, Flight: f.fall(t, math.Inf(1), nil)}
}

// goldenSection finds the top of a hump between l and r, and where it is.
func goldenSection(of func(float64) float64, l, r float64) (top, at float64) {
	const inner = 0.6180339887498949
	m1, m2 := r-inner*(r-l), l+inner*(r-l)
	at1, at2 := of(m1), of(m2)
	for r-l > settledWithin {
		if at1 >= at2 {
			r, m2, at2 = m2, m1, at1
			m1 = r - inner*(r-l)
			at1 = of(m1)
		} else {
			l, m1, at1 = m1, m2, at2
			m2 = l + inner*(r-l)
			at2 = of(m2)
		}
	}
	if at1 >= at2 {
		return at1, m1
	}
	return at2, m2
}
