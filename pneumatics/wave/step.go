package wave

import "math"

// step joins the ends of two tubes of different section that follow each other
// without a part between them. The flow in the joint is steady:
//
//	rho1 u1 A1 = rho2 u2 A2,  cp T1 + u1^2/2 = cp T2 + u2^2/2
//
// into a narrower tube isentropic (with a loss, if the hose has one for its
// entry): a nozzle; into a wider one with the loss of a jet in a sudden enlargement, whose
// back wall feels the pressure of the jet (Borda and Carnot):
//
//	p1 A2 + rho1 u1^2 A1 = p2 A2 + rho2 u2^2 A2
//
// The narrow end may choke: before an enlargement the wide tube then takes what
// comes, its pressure is no longer that of the jet. Source: the waves and the
// nozzle as in Alpher and White, J. Fluid Mech. 3 (1958) 457; the enlargement as in
// manifold models (Winterbone and Pearson, Theory of Engine Manifold Design, 2000;
// both from memory).
type step struct {
	left, right port // the right end of from, the left end of to
	from, to    *tube
	guess       float64 // pressure of the end that gives, last solution [Pa]
	slope       float64 // of the balance there
	back        bool    // the last solution ran back
}

// newStep joins from's right end to to's left end; the losses are those of the
// two ends for gas that enters there from a space [-], see Hose.Entry.
func newStep(g *gas, from, to *tube, leftLoss, rightLoss float64) step {
	a, b := from.area[from.n], to.area[0]
	return step{from: from, to: to,
		left:  port{g: g, area: a, open: true, loss: leftLoss * max(0, 1-a/b)},
		right: port{g: g, area: b, open: true, loss: rightLoss * max(0, 1-b/a)}}
}

// connectStep sets the fluxes of the two ends.
func (s *system) connectStep(b *step) {
	inLeft, inRight := inward(b.from.right, true), b.to.left
	b.left.set(inLeft)
	b.right.set(inRight)
	restLeft, restRight := b.left.side.atWall(-inLeft.Velocity), b.right.side.atWall(-inRight.Velocity)
	back := restRight > restLeft
	if back != b.back {
		b.back, b.guess, b.slope = back, 0, 0
	}
	var l, r through // into the left tube, into the right one
	switch {
	case restLeft == restRight:
		l = through{momentum: restLeft * b.left.area, pressure: restLeft}
		r = through{momentum: restRight * b.right.area, pressure: restRight}
	case back:
		r, l = b.solve(&b.right, &b.left, restRight)
	default:
		l, r = b.solve(&b.left, &b.right, restLeft)
	}
	n := b.from.n
	b.from.fm[n], b.from.fq[n], b.from.fe[n] = -l.mass, l.momentum, -l.energy
	b.to.fm[0], b.to.fq[0], b.to.fe[0] = r.mass, r.momentum, r.energy
}

// solve finds the flow from giver to taker. rest is the pressure of the giver's
// gas at rest.
func (b *step) solve(giver, taker *port, rest float64) (out, in through) {
	widens := taker.area > giver.area
	balance := func(p float64) float64 {
		v, rho, t0, p0 := giver.leaving(p)
		flux := rho * v
		if !widens {
			taker.p, taker.t = p0, t0
			return (taker.solve(taker.in).mass/giver.area - flux) / (giver.side.rho * giver.side.sound)
		}
		m := flux * giver.area
		p2, v2 := taker.accept(m, t0)
		// the pressure that the back wall must have, below that of the jet
		return (p*taker.area + m*v - p2*taker.area - m*v2) / (p * taker.area)
	}
	lowest, own := giver.quickestExit()
	p := lowest
	passes := balance(lowest) >= 0
	switch {
	case !passes:
		p = risingRoot(balance, b.guess, &b.slope, lowest, rest)
	case own:
		p = giver.in.Pressure
	}
	b.guess = p
	out = giver.outflowAt(p)
	v, _, t0, p0 := giver.leaving(p)
	m := -out.mass
	switch {
	case widens:
		p2, v2 := taker.accept(m, t0)
		in = through{momentum: p2*taker.area + m*v2, pressure: p2}
	case passes && own:
		// Faster than sound through a joint that narrows by little: what comes goes on.
		in = through{momentum: p*taker.area + m*v, pressure: p}
	default:
		taker.p, taker.t = p0, t0
		in = taker.solve(taker.in)
	}
	// One flow for both, to the last digit.
	in.mass, in.energy = m, -out.energy
	return out, in
}

// quickestExit is the pressure at which gas leaves at the speed of sound; where it
// already comes faster, that behind a standing normal shock, and own is true
// (NACA Report 1135, equation 93). In closed form: the wave that speeds gas up to its
// own speed of sound is a rarefaction,
//
//	a/a0 = 2/(gamma+1) (1 + (gamma-1)/2 u0/a0)
func (o *port) quickestExit() (p float64, own bool) {
	g := o.g.g
	m := -o.in.Velocity / o.side.sound
	if m >= 1 {
		return o.in.Pressure * (2*g*m*m - (g - 1)) / (g + 1), true
	}
	y := 2 / (g + 1) * (1 + 0.5*(g-1)*m)
	return o.in.Pressure * math.Pow(y, 2*g/(g-1)), false
}

// accept gives static pressure and velocity with which a mass flow of stagnation
// temperature t0 enters the tube: as the wave into the tube asks, at most at the
// speed of sound.
func (o *port) accept(mass, t0 float64) (p, v float64) {
	g := o.g
	flux := mass / o.area
	// At the speed of sound cp T0 = cp T + a^2/2.
	star := 2 * t0 / (g.g + 1)
	sonic := math.Sqrt(g.g * g.R * star)
	low := flux * g.R * star / sonic
	if o.velocityIn(low) >= sonic {
		return low, sonic
	}
	low = max(low, o.side.atWall(-o.in.Velocity))
	p = o.guess
	if !(p > low) {
		p = max(low, o.in.Pressure)
	}
	high := math.Inf(1)
	for range 100 {
		// cp T + v^2/2 = cp T0 with v = k T, k = flux R/p
		k := flux * g.R / p
		root := math.Sqrt(1 + 2*k*k*t0/g.cp)
		v = k * 2 * t0 / (1 + root)
		wave, slope := o.side.wave(p)
		excess := o.in.Velocity + wave - v
		if math.Abs(excess) < 1e-12*o.side.sound {
			break
		}
		if excess < 0 {
			low = p
		} else {
			high = p
		}
		// v falls with p: dv/dp = -v/(p root)
		next := p - excess/(slope+v/(p*root))
		if !(next > low && next < high) {
			next = 0.5 * (low + min(high, 4*p))
		}
		if next == p {
			break
		}
		p = next
	}
	o.guess = p
	return p, v
}
