package row

import "math"

// forceJoint books all of the gas between two pieces but its pressure work, which
// needs its acceleration (joinEnergy); before and behind are the drags of the pieces.
func (r *Rows) forceJoint(w *row, f *Face, k int, before, behind float64, d []float64) {
	a, b := w.first+k-1, w.first+k
	ca, cb := &r.Cells[w.cell+k-1], &r.Cells[w.cell+k]
	dragA := before * f.la * math.Abs(f.Flow) * f.Before
	dragB := behind * f.lb * math.Abs(f.Flow) * f.Behind
	d[2*a] -= f.Flow
	d[2*b] += f.Flow
	d[2*a+1] += dragA*f.Before - r.P[a]*ca.Area*f.Before
	d[2*b+1] += dragB*f.Behind + r.P[b]*cb.Area*f.Behind
	// step is what the pressure falls by from one mouth to the other.
	if f.Flow >= 0 {
		f.step = r.areaStep(f, ca, cb, f.Flow, f.Before, f.Behind, a, b)
	} else {
		f.step = -r.areaStep(f, cb, ca, -f.Flow, -f.Behind, -f.Before, b, a)
	}
	half := r.P[a] - (dragA+f.Flow*f.Before)*ca.invArea
	f.half += half
	f.pressure += half - r.P[b] - f.step - (dragB-f.Flow*f.Behind)*cb.invArea
}

// areaStep is the fall of pressure from the mouth of one piece to that of the next
// for a flow q > 0 at the speeds u1, u2. Into the wider piece: momentum (Borda and
// Carnot), at least what holds the jet at the speed of sound. Into the narrower one:
// as from a space of the stagnation state before it.
func (r *Rows) areaStep(f *Face, c1, c2 *Cell, q, u1, u2 float64, n1, n2 int) float64 {
	if c2.Area >= c1.Area {
		step := q * (u2 - u1) / c2.Area
		sonic := math.Sqrt(r.sonicTemperature(r.T[n1], u1))
		return max(step, q*sonic/c1.choke-r.P[n2])
	}
	p0, t0 := r.stagnation(r.P[n1], r.T[n1], u1)
	return r.P[n1] - r.inletPressure(p0, t0, u2) + f.loss*0.5*q*u2*c2.invArea
}

// joinEnergy books the energy that passes a joint: that of the gas in the mouth it
// comes from, whose pressure follows from its own half's acceleration.
func (r *Rows) joinEnergy(w *row, f *Face, k int, rate float64, d []float64) {
	ca, cb := &r.Cells[w.cell+k-1], &r.Cells[w.cell+k]
	a, b := w.first+k-1, w.first+k
	pa := f.half - rate*f.la*ca.invArea
	pb := pa - f.step
	var energy float64
	if f.Flow >= 0 {
		energy = f.Flow*(r.cv*r.T[a]+0.5*f.Before*f.Before) + pa*ca.Area*f.Before
	} else {
		energy = f.Flow*(r.cv*r.T[b]+0.5*f.Behind*f.Behind) + pb*cb.Area*f.Behind
	}
	d[2*a+1] += pa*ca.Area*f.Before + 0.5*f.Flow*f.Before*f.Before - energy
	d[2*b+1] += energy - pb*cb.Area*f.Behind - 0.5*f.Flow*f.Behind*f.Behind
}
