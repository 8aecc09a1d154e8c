package ode

// At gives the state at a time inside the last accepted step, by the dense
// output of order 7. out must hold all components.
//
// Source: Hairer, Nørsett and Wanner, Solving Ordinary Differential Equations
// I, 2nd edition (1993), section II.6.
func (s *Solver) At(t float64, out []float64) {
	s.between(t, out, 0, s.n)
}

// between is At for the components from … to-1 alone.
func (s *Solver) between(t float64, out []float64, from, to int) {
	if t >= s.t {
		copy(out[from:to], s.y[from:to])
		return
	}
	if s.stiff.implicit {
		s.hermite(t, out, from, to)
		return
	}
	s.prepareDense()
	u := (t - s.tOld) / s.hLast
	w := 1 - u
	c := &s.coeff
	for i := from; i < to; i++ {
		v := c[6][i]
		v = c[5][i] + u*v
		v = c[4][i] + w*v
		v = c[3][i] + u*v
		v = c[2][i] + w*v
		v = c[1][i] + u*v
		v = c[0][i] + w*v
		out[i] = s.yOld[i] + u*v
	}
}

// prepareDense computes the three more stages and the polynomial's coefficients.
func (s *Solver) prepareDense() {
	if s.denseReady {
		return
	}
	n, h := s.n, s.hLast
	// Row j of the stages in the order of the tableau: the first is f at tOld,
	// the thirteenth f at t; accept swapped those two.
	var k [extendedStages][]float64
	copy(k[:], s.k[:])
	k[0], k[stages] = s.k[stages], s.k[0]
	work := s.work[:n]
	for stage := stages + 1; stage < extendedStages; stage++ {
		copy(work, s.yOld)
		for j, a := range matrix[stage][:stage] {
			addScaled(work, h*a, k[j])
		}
		s.sys.Derivatives(s.tOld+nodes[stage]*h, work, k[stage][:n])
		s.calls++
	}
	for i := range n {
		delta := s.y[i] - s.yOld[i]
		s.coeff[0][i] = delta
		s.coeff[1][i] = h*k[0][i] - delta
		s.coeff[2][i] = 2*delta - h*(k[stages][i]+k[0][i])
	}
	for r := range dense {
		c := s.coeff[3+r][:n]
		clear(c)
		for j, d := range dense[r] {
			addScaled(c, h*d, k[j])
		}
	}
	s.denseReady = true
}
