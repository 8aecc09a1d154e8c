package wave

import (
	"math"

	"puffproof/pneumatics/flow"
)

// Ahead is what the front of the projectile meets.
type Ahead uint8

// The kinds of air ahead.
const (
	// AheadTube is the air between the projectile and the muzzle, as a tube of
	// its own that ends open, one end correction beyond the muzzle.
	AheadTube Ahead = iota
	// AheadEndless is still air in an endless bore: a shock or a simple wave runs
	// ahead and never comes back.
	AheadEndless
	// AheadPressure is a constant pressure, Options.BackPressure.
	AheadPressure
)

// projectile is the moving body between two tubes.
type projectile struct {
	present       bool
	mass, area    float64
	weight        float64 // along the bore, against the motion [N]
	breakaway     float64 // force to start from rest now [N]
	restart       float64 // the same after the first move [N]
	sliding       float64
	leak          flow.Restriction
	overTube      bool // the gap leads back from the chamber's rear end, along the tube
	behind, ahead *tube
	front         Ahead
	back          float64 // AheadPressure: [Pa]
	still         State   // AheadEndless

	x, v  float64
	last  float64 // acceleration at the end of the last step [m/s2]
	held  bool
	sign  float64 // direction of motion
	rests int
}

// pushes computes the pressures on the projectile that moves at v, sets the
// fluxes of the cells at it and books what passes the gap.
func (s *system) pushes(v float64) {
	b := &s.shot
	base := s.g.pistonPressure(inward(b.behind.right, true), -v)
	var front float64
	switch b.front {
	case AheadTube:
		front = s.g.pistonPressure(b.ahead.left, v)
	case AheadEndless:
		front = s.g.pistonPressure(b.still, v)
	default:
		front = b.back
	}
	s.flow.base, s.flow.front = base, front
	var q, h, u float64
	if b.overTube {
		s.gapBack()
	} else {
		q, h, u = s.gap(base, front)
		s.flow.leak = q
	}
	t := b.behind
	n := t.n
	t.fm[n], t.fq[n], t.fe[n] = q, base*b.area+q*u, base*b.area*v+q*h
	if t := b.ahead; t != nil {
		t.fm[0], t.fq[0], t.fe[0] = q, front*b.area+q*u, front*b.area*v+q*h
		return
	}
	s.flow.mass += q
	s.flow.energy += q * h
}

// gap gives the flow past the projectile [kg/s], its total enthalpy [J/kg] and
// its velocity [m/s]: that of the cell it comes from.
func (s *system) gap(base, front float64) (q, h, u float64) {
	b := &s.shot
	if b.leak.IsZero() {
		return 0, 0, 0
	}
	from, t2 := b.behind.right, s.ta
	t1 := from.Pressure / (s.g.R * from.Density)
	if b.ahead != nil {
		t2 = b.ahead.left.Pressure / (s.g.R * b.ahead.left.Density)
	}
	q = b.leak.MassFlow(s.g.Gas, base, t1, front, t2)
	t := t1
	u = from.Velocity
	if q < 0 {
		t, u = t2, 0
		if b.ahead != nil {
			u = b.ahead.left.Velocity
		}
	}
	return q, s.g.cp*t + 0.5*u*u, u
}

// gapBack books what escapes between tube and projectile, out of the chamber's rear
// end to the outside.
func (s *system) gapBack() {
	if b := &s.shot; !b.leak.IsZero() {
		q, h := s.sideHole(b.behind, b.leak, s.pa, s.ta)
		s.flow.leak = q
		s.flow.mass += q
		s.flow.energy += h
	}
}

// release starts the motion where the net force exceeds what holds it.
func (b *projectile) release(base, front float64) {
	if !b.present || !b.held {
		return
	}
	net := (base-front)*b.area - b.weight
	// Without friction the rounding of two equal pressures must not count.
	if math.Abs(net) <= max(b.breakaway, 1e-9*base*b.area) {
		return
	}
	if net < 0 && b.x <= 0 {
		return // at the rear stop nothing moves backwards
	}
	b.held = false
	b.sign = math.Copysign(1, net)
	b.breakaway = b.restart
}

// acceleration of the projectile [m/s2]; zero while it is held.
func (b *projectile) acceleration(base, front float64) float64 {
	if !b.present || b.held {
		return 0
	}
	return ((base-front)*b.area - b.weight - b.sign*b.sliding) / b.mass
}

// bookWork settles the work of a step between the gas and the projectile.
func (s *system) bookWork(dt, v0, v1 float64, first, second *flows) {
	b := &s.shot
	if !b.present {
		return
	}
	h := 0.5 * dt
	mean := 0.5 * (v0 + b.v)
	settle := func(t *tube, cell int, p0, p1, sign float64) {
		booked := h * b.area * (p0*v0 + p1*v1)
		given := h * b.area * (p0 + p1) * mean
		t.energy[cell] += sign * (booked - given)
	}
	settle(b.behind, b.behind.n-1, first.base, second.base, 1)
	if b.ahead != nil {
		settle(b.ahead, 0, first.front, second.front, -1)
	} else {
		s.book.back += h * b.area * (first.front + second.front) * mean
	}
	if b.held {
		return
	}
	way := dt * mean
	s.book.gravity += b.weight * way
	s.book.friction += b.sign * b.sliding * way
}

// settle stops a projectile whose motion has just reversed, or that is back at
// its rearmost seat. What it still had goes to the book.
func (b *projectile) settle(book *account) {
	if !b.present || b.held {
		return
	}
	atRear := b.x <= 0 && b.v < 0
	if b.sign*b.v >= 0 && !atRear {
		return
	}
	book.impact += 0.5 * b.mass * b.v * b.v
	b.v = 0
	b.held = true
	b.rests++
}

// kinetic energy [J].
func (b *projectile) kinetic() float64 { return 0.5 * b.mass * b.v * b.v }
