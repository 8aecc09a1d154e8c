package search

import "math/rand/v2"

// sketch climbs from the best seeds, and from what is scattered around the best of them until that brings nothing
// twice; then once from far away.
func (r *run) sketch() (ms []Maximum, enough bool) {
	left := r.left
	r.left = unbounded
	defer func() { r.left = left }()
	if len(r.seeds) == 0 || r.seeds[0].Value == 0 { // nothing happens there
		return nil, false
	}
	var from []Maximum
	for _, s := range r.seeds {
		from = addApart(from, s, 2, float64(r.dim)/8)
	}
	ms = r.sweepers(from, (*climber).sweepsNear)
	random := rand.New(rand.NewPCG(r.o.Scramble, 8))
	for idle := 0; idle < 2 && !r.enough(); idle++ {
		points := r.scattered(ms, r.dim, random)
		top := ms[0].Value
		if up := ranked(points, r.evaluate(points)); len(up) > 0 && up[0].Value > top {
			ms = append(r.sweepers(up[:1], (*climber).sweepsNear), ms...)
			best(ms)
		}
		if ms[0].Value > top*(1+met) {
			idle = -1
		}
	}
	return ms, r.usable(ms)
}
