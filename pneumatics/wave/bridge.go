package wave

import "math"

// bridge joins two tubes' ends through a valve: the hose's right end and the
// barrel's breech. Gas comes to the valve at the stagnation state of the end it
// leaves and enters the other tube as from a space of that state. Where the end
// it leaves chokes first, the other tube takes what comes.
type bridge struct {
	hose, barrel port
	from, to     *tube
	path         int
	guess        float64 // pressure of the end that gives, last solution [Pa]
	slope        float64 // of the balance there [1/Pa]
	back         bool    // the last solution ran back
}

// connectEnds sets the fluxes of the two ends.
func (s *system) connectEnds(b *bridge, t float64) {
	law := s.valves[b.path].law(&s.g, t)
	b.hose.law, b.barrel.law = law, law
	inHose, inBarrel := inward(b.from.right, true), b.to.left
	b.hose.set(inHose)
	b.barrel.set(inBarrel)
	restHose, restBarrel := b.hose.side.atWall(-inHose.Velocity), b.barrel.side.atWall(-inBarrel.Velocity)
	back := restBarrel > restHose
	if back != b.back {
		b.back, b.guess, b.slope = back, 0, 0
	}
	var h, l through // into the hose, into the barrel
	switch {
	case law.IsZero() || restHose == restBarrel:
		h = through{momentum: restHose * b.hose.area, pressure: restHose}
		l = through{momentum: restBarrel * b.barrel.area, pressure: restBarrel}
	case back:
		l, h = b.solve(&b.barrel, &b.hose, restBarrel, restHose)
	default:
		h, l = b.solve(&b.hose, &b.barrel, restHose, restBarrel)
	}
	n := b.from.n
	b.from.fm[n], b.from.fq[n], b.from.fe[n] = -h.mass, h.momentum, -h.energy
	b.to.fm[0], b.to.fq[0], b.to.fe[0] = l.mass, l.momentum, l.energy
}

// solve finds the pressure at the giving end, between that of its gas at rest
// and that of the taker's, so that both pass one mass flow.
func (b *bridge) solve(giver, taker *port, rest, low float64) (out, in through) {
	excess := func(p float64) float64 {
		v, rho, t0, p0 := giver.leaving(p)
		taker.p, taker.t, taker.given = p0, t0, 0
		in = taker.solve(taker.in)
		return rho*v*giver.area - in.mass
	}
	// The lowest pressure that a subsonic exit can have; a supersonic one keeps its own.
	floor := giver.sonicPressure(max(low, 1e-3*rest))
	p := floor
	if most := excess(floor); most > 0 {
		p = risingRoot(func(p float64) float64 { return -excess(p) / most }, b.guess, &b.slope, floor, rest)
	}
	out = giver.outflowAt(p)
	b.guess = p
	// One flow for both, to the last digit; where the giver chokes it is less than
	// the valve would pass.
	_, _, t0, p0 := giver.leaving(p)
	taker.p, taker.t, taker.given = p0, t0, -out.mass
	in = taker.solve(taker.in)
	in.energy = -out.energy
	in.mass = -out.mass
	return out, in
}

// sonicPressure is the pressure at which gas leaves just at the speed of sound,
// not below low; that of the gas itself where it already is faster.
func (o *port) sonicPressure(low float64) float64 {
	if -o.in.Velocity >= o.side.sound {
		return o.in.Pressure
	}
	mach := func(p float64) float64 {
		v, rho, _, _ := o.leaving(p)
		return v/math.Sqrt(o.g.g*p/rho) - 1
	}
	if mach(low) <= 0 {
		return low
	}
	high := o.side.atWall(-o.in.Velocity)
	for range 60 {
		mid := 0.5 * (low + high)
		if mach(mid) > 0 {
			low = mid
		} else {
			high = mid
		}
		if high-low < 1e-12*high {
			break
		}
	}
	return high
}
