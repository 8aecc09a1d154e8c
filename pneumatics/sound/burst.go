package sound

import "math"

// Air is the air around the muzzle.
type Air struct {
	Density float64 // [kg/m3]
	Speed   float64 // of sound [m/s]
}

// Burst is what happens at the muzzle as a projectile leaves: the ring that it uncovers,
// 2 pi a v t until it is the whole bore, lets out what is left behind it.
//
// The barrel is a pipe of one bore in which plane waves run, with a pressure Excess all along
// and a speed of the gas that rises from nothing at the breech to the projectile's, as
// Lagrange has it. At its mouth stands the ring, then the open end:
//
//	p_inside - p_outside = (1/2) rho (q'/(rho A_ring))^2,   q' = q - rho A v (1 - 2 v t/a)
//
// q' is what passes the ring: while the projectile is near, part of what comes out fills
// the room that it leaves. The breech is shut: air that a valve still lets in keeps the pressure up and
// what changes less. Linear acoustics and the density of the surroundings: pressures small against
// the ambient one. An assumption of this project; its limits (a barrel that opens at once, a ring
// that opens slowly, a mouth as wide as the bore) are exact and tested.
type Burst struct {
	Air    Air
	Excess float64 // of the pressure behind the projectile over the ambient one [Pa], of either sign
	Speed  float64 // of the projectile [m/s], above zero
	Radius float64 // of the bore [m]
	Length float64 // of a pipe of this bore that holds the air behind the projectile [m]
	Mouth  Mouth
	// Fine is how many steps a passage of sound across a radius has; 0: 16.
	Fine int
}

// Pulse gives how the mass flow out of the muzzle changes from the moment at which the
// projectile leaves.
func (b Burst) Pulse() Pulse {
	const (
		most   = 60000 // steps, found enough for 0.1 m/s in a bore of 50 mm
		rounds = 3     // journeys of a wave that are followed after the ring is open
		calm   = 40    // passages across a radius besides
	)
	fine := b.Fine
	if fine <= 0 {
		fine = 16
	}
	c, a := b.Air.Speed, b.Radius
	opened := a / (2 * b.Speed)
	until := opened + rounds*2*b.Length/c + calm*a/c
	step := max(a/(c*float64(fine)), until/most)
	p := pipe{Burst: b, step: step, opened: opened, area: math.Pi * a * a}
	p.fill()
	out := Pulse{Step: step, Source: make([]float64, 1, int(until/step)+2)}
	last := p.flow
	for t := step; t < until; t += step {
		now := p.next(t)
		out.Source = append(out.Source, (now-last)/step)
		last = now
	}
	return out
}

// pipe is a Burst on its way.
type pipe struct {
	Burst
	step, opened, area float64
	flow               float64   // at the muzzle before it opens [kg/s]
	coming             []float64 // pressure of the waves that reach the mouth, a ring of one journey there and back [Pa]
	at                 int
	mouth              filter
}

// fill lays out the waves at the moment at which the projectile leaves: pressure and
// speed along the pipe as waves to the mouth and from it, which the breech sends back.
func (p *pipe) fill() {
	p.flow = p.Air.Density * p.area * p.Speed
	moving := p.Air.Density * p.Air.Speed * p.Speed
	n := max(2, int(math.Round(2*p.Length/(p.Air.Speed*p.step))))
	p.coming = make([]float64, n)
	for i := range p.coming {
		// Where the wave that arrives then is now: from the mouth back to the breech, and
		// from there, on its way to the breech, to the mouth again.
		x := 1 - 2*(float64(i)+0.5)/float64(n)
		p.coming[i] = 0.5 * (p.Excess + moving*x)
	}
	p.mouth = newFilter(p.Mouth, p.step*p.Air.Speed/p.Radius, p.flow)
}

// next gives the mass flow out of the mouth at t, the end of a step [kg/s].
func (p *pipe) next(t float64) float64 {
	open := min(t/p.opened, 1)
	room := p.flow * (1 - open)                                  // what fills the room behind the projectile
	impedance := p.Air.Speed / p.area                            // of the pipe, pressure over mass flow
	k := 1 / (2 * p.Air.Density * p.area * p.area * open * open) // loss of the ring over the square of what passes it
	wave, z := p.coming[p.at], impedance*(1+p.mouth.b0)          // pressure inside: 2 wave - impedance q
	drive := 2*wave - impedance*p.mouth.s1 - z*room              // z q' + k q'|q'| = drive
	ring := 2 * drive / (z + math.Sqrt(z*z+4*k*math.Abs(drive))) // the root of the sign of drive
	q := room + ring
	p.mouth.take(q)
	p.coming[p.at] = wave - impedance*q // sent back; at the breech it turns without loss
	p.at = (p.at + 1) % len(p.coming)
	return q
}

// AtOnce gives the rate of change of the mass flow [kg/s2] of a barrel of a bore of radius [m] that
// is opened at once: the speed excess/(rho c) of a plane wave within the time in which sound
// crosses the radius.
//
//	dq/dt = rho pi a^2 (dp/(rho c))/(a/c) = pi a dp
//
// No projectile uncovers its bore in that time, so it is an upper end.
func AtOnce(excess, radius float64) float64 { return math.Pi * radius * math.Abs(excess) }
