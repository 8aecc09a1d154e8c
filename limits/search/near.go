package search

import (
	"math"
	"math/rand/v2"
	"slices"
)

// near climbs from the best seeds, or without any from where the screening points.
func (r *run) near() (found []Maximum, enough bool) {
	if len(r.seeds) > 0 && r.seeds[0].Value == 0 { // nothing happens there: climbs would not move either
		return nil, false
	}
	start := undefinedValue
	var from []Maximum
	for _, s := range r.seeds {
		if start = r.seeds[0].Value; s.Value >= start-gained*math.Abs(start) {
			from = addApart(from, s, r.o.Near, float64(r.dim)/8)
		}
	}
	if len(from) == 0 {
		r.screen()
		from = r.pointed()
	}
	first := (*climber).sweeps
	if len(r.seeds) > 0 {
		first = (*climber).sweepsNear
	}
	ms := r.sweepers(from, first)
	for n := r.o.Near; r.usable(ms) && n < r.o.Far; n += r.o.Near {
		size := math.Abs(ms[0].Value)
		if r.enough() || n > r.o.Away*r.o.Near && ms[0].Value-start <= gained*size {
			return ms, true
		}
		start = ms[0].Value + (beyond-gained)*size
		away := r.farFrom(ms[0], n)
		if n == r.o.Near && r.o.Away > 1 { // a question of its own
			away = r.designed(nil, 2)
		}
		ms = append(r.sweepers(away, (*climber).sweeps), ms...)
		best(ms)
	}
	return ms, r.usable(ms)
}

// usable tells that climbs left the level on which nothing happens, 0, and met nothing undefined.
func (r *run) usable(ms []Maximum) bool { return r.undef == 0 && len(ms) > 0 && ms[0].Value != 0 }

// farFrom gives two starts that differ from a maximum in about half of the coordinates, each the better of
// some.
func (r *run) farFrom(m Maximum, stream int) []Maximum {
	const some = 4
	random := rand.New(rand.NewPCG(r.o.Scramble, uint64(6+stream)))
	var out []Maximum
	for range 2 {
		var points [][]float64
		for range some {
			u := slices.Clone(m.Point)
			for i := range u {
				if random.IntN(2) == 0 {
					u[i] = 1 - math.Round(u[i])
				}
			}
			points = append(points, u)
		}
		r.left = math.MaxInt
		top := Maximum{Point: points[0], Value: undefinedValue}
		for k, v := range r.evaluate(points) {
			if v > top.Value {
				top = Maximum{Point: points[k], Value: v}
			}
		}
		out = append(out, top)
	}
	return out
}
