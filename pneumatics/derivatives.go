package pneumatics

import "math"

// Derivatives is the right-hand side of the circuit: the balances of every
// node, then the projectile, then the book.
//
//	dm/dt = sum q
//	dU/dt = sum q cp T_upstream + heat - p A v - (v^2/6) dG/dt
//	(m + G/3 + rho A (L - x)) dv/dt = (p - p_ahead) A - friction - weight
//
// The last term of dU/dt belongs to the barrel: gas that arrives at rest is
// brought up to the mean motion at the cost of its internal energy (Lagrange's
// approximation: gas speed rising linearly from breech to base). Source: the
// balances are the open-system first law; the Lagrange correction after Corner,
// Theory of the Interior Ballistics of Guns (1950), chapter 9 (from memory).
func (e *engine) Derivatives(t float64, y, d []float64) {
	e.conditions(y)
	clear(d)
	clear(e.stirred)
	for i := range e.paths {
		e.pass(&e.paths[i], t, d)
	}
	e.rows.Flow(d)
	if e.supplyOn && !e.apart(e.c.Supply.Feeds) {
		e.deliver(d)
	}
	if e.heat != Adiabatic {
		e.exchange(y, d)
	}
	if e.bar >= 0 && e.mode != gone {
		e.push(y, d)
	}
}

// Linearise holds, until Linearised, whose gas flows in each path as at y: a
// difference quotient across the turn of a flow would mix the temperatures of both
// ends.
func (e *engine) Linearise(_ float64, y []float64) {
	e.conditions(y)
	for i := range e.paths {
		a := &e.paths[i]
		a.donor = a.from
		if e.flowsBack(a) {
			a.donor = a.to
		}
	}
}

// Linearised ends Linearise.
func (e *engine) Linearised() {
	for i := range e.paths {
		e.paths[i].donor = -1
	}
}

// conditions computes pressure, temperature and p/sqrt(T) of every node, and what the lines
// have besides.
func (e *engine) conditions(y []float64) {
	e.nodeConditions(y)
	e.rows.Take(y)
}

// nodeConditions is conditions without the lines' cells.
func (e *engine) nodeConditions(y []float64) {
	for i, inv := range e.invV[:e.volumes] {
		e.condition(i, y[2*i], y[2*i+1], inv)
	}
	if e.bar < 0 {
		return
	}
	x := y[e.iX]
	e.condition(e.bar, y[e.iBar], y[e.iBar+1], 1/(e.dead+e.b.Area*x))
	if e.ahead >= 0 {
		e.condition(e.ahead, y[e.iAhead], y[e.iAhead+1], 1/e.aheadVolume(x))
	}
}

// condition: p = (gamma-1) U/V, T = U/(m cv), p/sqrt(T) = (gamma-1) sqrt(m U cv)/V.
func (e *engine) condition(i int, m, u, invV float64) {
	s := e.gm1 * invV
	e.p[i] = s * u
	e.temp[i] = u / (m * e.cv)
	e.w[i] = s * e.sqrtCv * math.Sqrt(m*u)
}

// pass adds the flow of one path to the balances.
func (e *engine) pass(a *activePath, t float64, d []float64) {
	if a.lined {
		e.passLine(a, t, d)
		return
	}
	up, down := a.from, a.to
	if e.p[down] > e.p[up] {
		if a.kind >= Check && a.kind <= Regulator {
			return // springs and discs shut against flow back
		}
		up, down = down, up
	}
	gas := up // whose gas flows
	if a.donor >= 0 {
		gas = a.donor
	}
	q := e.flowOf(a, t, up, e.p[up], e.p[down]) * e.w[gas]
	h := q * e.cp * e.temp[gas]
	e.give(d, up, -q, -h)
	e.give(d, down, q, h)
	if down < len(e.stirred) {
		e.stir(down, q, a.jet)
	}
}

// flowOf is the flow of a path from the node up at p1 to p2, over p/sqrt(T) of its gas.
func (e *engine) flowOf(a *activePath, t float64, up int, p1, p2 float64) float64 {
	opening := 1.0
	switch {
	case a.balanced || a.kind >= Check:
		if opening = e.openingOf(a, t, up, p1, p2); opening <= 0 {
			return 0
		}
	case a.ramp:
		opening = a.at(t)
	}
	if a.hoseC > 0 {
		return e.hoseFlow(a, opening, up, p2/p1)
	}
	return opening * a.flow.K * a.flow.Phi(p2/p1)
}

// give books mass and enthalpy to a node.
func (e *engine) give(d []float64, node int, q, h float64) {
	i := 2 * node
	if node == e.nodes {
		i = e.iAtm
		if i < 0 {
			return
		}
	}
	d[i] += q
	d[i+1] += h
}

// at is how far a path is open at time t while it moves [0 … 1].
func (a *activePath) at(t float64) float64 {
	return min(max(a.opening+a.rate*(t-a.t0), 0), 1)
}

// hoseFlow is flowOf a part, open so far, with its hose at a pressure ratio. While the
// part moves, or a spring holds it, the pair is formed anew.
func (e *engine) hoseFlow(a *activePath, opening float64, up int, ratio float64) float64 {
	both := &a.forward
	if up != a.from {
		both = &a.backward
	}
	if a.balanced || a.kind >= Check || a.ramp {
		if opening <= 0 {
			return 0
		}
		fresh := a.pairFrom(up, opening)
		both = &fresh
	}
	return both.Conductance(ratio, e.o.laminar()) * a.flow.K // flow.k is that of C = 1
}

// deliver books the supply: free air at ambient temperature.
func (e *engine) deliver(d []float64) {
	s := e.c.Supply
	i := e.node(s.Feeds)
	q := s.Delivery(e.p[i]-e.pa) * e.pa / (e.gas.R * e.ta)
	h := q * e.cp * e.ta
	e.give(d, i, q, h)
	e.give(d, e.nodes, -q, -h)
	d[e.iSupply] += q
	if i < len(e.stirred) {
		e.stir(i, q, s.Inlet)
	}
}

// Delivery is the free air the supply gives at an outlet pressure [m3/s].
func (s *Supply) Delivery(gauge float64) float64 {
	if gauge >= s.DeadHead || s.DeadHead <= 0 {
		return 0
	}
	if len(s.Curve) == 0 {
		return s.FreeAir * (1 - max(gauge, 0)/s.DeadHead)
	}
	last := SupplyPoint{0, s.Curve[0].FreeAir}
	for _, pt := range s.Curve {
		if gauge <= pt.Gauge {
			if pt.Gauge == last.Gauge {
				return pt.FreeAir
			}
			// A curve that ends at the dead head in full flow does not end in a step: steps to and fro would hold the pressure there.
			const shuts = 1e-4 // of the dead head
			free := last.FreeAir + (pt.FreeAir-last.FreeAir)*(max(gauge, 0)-last.Gauge)/(pt.Gauge-last.Gauge)
			return free * min(1, (s.DeadHead-gauge)/(shuts*s.DeadHead))
		}
		last = pt
	}
	return max(0, last.FreeAir*(s.DeadHead-gauge)/(s.DeadHead-last.Gauge))
}

// exchange books the heat of the walls of the rigid volumes.
func (e *engine) exchange(y, d []float64) {
	for i := range e.invV {
		var q float64
		switch {
		case e.heat == Isothermal:
			q = e.cv*e.tw*d[2*i] - d[2*i+1]
		case e.heat == Transfer: // Newton's law of cooling
			q = e.sc.Coefficient * e.walls[i].Area * (e.tw - e.temp[i])
		case i < len(e.stirred):
			q = e.walls[i].StirredFlow(&e.gas, e.p[i], e.temp[i], e.tw, e.stirred[i])
		default:
			q = e.walls[i].HeatFlow(&e.gas, e.p[i], e.temp[i], e.tw)
		}
		d[2*i+1] += q
		d[e.iHeat] += q
	}
}

// push books the projectile's motion and its work on the gas.
func (e *engine) push(y, d []float64) {
	if e.mode == afterMuzzle {
		e.pushAfter(y, d)
		return
	}
	if e.mode != moving {
		return
	}
	b := e.b
	x, v := y[e.iX], y[e.iX+1]
	p := e.p[e.bar]
	mass := b.Mass
	work := p * b.Area * v
	if e.inertia {
		mass += y[e.iBar] / 3
		work += v * v / 6 * d[e.iBar]
	}
	back := e.pa
	if e.ahead >= 0 {
		back = e.p[e.ahead]
		d[e.iAhead+1] += back * b.Area * v
	}
	if e.column {
		mass += e.columnRho * (b.Travel - x)
		d[e.iColumn] += 0.5 * e.columnRho * v * v * v
	}
	d[e.iBar+1] -= work
	d[e.iX] = v
	d[e.iX+1] = ((p-back)*b.Area - e.sign*b.Sliding - e.weight()) / mass
}

// weight is the part of the projectile's weight along the barrel [N].
func (e *engine) weight() float64 { return e.b.Weight() }

// pushAfter books the push beyond the muzzle: the volume goes on growing, gas
// escapes through the ring that opens, and the jet acts where it pushes harder
// than the pressure.
//
//	F = max((p - pa) A, k rho A_exit (u - v)^2, 0),  u = q/(rho A_exit)
//
// over maxJetTravel: where it ceases it may come again. An assumption of this project, no published source.
func (e *engine) pushAfter(y, d []float64) {
	b, x, v := e.b, y[e.iX], y[e.iX+1]
	p := e.p[e.bar]
	q := e.escapeFlow(x)
	h := q * e.cp * e.temp[e.bar]
	if q < 0 {
		h = q * e.cp * e.ta
	}
	e.give(d, e.bar, -q, -h)
	e.give(d, e.nodes, q, h)
	force := (p - e.pa) * b.Area
	if jet := e.jetForce(q, v); jet > force {
		extra := (jet - force) * v
		d[e.iAtm+1] -= extra // the jet gives it
		d[e.iJet] += extra
		force = jet
	}
	d[e.iBar+1] -= p * b.Area * v
	d[e.iX] = v
	d[e.iX+1] = force / b.Mass // the weight belongs to the flight from here on
}

// escapeFlow is the flow out of the muzzle past a projectile at travel x [kg/s]:
// through the gap it had and the ring that opens, at most the whole muzzle.
func (e *engine) escapeFlow(x float64) float64 {
	ring := math.Pi * e.jetD * max(x-e.b.Travel, 0)
	area := min(e.b.LeakArea+ring, max(e.b.Area, e.b.ExitArea))
	p := e.p[e.bar]
	if p >= e.pa {
		return area * e.escape.K * e.w[e.bar] * e.escape.Phi(e.pa/p)
	}
	return -area * e.escape.K * e.w[e.nodes] * e.escape.Phi(p/e.pa)
}

// jetSpeed is u of pushAfter with the density of isentropic expansion to the
// exit, where the pressure is ambient or that of choking.
func (e *engine) jetSpeed(q float64) (u, rho float64) {
	p := e.p[e.bar]
	exit := max(e.pa, p*e.escape.B)
	rho = p / (e.gas.R * e.temp[e.bar])
	if exit < p {
		rho *= e.escape.Expansion(exit / p)
	}
	return q / (rho * e.b.ExitArea), rho
}

func (e *engine) jetForce(q, v float64) float64 {
	if q <= 0 || e.b.ExitArea <= 0 {
		return 0
	}
	u, rho := e.jetSpeed(q)
	lead := max(u-v, 0)
	return e.b.JetFactor * rho * e.b.ExitArea * lead * lead
}

// stir adds what an inflow q [kg/s] by a bore [m] stirs up in a volume.
func (e *engine) stir(volume int, q, bore float64) {
	if q > 0 && bore > 0 {
		e.stirred[volume] += 0.56 * math.Pow(4*q/(math.Pi*e.gas.Viscosity(e.temp[volume])*bore), 0.67)
	}
}
