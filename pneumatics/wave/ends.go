package wave

import (
	"math"

	"puffproof/pneumatics/flow"
)

// A tube's end is described from inside: velocity counts into the tube. The gas
// at the end is joined to what is outside by the wave that runs into the tube,
// so that a boundary never asks for more than the gas can follow.

// inward turns the state at a tube's right end so that velocity counts inward.
func inward(s State, right bool) State {
	if right {
		s.Velocity = -s.Velocity
	}
	return s
}

// pistonPressure is the pressure on a wall at the tube's end that moves at
// speed v into the tube [Pa].
func (g *gas) pistonPressure(in State, v float64) float64 {
	s := sideOf(g.g, in)
	return s.atWall(v - in.Velocity)
}

// port joins a tube's end to a space at rest through a restriction.
//
// Inflow: mass flow by the restriction's law from the space's pressure to the
// static pressure at the end, but no more than an open end would take (gains); its
// total enthalpy is that of the space; it arrives at most at the speed of sound. Outflow: the law acts from the stagnation state at the
// end to the space's pressure. The end's pressure is found so that the velocity
// agrees with the wave into the tube.
type port struct {
	g    *gas
	area float64
	law  flow.Restriction
	open bool    // an open end: no law, isentropic inlet, outflow at the space's pressure
	loss float64 // of an open end's inlet: loss factor [-], see Hose.Entry
	p, t float64 // of the space: pressure [Pa], temperature [K]
	// given rules the flow in place of the law where it is above zero [kg/s].
	given float64

	in   State
	side side

	guess      float64 // end pressure of the last solution [Pa]
	slope      float64 // of the residual there [1/Pa]; 0: not known
	wasOutflow bool
}

// through is what passes a port, into the tube, per second.
type through struct {
	mass     float64 // [kg/s]
	momentum float64 // with the pressure on the end's section [N]
	energy   float64 // [W]
	pressure float64 // static, at the end [Pa]
}

// solve finds the flow for the state at the tube's end.
func (o *port) solve(in State) through {
	o.set(in)
	rest := o.side.atWall(-in.Velocity) // pressure of the gas brought to rest
	switch {
	case (o.law.IsZero() && !o.open) || rest == o.p:
		return through{momentum: rest * o.area, pressure: rest}
	case rest < o.p:
		if o.wasOutflow {
			o.guess, o.wasOutflow = 0, false
		}
		o.guess = risingRoot(func(p float64) float64 { return -o.inflow(p) }, o.guess, &o.slope, max(rest, 1e-6*o.p), o.p)
		return o.inflowAt(o.guess)
	}
	if o.supersonic() {
		return o.outflowAt(in.Pressure)
	}
	if !o.wasOutflow {
		o.guess, o.wasOutflow = 0, true
	}
	low := o.p
	if low < 1e-3*rest {
		low = 1e-3 * rest
	}
	if !(o.outflow(low) < 0) {
		o.guess = low // the opening takes all that comes: open end
	} else {
		o.guess = risingRoot(o.outflow, o.guess, &o.slope, low, rest)
	}
	return o.outflowAt(o.guess)
}

// supersonic tells whether the gas leaves faster than sound and no shock runs in:
// the opening passes it, and the space's pressure is below that behind a
// standing normal shock (NACA Report 1135, equation 93).
func (o *port) supersonic() bool {
	m := -o.in.Velocity / o.side.sound
	g := o.g.g
	if m < 1 || o.p >= o.in.Pressure*(2*g*m*m-(g-1))/(g+1) {
		return false
	}
	if o.open {
		return true
	}
	_, rho, t0, p0 := o.leaving(o.in.Pressure)
	return o.law.MassFlow(o.g.Gas, p0, t0, o.p, t0) >= rho*m*o.side.sound*o.area
}

// set takes the state at the tube's end.
func (o *port) set(in State) {
	o.in = in
	o.side = sideOf(o.g.g, in)
}

// velocityIn is the velocity into the tube behind the wave of pressure p.
func (o *port) velocityIn(p float64) float64 {
	f, _ := o.side.wave(p)
	return o.in.Velocity + f
}

// entering gives flux [kg/(m2 s)], velocity and temperature of gas that enters
// to static pressure p.
func (o *port) entering(p float64) (flux, v, t float64) {
	if o.open {
		return o.inlet(p)
	}
	if flux = o.given / o.area; flux == 0 {
		flux = o.law.MassFlow(o.g.Gas, o.p, o.t, p, o.t) / o.area
	}
	// cp T + v^2/2 = cp T0 with v = flux R T/p
	k := flux * o.g.R / p
	t = 2 * o.t / (1 + math.Sqrt(1+2*k*k*o.t/o.g.cp))
	if o.given == 0 && o.gains(p, t) {
		return o.inlet(p)
	}
	return flux, k * t, t
}

// inlet is entering for an open end.
func (o *port) inlet(p float64) (flux, v, t float64) {
	t = o.t * math.Pow(p/o.past(p), o.g.gm1/o.g.g)
	v = math.Sqrt(2 * o.g.cp * max(0, o.t-t))
	return p / (o.g.R * t) * v, v, t
}

// past is the stagnation pressure past an open end's inlet, p0:
//
//	p_space - p0 = loss (p0 - p)
func (o *port) past(p float64) float64 {
	if o.loss > 0 {
		return (o.p + o.loss*p) / (1 + o.loss)
	}
	return o.p
}

// gains tells that gas which enters at p, t by a restriction's law would have a higher
// stagnation pressure than an open end gives it. A law asks for the pressure
// behind the restriction in a pipe of its own size; in a narrower tube the gas
// is faster and must have fallen to a lower pressure: at least what an inlet of
// the tube's own bore takes (second law).
func (o *port) gains(p, t float64) bool {
	// (1+x)^n is at most exp(n x), and 1 - p/past at most ln(past/p): done for most ends.
	n, past := o.g.g/o.g.gm1, o.past(p)
	x := o.t/t - 1
	if n*x <= 1-p/past {
		return false
	}
	return p*math.Pow(1+x, n) > past
}

// inflow falls through zero at the solution, or where the entry chokes.
func (o *port) inflow(p float64) float64 {
	_, v, t := o.entering(p)
	a := math.Sqrt(o.g.g * o.g.R * t)
	return max((v-o.velocityIn(p))/o.side.sound, (v-a)/a)
}

func (o *port) inflowAt(p float64) through {
	flux, v, _ := o.entering(p)
	m := flux * o.area
	return through{mass: m, momentum: p*o.area + m*v, energy: m * o.g.cp * o.t, pressure: p}
}

// leaving gives the state of the gas that leaves at static pressure p: outward
// velocity, density, stagnation temperature and pressure.
func (o *port) leaving(p float64) (v, rho, t0, p0 float64) {
	v = -o.velocityIn(p)
	rho = o.side.densityAt(p)
	t := p / (o.g.R * rho)
	t0 = t + 0.5*v*v/o.g.cp
	return v, rho, t0, p * math.Pow(t0/t, o.g.g/o.g.gm1)
}

// outflow rises through zero at the solution, or where the exit chokes.
func (o *port) outflow(p float64) float64 {
	v, rho, t0, p0 := o.leaving(p)
	if o.open {
		a := math.Sqrt(o.g.g * p / rho)
		return (a - v) / a
	}
	q := o.law.MassFlow(o.g.Gas, p0, t0, o.p, t0) / o.area
	a := math.Sqrt(o.g.g * p / rho)
	return min((q/rho-v)/o.side.sound, (a-v)/a)
}

func (o *port) outflowAt(p float64) through {
	v, rho, t0, _ := o.leaving(p)
	m := -rho * v * o.area
	return through{mass: m, momentum: (p + rho*v*v) * o.area, energy: m * o.g.cp * t0, pressure: p}
}
