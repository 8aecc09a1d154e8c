package pneumatics

import "math"

// lineSpeeds takes the flows from the state and forms the speeds of the gas.
func (e *engine) lineSpeeds(y []float64) {
	for i := range e.runs {
		r := &e.runs[i]
		faces := e.faces[r.face : r.face+r.n+1]
		gas := y[2*r.first : 2*(r.first+r.n)]
		m := 0.0 // gas of the cell before the face
		for k := range faces {
			f := &faces[k]
			f.pressure, f.half = 0, 0
			next := 0.0
			if k < r.n {
				next = gas[2*k]
			}
			f.ma, f.mb = f.sa*m, f.sb*next
			switch {
			case f.kind == atPart:
				f.q, f.ua, f.ub = 0, 0, 0
			case f.kind == joint:
				f.q = y[f.iq]
				f.ua, f.ub = f.q*f.la/f.ma, f.q*f.lb/f.mb
			default: // one stretch of gas
				f.q = y[f.iq]
				f.ua = f.q * f.length / (f.ma + f.mb)
				f.ub = f.ua
			}
			m = next
		}
	}
}

// lineMotion is the kinetic energy of the gas in the lines [J], of all of them or of
// those whose air can reach the barrel.
func (e *engine) lineMotion(y []float64, joinedOnly bool) float64 {
	if len(e.runs) == 0 {
		return 0
	}
	e.lineSpeeds(y)
	sum := 0.0
	for i := range e.runs {
		r := &e.runs[i]
		if joinedOnly && !e.connected[r.first] {
			continue
		}
		for k := range r.n + 1 {
			f := &e.faces[r.face+k]
			sum += 0.5 * (f.ma*f.ua*f.ua + f.mb*f.ub*f.ub)
		}
	}
	return sum
}

// flowLines books the balances of the lines. For the gas of a face between two
// cells' centres
//
//	(length/A) dq/dt = p_before - p_behind - friction - difference of q u/A
//
// and for a cell the open-system first law. What a face's gas gains or loses in
// kinetic energy is taken from, or given to, the cells beside it: pressure does its
// work on both, friction and the mixing of gas of two speeds heat the cell where they
// happen. So mass and total energy are conserved whatever the cells' size.
// Source: the staggered scheme of the Euler equations in internal energy with a
// discrete kinetic energy balance (Herbin, Latché and others; from memory), here with
// momentum carried upwind.
func (e *engine) flowLines(d []float64) {
	for i := range e.pieces {
		e.friction(&e.pieces[i])
	}
	for i := range e.runs {
		r := &e.runs[i]
		e.forces(r, d)
		e.carry(r, d)
		e.accelerate(r, d)
	}
}

// forces books, face by face, pressure, friction, and the gas that passes with its
// internal energy.
func (e *engine) forces(r *lineRun, d []float64) {
	faces := e.faces[r.face : r.face+r.n+1]
	p, temp := e.p[r.first:r.first+r.n], e.temp[r.first:r.first+r.n]
	rates := d[2*r.first : 2*(r.first+r.n)]
	for k := range faces {
		f := &faces[k]
		switch f.kind {
		case inner:
			a, b := k-1, k // cells before and behind
			up := a
			if f.q < 0 {
				up = b
			}
			t := temp[up]
			drag := (f.drag*f.la + f.dragB*f.lb) * math.Abs(f.q) * f.ua
			if excess := f.ua*f.ua - e.sonicOnset*t; excess > 0 {
				drag += math.Copysign(p[up]*f.area*excess/(e.sonicSpan*t), f.ua)
			}
			f.pressure += p[a] - p[b] - drag*f.invArea
			flow, heat, swept := f.q*e.cv*t, 0.5*drag*f.ua, f.area*f.ua
			rates[2*a] -= f.q
			rates[2*b] += f.q
			rates[2*a+1] += heat - flow - p[a]*swept
			rates[2*b+1] += heat + flow + p[b]*swept
		case joint:
			e.forceJoint(r, f, k, d)
		case mouth:
			if k == 0 {
				e.forceMouth(f, f.dragB, &e.cells[r.cell], r.first, r.nodeL, +1, d)
			} else {
				e.forceMouth(f, f.drag, &e.cells[r.cell+k-1], r.first+k-1, r.nodeR, -1, d)
			}
		}
	}
}

// forceMouth books the gas at an open end. inward is +1 where the line lies behind
// the face, so that q is positive for gas that enters. Gas that enters falls to the
// pressure of its speed, with the loss of a sharp edge; gas that leaves meets the
// pressure outside, or that at which it is just sonic.
func (e *engine) forceMouth(f *face, law float64, c *cell, node, outside int, inward float64, d []float64) {
	q, u := f.q*inward, f.ua*inward
	drag := law * math.Abs(q) * u * f.length
	v := u                // speed in the mouth
	var p, energy float64 // pressure in the mouth; energy that enters the line
	if q > 0 {
		p = e.inletPressure(e.p[outside]-f.loss*0.5*q*u/c.area, e.temp[outside], u)
		energy = q * e.cp * e.temp[outside]
	} else {
		p = e.outletPressure(c, q, u, e.temp[node], e.p[outside])
		v = e.outletSpeed(c, q, u, e.temp[node], p)
		energy = q * (e.cp*e.temp[node] + 0.5*u*u)
	}
	drag *= 2 * e.p[node] / (e.p[node] + max(p, 0)) // friction of the mean density, the mouth's taken in
	e.give(d, outside, -q, -energy)
	d[2*node] += q
	d[2*node+1] += energy - q*u*(v-0.5*u) - (p-e.p[node])*c.area*u + drag*u
	f.pressure += inward * (p - e.p[node] + (q*v-drag)/c.area)
}

// outletSpeed is the speed at the pressure p of gas that leaves a line with the
// temperature t and the speed u in its last cell (negative, as q is), by its total
// enthalpy.
func (e *engine) outletSpeed(c *cell, q, u, t, p float64) float64 {
	a := q * e.gas.R / (p * c.area) // speed over temperature
	t0 := t + u*u/(2*e.cp)
	return 2 * a * t0 / (1 + math.Sqrt(1+2*a*a*t0/e.cp))
}

// inletPressure is what is left of a pressure p0 [Pa] when gas of temperature t0 [K]
// has reached the speed u without a loss.
func (e *engine) inletPressure(p0, t0, u float64) float64 {
	return e.gas.Isentropic(p0, max(0, 1-u*u/(2*e.cp*t0)))
}

// stagnation is the inverse: pressure and temperature of gas of speed u brought to
// rest without a loss.
func (e *engine) stagnation(p, t, u float64) (p0, t0 float64) {
	z := 1 + u*u/(2*e.cp*t)
	return e.gas.Isentropic(p, z), t * z
}

// outletPressure is the pressure in the mouth of a line that gas of temperature t
// and speed u leaves: that outside, or where it would be faster than sound there, the
// pressure at which the flow q is sonic.
func (e *engine) outletPressure(c *cell, q, u, t, outside float64) float64 {
	sonic := e.sonicTemperature(t, u)
	limit := outside * c.choke
	if q*q*sonic <= limit*limit {
		return outside
	}
	return math.Abs(q) * math.Sqrt(sonic) / c.choke
}

// sonicTemperature is the temperature of gas at the speed of sound that has
// temperature t at the speed u.
func (e *engine) sonicTemperature(t, u float64) float64 {
	return (t + u*u/(2*e.cp)) * (2 / (e.gas.Gamma + 1))
}

// forceJoint books all of the gas between two pieces but its pressure work, which
// needs its acceleration (joinEnergy).
func (e *engine) forceJoint(r *lineRun, f *face, k int, d []float64) {
	a, b := r.first+k-1, r.first+k
	ca, cb := &e.cells[r.cell+k-1], &e.cells[r.cell+k]
	dragA := f.drag * f.la * math.Abs(f.q) * f.ua
	dragB := f.dragB * f.lb * math.Abs(f.q) * f.ub
	d[2*a] -= f.q
	d[2*b] += f.q
	d[2*a+1] += dragA*f.ua - e.p[a]*ca.area*f.ua
	d[2*b+1] += dragB*f.ub + e.p[b]*cb.area*f.ub
	// step is what the pressure falls by from one mouth to the other.
	if f.q >= 0 {
		f.step = e.areaStep(f, ca, cb, f.q, f.ua, f.ub, a, b)
	} else {
		f.step = -e.areaStep(f, cb, ca, -f.q, -f.ub, -f.ua, b, a)
	}
	half := e.p[a] - (dragA+f.q*f.ua)/ca.area
	f.half += half
	f.pressure += half - e.p[b] - f.step - (dragB-f.q*f.ub)/cb.area
}

// areaStep is the fall of pressure from the mouth of one piece to that of the next
// for a flow q > 0 at the speeds u1, u2. Into the wider piece: momentum (Borda and
// Carnot), at least what holds the jet at the speed of sound. Into the narrower one:
// as from a space of the stagnation state before it.
func (e *engine) areaStep(f *face, c1, c2 *cell, q, u1, u2 float64, n1, n2 int) float64 {
	if c2.area >= c1.area {
		step := q * (u2 - u1) / c2.area
		sonic := math.Sqrt(e.sonicTemperature(e.temp[n1], u1))
		return max(step, q*sonic/c1.choke-e.p[n2])
	}
	p0, t0 := e.stagnation(e.p[n1], e.temp[n1], u1)
	return e.p[n1] - e.inletPressure(p0, t0, u2) + f.loss*0.5*q*u2/c2.area
}

// carry moves momentum through the cells' centres, with the speed it comes with.
func (e *engine) carry(r *lineRun, d []float64) {
	faces := e.faces[r.face : r.face+r.n+1]
	cells := e.cells[r.cell : r.cell+r.n]
	rates := d[2*r.first : 2*(r.first+r.n)]
	for k := range cells {
		before, behind := &faces[k], &faces[k+1]
		if before.kind == atPart || behind.kind == atPart {
			continue // leaves and arrives have done it
		}
		q := 0.5 * (before.q + behind.q)
		u1, u2 := before.ub, behind.ua
		u := u1
		if q < 0 {
			u = u2
		}
		flux := q * u * cells[k].invArea
		before.pressure -= flux
		behind.pressure += flux
		behind.half += flux
		rates[2*k+1] += 0.5 * math.Abs(q) * (u1 - u2) * (u1 - u2)
	}
}

// accelerate turns the pressures on the faces' gas into rates of the flows.
func (e *engine) accelerate(r *lineRun, d []float64) {
	for k := range r.n + 1 {
		f := &e.faces[r.face+k]
		if f.kind == atPart {
			continue
		}
		rate := f.pressure * f.mobility
		d[f.iq] = rate
		if f.kind == joint {
			e.joinEnergy(r, k, rate, d)
		}
	}
}

// joinEnergy books the energy that passes a joint: that of the gas in the mouth it
// comes from, whose pressure follows from its own half's acceleration.
func (e *engine) joinEnergy(r *lineRun, k int, rate float64, d []float64) {
	f := &e.faces[r.face+k]
	ca, cb := &e.cells[r.cell+k-1], &e.cells[r.cell+k]
	a, b := r.first+k-1, r.first+k
	pa := f.half - rate*f.la/ca.area
	pb := pa - f.step
	var energy float64
	if f.q >= 0 {
		energy = f.q*(e.cv*e.temp[a]+0.5*f.ua*f.ua) + pa*ca.area*f.ua
	} else {
		energy = f.q*(e.cv*e.temp[b]+0.5*f.ub*f.ub) + pb*cb.area*f.ub
	}
	d[2*a+1] += pa*ca.area*f.ua + 0.5*f.q*f.ua*f.ua - energy
	d[2*b+1] += energy - pb*cb.area*f.ub - 0.5*f.q*f.ub*f.ub
}

// friction sets what holds the gas of a piece back: the friction factor at the root
// mean square of its flows, and its fittings. The factor is that of steady flow and
// hardly depends on the flow, which differs along a piece only while a wave passes.
func (e *engine) friction(p *piece) {
	faces := e.faces[p.first : p.last+1]
	squares := 0.0
	for k := range faces {
		squares += faces[k].q * faces[k].q
	}
	// Viscosity by the tangent of Sutherland's law's inverse at ambient temperature, within
	// 1.5 % from 240 to 340 K: 0.3 % of a turbulent friction factor.
	t := 0.5 * (e.temp[p.cell] + e.temp[p.cell+p.cells-1])
	re := math.Sqrt(squares*p.share) * p.reynolds * (1 - e.viscosityRise*(t-e.ta))
	drag := p.fixed
	if re > 1e-100 { // below it rounding, where 64/Re would not be finite
		drag += PipeFriction(re) * p.factor
	}
	for k := 1; k < len(faces); k++ {
		faces[k].drag, faces[k-1].dragB = drag, drag
	}
}
