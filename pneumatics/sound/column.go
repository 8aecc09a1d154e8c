package sound

import "math"

// Motion is how a projectile moves, at rising times from 0 on.
type Motion struct {
	Time, Position, Speed []float64 // [s], [m], [m/s]
}

// at gives position and speed at t, straight lines between the times; i is where to look from on, and what it
// comes to. Before 0 the projectile stands where it begins.
func (m *Motion) at(t float64, i *int) (x, v float64) {
	if t <= 0 {
		return m.Position[0], 0
	}
	last := len(m.Time) - 1
	for *i < last-1 && m.Time[*i+1] < t {
		*i++
	}
	for *i > 0 && m.Time[*i] > t {
		*i--
	}
	u := min((t-m.Time[*i])/(m.Time[*i+1]-m.Time[*i]), 1)
	return m.Position[*i] + u*(m.Position[*i+1]-m.Position[*i]), m.Speed[*i] + u*(m.Speed[*i+1]-m.Speed[*i])
}

// Column is the air ahead of a projectile in a bore: plane waves that run from it to the
// open end and back, ever faster as the column shortens. Linear acoustics: the projectile is far slower than
// sound, and no wave becomes a shock on its way (ShockDistance).
//
//	f(t2) = g(t0) + rho c v(t1),  t1 - t0 = t2 - t1 = l(t1)/c
//
// f is the wave that reaches the mouth, g the one that it sent back, l the way from projectile to
// mouth.
type Column struct {
	Air    Air
	Radius float64 // of the bore [m]
	Length float64 // from the rearmost seat to the muzzle [m]
	Mouth  Mouth
	Motion Motion // at least two times
}

// Pulse gives how the mass flow out of the muzzle changes until the last time of the motion.
func (c Column) Pulse() Pulse {
	const most, fine = 60000, 8
	until := c.Motion.Time[len(c.Motion.Time)-1]
	step := max(c.Radius/(c.Air.Speed*fine), until/most)
	mouth := newFilter(c.Mouth, step*c.Air.Speed/c.Radius, 0)
	impedance := c.Air.Speed / (math.Pi * c.Radius * c.Radius) // pressure over mass flow
	sent, out := []float64{0}, Pulse{Step: step, Source: []float64{0}}
	var at, last float64
	i := 0
	for n := 1; float64(n)*step < until; n++ {
		t := float64(n) * step
		var x, v float64
		for at, x, v = at+step, 0, 0; ; {
			x, v = c.Motion.at(at, &i)
			miss := t - at - (c.Length-x)/c.Air.Speed
			at += miss / (1 - v/c.Air.Speed)
			if math.Abs(miss) < 1e-3*step {
				break
			}
		}
		wave := backAt(sent, (2*at-t)/step) + c.Air.Density*c.Air.Speed*v
		q := (2*wave/impedance - mouth.s1) / (1 + mouth.b0)
		mouth.take(q)
		sent = append(sent, wave-impedance*q)
		out.Source = append(out.Source, (q-last)/step)
		last = q
	}
	return out
}

// backAt is what was sent at a time in steps; nothing before 0, and the last there is where the way is shorter than
// a step.
func backAt(sent []float64, at float64) float64 {
	i := int(math.Floor(at))
	switch {
	case i < 0:
		return 0
	case i >= len(sent)-1:
		return sent[len(sent)-1]
	}
	return sent[i] + (at-float64(i))*(sent[i+1]-sent[i])
}

// Displaced gives how the mass flow of what moves aside in the open changes: rho A dv/dt of a section [m2],
// stiffly. That of a projectile over a tube, which has no column.
func Displaced(air Air, section float64, m Motion) Pulse {
	n := len(m.Time)
	out := Pulse{Step: (m.Time[n-1] - m.Time[0]) / float64(n-1), Source: make([]float64, n)}
	for i := 1; i < n; i++ {
		out.Source[i] = Stiff(air, section, (m.Speed[i]-m.Speed[i-1])/(m.Time[i]-m.Time[i-1]))
	}
	return out
}

// Stiff gives the rate of change of the mass flow [kg/s2] of a column that follows the
// projectile as if it were stiff: rho A dv/dt, of a section [m2] and an acceleration [m/s2].
func Stiff(air Air, section, acceleration float64) float64 {
	return air.Density * section * acceleration
}

// ShockDistance gives the way after which what a projectile of constant acceleration [m/s2] sends
// ahead has become a shock [m]: 2 c^2/((gamma + 1) dv/dt). Source: Landau and Lifshitz, Fluid
// Mechanics, section 101, problem (from memory).
func ShockDistance(air Air, acceleration float64) float64 {
	const gamma = 1.4
	return 2 * air.Speed * air.Speed / ((gamma + 1) * acceleration)
}
