package row

import "math"

// forceMouth books the gas at an open end. inward is +1 where the line lies behind
// the face, so that q is positive for gas that enters. Gas that enters falls to the
// pressure of its speed, with the loss of a sharp edge; gas that leaves meets the
// pressure outside, or that at which it is just sonic.
func (r *Rows) forceMouth(f *Face, law float64, c *Cell, node, outside int, inward float64, d []float64) {
	q, u := f.Flow*inward, f.Before*inward
	drag := law * math.Abs(q) * u * f.length
	v := u                // speed in the mouth
	var p, energy float64 // pressure in the mouth; energy that enters the line
	if q > 0 {
		p = r.inletPressure(r.P[outside]-f.loss*0.5*q*u*c.invArea, r.T[outside], u)
		energy = q * r.cp * r.T[outside]
	} else {
		p = r.outletPressure(c, q, u, r.T[node], r.P[outside])
		v = r.outletSpeed(c, q, u, r.T[node], p)
		energy = q * (r.cp*r.T[node] + 0.5*u*u)
	}
	drag *= 2 * r.P[node] / (r.P[node] + max(p, 0)) // friction of the mean density, the mouth's taken in
	r.give(d, outside, -q, -energy)
	d[2*node] += q
	d[2*node+1] += energy - q*u*(v-0.5*u) - (p-r.P[node])*c.Area*u + drag*u
	f.pressure += inward * (p - r.P[node] + (q*v-drag)*c.invArea)
}

// outletSpeed is the speed at the pressure p of gas that leaves a line with the
// temperature t and the speed u in its last cell (negative, as q is), by its total
// enthalpy.
func (r *Rows) outletSpeed(c *Cell, q, u, t, p float64) float64 {
	a := q * r.gas.R * c.invArea / p // speed over temperature
	b := 2 * a * (t + u*u*r.perCp)
	return b / (1 + math.Sqrt(1+2*a*b*r.perCp))
}

// outletPressure is the pressure in the mouth of a line that gas of temperature t
// and speed u leaves: that outside, or where it would be faster than sound there, the
// pressure at which the flow q is sonic.
func (r *Rows) outletPressure(c *Cell, q, u, t, outside float64) float64 {
	sonic := r.sonicTemperature(t, u)
	limit := outside * c.choke
	if q*q*sonic <= limit*limit {
		return outside
	}
	return math.Abs(q) * math.Sqrt(sonic) / c.choke
}

// inletPressure is what is left of a pressure p0 [Pa] when gas of temperature t0 [K]
// has reached the speed u without a loss.
func (r *Rows) inletPressure(p0, t0, u float64) float64 {
	return r.gas.Isentropic(p0, max(0, 1-u*u*r.perCp/t0))
}

// stagnation is the inverse: pressure and temperature of gas of speed u brought to
// rest without a loss.
func (r *Rows) stagnation(p, t, u float64) (p0, t0 float64) {
	z := 1 + u*u*r.perCp/t
	return r.gas.Isentropic(p, z), t * z
}

// sonicTemperature is the temperature of gas at the speed of sound that has
// temperature t at the speed u.
func (r *Rows) sonicTemperature(t, u float64) float64 {
	return (t + u*u*r.perCp) * r.sonic
}
