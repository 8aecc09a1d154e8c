package search

import (
	"math"
	"math/rand/v2"
	"slices"
)

// near climbs from the best seeds, or without any from where the screening points; then in rounds from far away, at first from a
// design, until two of them and the last have brought nothing new.
func (r *run) near() (found []Maximum, enough bool) {
	if len(r.seeds) > 0 && r.seeds[0].Value == 0 { // nothing happens there: climbs would not move either
		return nil, false
	}
	var from []Maximum
	for _, s := range r.seeds {
		if top := r.seeds[0].Value; s.Value >= top-alike*math.Abs(top) {
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
	ms, start := r.sweepers(from, first), undefinedValue
	for round := range r.o.Far {
		size := math.Abs(ms[0].Value)
		if !r.usable(ms) || r.enough() || round >= 2 && ms[0].Value-start <= beyond*size {
			break
		}
		start = ms[0].Value
		away := r.farFrom(ms[0], round)
		if round == 0 {
			away = r.designed(nil, 2)
		}
		ms = append(r.sweepers(away, (*climber).sweeps), ms...)
		best(ms)
	}
	r.met = r.o.Far > 0 && together(ms)
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
		if tried := ranked(points, r.evaluate(points)); len(tried) > 0 {
			out = append(out, tried[0])
		}
	}
	return out
}
