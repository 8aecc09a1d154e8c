package row

import (
	"math"

	"puffproof/pneumatics/line"
)

// Speeds takes the flows from the state and forms the speeds of the gas.
func (r *Rows) Speeds(y []float64) {
	for i := range r.rows {
		w := &r.rows[i]
		faces := r.Faces[w.face : w.face+w.n+1]
		gas := y[2*w.first : 2*(w.first+w.n)]
		m := 0.0 // gas of the cell before the face
		for k := range faces {
			f := &faces[k]
			f.pressure, f.half = 0, 0
			next := 0.0
			if k < w.n {
				next = gas[2*k]
			}
			f.ma, f.mb = f.sa*m, f.sb*next
			switch {
			case f.kind == atPart:
				f.Flow, f.Before, f.Behind = 0, 0, 0
			case f.kind == joint:
				f.Flow = y[f.Index]
				f.Before, f.Behind = f.Flow*f.la/f.ma, f.Flow*f.lb/f.mb
			default: // one stretch of gas
				f.Flow = y[f.Index]
				f.Before = f.Flow * f.length / (f.ma + f.mb)
				f.Behind = f.Before
			}
			m = next
		}
	}
}

// Motion is the kinetic energy of the gas in a row [J], at the speeds last taken.
func (r *Rows) Motion(i int) float64 {
	sum := 0.0
	faces := r.FacesOf(i)
	for k := range faces {
		f := &faces[k]
		sum += 0.5 * (f.ma*f.Before*f.Before + f.mb*f.Behind*f.Behind)
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
		w := &r.rows[i]
		r.forces(w, d)
		r.carry(w, d)
		r.accelerate(w, d)
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
	re := math.Sqrt(squares*p.share) * p.reynolds * (1 - r.viscosityRise*(t-r.ta))
	drag := p.fixed
	if re > 1e-100 { // below it rounding, where 64/Re would not be finite
		drag += line.Friction(re) * p.factor
	}
	for k := 1; k < len(faces); k++ {
		faces[k].drag, faces[k-1].dragB = drag, drag
	}
}

// forces books, face by face, pressure, friction, and the gas that passes with its
// internal energy.
func (r *Rows) forces(w *row, d []float64) {
	faces := r.Faces[w.face : w.face+w.n+1]
	p, temp := r.P[w.first:w.first+w.n], r.T[w.first:w.first+w.n]
	rates := d[2*w.first : 2*(w.first+w.n)]
	for k := range faces {
		f := &faces[k]
		switch f.kind {
		case inner:
			a, b := k-1, k // cells before and behind
			up := a
			if f.Flow < 0 {
				up = b
			}
			t := temp[up]
			drag := (f.drag*f.la + f.dragB*f.lb) * math.Abs(f.Flow) * f.Before
			if excess := f.Before*f.Before - r.sonicOnset*t; excess > 0 {
				drag += math.Copysign(p[up]*f.area*excess/(r.sonicSpan*t), f.Before)
			}
			f.pressure += p[a] - p[b] - drag*f.invArea
			flow, heat, swept := f.Flow*r.cv*t, 0.5*drag*f.Before, f.area*f.Before
			rates[2*a] -= f.Flow
			rates[2*b] += f.Flow
			rates[2*a+1] += heat - flow - p[a]*swept
			rates[2*b+1] += heat + flow + p[b]*swept
		case joint:
			r.forceJoint(w, f, k, d)
		case mouth:
			if k == 0 {
				r.forceMouth(f, f.dragB, &r.Cells[w.cell], w.first, w.left, +1, d)
			} else {
				r.forceMouth(f, f.drag, &r.Cells[w.cell+k-1], w.first+k-1, w.right, -1, d)
			}
		}
	}
}

// carry moves momentum through the cells' centres, with the speed it comes with.
func (r *Rows) carry(w *row, d []float64) {
	faces := r.Faces[w.face : w.face+w.n+1]
	cells := r.Cells[w.cell : w.cell+w.n]
	rates := d[2*w.first : 2*(w.first+w.n)]
	for k := range cells {
		before, behind := &faces[k], &faces[k+1]
		if before.kind == atPart || behind.kind == atPart {
			continue // leaves and arrives have done it
		}
		q := 0.5 * (before.Flow + behind.Flow)
		u1, u2 := before.Behind, behind.Before
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
func (r *Rows) accelerate(w *row, d []float64) {
	for k := range w.n + 1 {
		f := &r.Faces[w.face+k]
		if f.kind == atPart {
			continue
		}
		rate := f.pressure * f.mobility
		d[f.Index] = rate
		if f.kind == joint {
			r.joinEnergy(w, k, rate, d)
		}
	}
}
