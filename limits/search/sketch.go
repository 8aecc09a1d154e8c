package search

import "math/rand/v2"

// sketch climbs from the best seeds, and from what is scattered around the best of them until that brings nothing
// twice. Where that led well above the seeds, they were not near a maximum: then from far away too, and where that
// finds more, a sketch is not enough.
func (r *run) sketch() (ms []Maximum, enough bool) {
	const near = 1.1
	left := r.left
	r.left = unbounded
	defer func() { r.left = left }()
	if len(r.seeds) == 0 || r.seeds[0].Value == 0 { // nothing happens there
		return nil, false
	}
	rounds := r.o.Far
	if ms = r.seeds; rounds == 0 {
		if ms = r.sketchNear(); ms[0].Value > near*r.seeds[0].Value {
			rounds = 2
		}
	}
	if r.enough() {
		return ms, r.usable(ms)
	}
	top := ms[0].Value
	for round := range rounds {
		ms = append(r.sweepers(r.farFrom(ms[0], round), (*climber).sweeps), ms...)
		best(ms)
	}
	return ms, r.usable(ms) && ms[0].Value <= (1+beyond)*top
}

// sketchNear climbs from the best seeds and from what is scattered around the best of them.
func (r *run) sketchNear() (ms []Maximum) {
	var from []Maximum
	for _, s := range r.seeds {
		from = addApart(from, s, 3, 1.5)
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
	return ms
}
