package flight

import "math"

// Reach is the farthest landing over a range of elevations.
type Reach struct {
	Elevation float64 // [rad]
	Flight    Flight
}

// Farthest finds the elevation between low and high [rad] at which a throw
// lands farthest ahead (sign = +1) or farthest behind (sign = -1) of the
// muzzle. It scans steps of at most half a degree and settles the best by golden
// section; the distance is smooth with one hump in each sense.
func Farthest(b Body, a Air, t Throw, low, high, sign float64) Reach {
	distance := func(elevation float64) float64 {
		t.Elevation = elevation
		return sign * Fly(b, a, t, 0).Landing.X
	}
	steps := max(1, int(math.Ceil((high-low)/(math.Pi/360))))
	best, at := math.Inf(-1), low
	width := (high - low) / float64(steps)
	for i := range steps + 1 {
		e := low + width*float64(i)
		if d := distance(e); d > best {
			best, at = d, e
		}
	}
	l, r := math.Max(low, at-width), math.Min(high, at+width)
	const inner = 0.6180339887498949 // golden section
	for r-l > 1e-6 {
		m1, m2 := r-inner*(r-l), l+inner*(r-l)
		if distance(m1) >= distance(m2) {
			r = m2
		} else {
			l = m1
		}
	}
	if d := distance((l + r) / 2); d > best {
		at = (l + r) / 2
	}
	t.Elevation = at
	return Reach{Elevation: at, Flight: Fly(b, a, t, 0)}
}
