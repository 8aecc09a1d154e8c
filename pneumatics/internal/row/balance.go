package row

import (
	"math"

	"puffproof/pneumatics/line"
)

// Take takes the state: pressure and temperature of the cells, flows and speeds of the gas.
func (r *Rows) Take(y []float64) {
	invCv := r.invCv
	for i := range r.rows {
		w := &r.rows[i]
		cells := r.Cells[w.cell:][:w.n]
		faces := r.Faces[w.face:][:w.n+1]
		gas := y[2*w.first:][:2*len(cells)]
		p, temp := r.P[w.first:][:len(cells)], r.T[w.first:][:len(cells)]
		before := 0.0 // gas of the cell before the face
		for k := range cells {
			m, u := gas[2*k], gas[2*k+1]
			p[k] = cells[k].invGM1 * u
			temp[k] = u * invCv / m
			f := &faces[k]
			f.pressure = 0
			if f.kind <= mouth { // one stretch of gas
				f.Flow = y[f.Index]
				f.Before = f.Flow * f.length / (f.sa*before + f.sb*m)
				f.Behind = f.Before
			} else {
				f.take(y, before, m)
			}
			before = m
		}
		faces[len(cells)].take(y, before, 0)
	}
}

// take takes the flow of a face of any kind, between cells that hold the gas before and
// behind [kg].
func (f *Face) take(y []float64, before, behind float64) {
	f.pressure = 0
	switch f.kind {
	case atPart:
		return // nothing flows
	case joint:
		f.half = 0
		f.Flow = y[f.Index]
		f.Before, f.Behind = f.Flow*f.la/(f.sa*before), f.Flow*f.lb/(f.sb*behind)
	default:
		f.Flow = y[f.Index]
		f.Before = f.Flow * f.length / (f.sa*before + f.sb*behind)
		f.Behind = f.Before
	}
}

// Motion is the kinetic energy of the gas in a row [J], at the state last taken.
func (r *Rows) Motion(i int) float64 {
	sum := 0.0
	faces := r.FacesOf(i)
	for k := range faces {
		f := &faces[k]
		sum += 0.5 * f.Flow * (f.la*f.Before + f.lb*f.Behind)
	}
	return sum
}

// Flow books the balances of the lines. For the gas of a face between two
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
func (r *Rows) Flow(d []float64) {
	for i := range r.pieces {
		r.friction(&r.pieces[i])
	}
	for i := range r.rows {
		r.balance(&r.rows[i], d)
	}
}

// friction sets what holds the gas of a piece back: the friction factor at the root
// mean square of its flows, and its fittings. The factor is that of steady flow and
// hardly depends on the flow, which differs along a piece only while a wave passes.
func (r *Rows) friction(p *piece) {
	faces := r.Faces[p.first : p.last+1]
	squares := 0.0
	for k := range faces {
		squares += faces[k].Flow * faces[k].Flow
	}
	// Viscosity by the tangent of Sutherland's law's inverse at ambient temperature, within
	// 1.5 % from 240 to 340 K: 0.3 % of a turbulent friction factor.
	t := 0.5 * (r.T[r.first+p.cell] + r.T[r.first+p.cell+p.cells-1])
	scale := p.reynolds * (1 - r.viscosityRise*(t-r.ta))
	p.drag = p.fixed + line.FrictionOfSquare(squares*p.share*scale*scale)*p.factor
}

// balance books a row: cell by cell the momentum that is carried through its centre, and
// face by face pressure, friction, and the gas that passes with its internal energy.
func (r *Rows) balance(w *row, d []float64) {
	n := w.n
	faces, cells := r.Faces[w.face:][:n+1], r.Cells[w.cell:][:n]
	p, temp := r.P[w.first:][:n], r.T[w.first:][:n]
	rates := d[2*w.first:][:2*n]
	pieces := r.pieces[w.piece:][:w.pieces]
	a := &faces[0]
	if a.kind == mouth {
		r.forceMouth(a, pieces[0].drag, &cells[0], w.first, w.left, +1, d)
	}
	mass, energy := 0.0, 0.0 // what a face inside a piece brings into the cell behind it
	for k, left := 0, 0; k < n; k++ {
		b := &faces[k+1]
		into, heating := mass, energy
		mass, energy = 0, 0
		push := b.pressure
		if a.kind != atPart && b.kind != atPart { // at a part Leave and Arrive have done it
			q := 0.5 * (a.Flow + b.Flow)
			u := a.Behind
			if q < 0 {
				u = b.Before
			}
			flux, slip := q*u*cells[k].invArea, a.Behind-b.Before
			a.pressure -= flux
			push += flux
			if b.kind == joint {
				b.half += flux
			}
			heating += 0.5 * math.Abs(q) * slip * slip
		}
		r.accelerate(w, a, k, d)
		drag := pieces[left].drag
		hold := drag * b.length
		if k == pieces[left].end && k < n-1 {
			left++
			if b.kind == inner {
				hold = drag*b.la + pieces[left].drag*b.lb
			}
		}
		if b.kind == inner {
			up := k
			if b.Flow < 0 {
				up = k + 1
			}
			t, u := temp[up], b.Before
			hold *= math.Abs(b.Flow) * u
			if excess := u*u - r.sonicOnset*t; excess > 0 {
				hold += math.Copysign(p[up]*b.area*excess/(r.sonicSpan*t), u)
			}
			push += p[k] - p[k+1] - hold*b.invArea
			carried, heat, swept := b.Flow*r.cv*t, 0.5*hold*u, b.area*u
			into -= b.Flow
			heating += heat - carried - p[k]*swept
			mass, energy = b.Flow, heat+carried+p[k+1]*swept
		}
		b.pressure = push
		rates[2*k] += into
		rates[2*k+1] += heating
		switch b.kind {
		case joint:
			r.forceJoint(w, b, k+1, drag, pieces[left].drag, d)
		case mouth:
			r.forceMouth(b, drag, &cells[k], w.first+k, w.right, -1, d)
		}
		a = b
	}
	r.accelerate(w, a, n, d)
}

// accelerate turns the pressures on the gas of face k into the rate of its flow.
func (r *Rows) accelerate(w *row, f *Face, k int, d []float64) {
	switch f.kind {
	case atPart:
	case joint:
		d[f.Index] = f.pressure * f.mobility
		r.joinEnergy(w, f, k, d[f.Index], d)
	default:
		d[f.Index] = f.pressure * f.mobility
	}
}
