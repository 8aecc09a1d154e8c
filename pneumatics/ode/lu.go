package ode

import "math"

// factorise makes the LU form of 1/(h gamma) - J over the controlled components; false
// where it is singular.
func (s *Solver) factorise(h float64) bool {
	c, st := s.controlled, &s.stiff
	if len(st.order) > 0 {
		return s.factoriseSparse(h)
	}
	st.dense.of(c)
	a, jac := st.dense.a, st.jac
	for j := range c {
		for i := range c {
			a[j*c+i] = -jac[i*c+j]
		}
		a[j*c+j] += 1 / (h * rodasGamma)
	}
	return st.dense.factorise()
}

// factoriseSparse is factorise in the order of elimination, row by row. The diagonal holds the
// inverses of the pivots.
func (s *Solver) factoriseSparse(h float64) bool {
	c, st := s.controlled, &s.stiff
	a := st.lu[:c*c]
	s.arrange(a)
	for i := range c {
		a[i*c+i] += 1 / (h * rodasGamma)
	}
	for k := range c {
		p := k
		for i := k + 1; i < c; i++ {
			if abs(a[i*c+k]) > abs(a[p*c+k]) {
				p = i
			}
		}
		st.pivot[k] = p
		row := a[k*c : k*c+c]
		if p != k {
			other := a[p*c : p*c+c]
			for j := range row {
				row[j], other[j] = other[j], row[j]
			}
		}
		if row[k] == 0 || math.IsNaN(row[k]) {
			return false
		}
		row[k] = 1 / row[k]
		st.column = nonZero(st.column, row, k+1)
		for i := k + 1; i < c; i++ {
			below := a[i*c : i*c+c]
			if below[k] == 0 {
				continue
			}
			m := below[k] * row[k]
			below[k] = m
			for _, j := range st.column {
				below[j] -= m * row[j]
			}
		}
	}
	st.sparse.take(a, c)
	return true
}

// arrange fills a with -J in the order of elimination.
func (s *Solver) arrange(a []float64) {
	c, st := s.controlled, &s.stiff
	for i, from := range st.order {
		row, jac := a[i*c:i*c+c], st.jac[from*c:from*c+c]
		for j, k := range st.order {
			row[j] = -jac[k]
		}
	}
}

// nonZero gives the places from first on at which a row is not zero.
func nonZero(places []int, row []float64, first int) []int {
	places = places[:0]
	for j := first; j < len(row); j++ {
		if row[j] != 0 {
			places = append(places, j)
		}
	}
	return places
}

// sparseRows is the LU form without its zeros: row i is entries start[2 i] to start[2 i+1]
// left of the diagonal, and on to start[2 i+2] right of it.
type sparseRows struct {
	start  []int
	places []int
	values []float64
	x      []float64 // the right-hand side in the order of elimination
}

// take copies the LU form of c rows.
func (r *sparseRows) take(a []float64, c int) {
	r.start, r.places, r.values = append(r.start[:0], 0), r.places[:0], r.values[:0]
	for i := range c {
		row := a[i*c : i*c+c]
		for j, v := range row {
			if j == i {
				r.start = append(r.start, len(r.places))
			} else if v != 0 {
				r.places, r.values = append(r.places, j), append(r.values, v)
			}
		}
		r.start = append(r.start, len(r.places))
	}
	if len(r.x) < c {
		r.x = make([]float64, c)
	}
}

// dot is the scalar product of some entries with x.
func (r *sparseRows) dot(from, to int, x []float64) float64 {
	sum := 0.0
	values := r.values[from:to]
	for k, j := range r.places[from:to] {
		sum += values[k] * x[j]
	}
	return sum
}

// solveSparse replaces b by the solution in the components' own order.
func (s *Solver) solveSparse(b []float64) {
	c, st := s.controlled, &s.stiff
	r := &st.sparse
	x := r.x[:c]
	for i, from := range st.order {
		x[i] = b[from]
	}
	for k, p := range st.pivot[:c] {
		x[k], x[p] = x[p], x[k]
	}
	for i := range x {
		x[i] -= r.dot(r.start[2*i], r.start[2*i+1], x)
	}
	for i := c - 1; i >= 0; i-- {
		x[i] = (x[i] - r.dot(r.start[2*i+1], r.start[2*i+2], x)) * st.lu[i*c+i]
	}
	for i, to := range st.order {
		b[to] = x[i]
	}
}

// solve replaces b by the solution of (1/(h gamma) - J) x = b over the controlled components.
func (s *Solver) solve(b []float64) {
	if len(s.stiff.order) > 0 {
		s.solveSparse(b)
	} else {
		s.stiff.dense.solve(b)
	}
}

// dot is the scalar product over the length of a; b is at least as long.
func dot(a, b []float64) float64 {
	b = b[:len(a)]
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}
