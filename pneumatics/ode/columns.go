package ode

import "math"

// columns is a small dense square matrix, column after column, and its LU form. Substitution
// by columns has no long sum that each of its terms waits for.
type columns struct {
	n     int
	a     []float64
	pivot []int
}

// of readies the matrix for so many rows, without clearing it.
func (m *columns) of(n int) {
	if cap(m.a) < n*n {
		m.a, m.pivot = make([]float64, n*n), make([]int, n)
	}
	m.n, m.a, m.pivot = n, m.a[:n*n], m.pivot[:n]
}

// factorise puts its LU form in its place, with row exchanges; false where it is singular.
// The diagonal holds the inverses of the pivots.
func (m *columns) factorise() bool {
	n, a := m.n, m.a
	for k := range n {
		lead := a[k*n : k*n+n]
		p := k
		for i := k + 1; i < n; i++ {
			if abs(lead[i]) > abs(lead[p]) {
				p = i
			}
		}
		m.pivot[k] = p
		if lead[p] == 0 || math.IsNaN(lead[p]) {
			return false
		}
		if p != k {
			for j := 0; j < len(a); j += n {
				a[j+k], a[j+p] = a[j+p], a[j+k]
			}
		}
		inv := 1 / lead[k]
		lead[k] = inv
		below := lead[k+1:]
		for i := range below {
			below[i] *= inv
		}
		for j := k + 1; j < n; j++ {
			column := a[j*n+k : j*n+n]
			if v := column[0]; v != 0 {
				subtract(column[1:], v, below)
			}
		}
	}
	return true
}

// solve replaces x by the solution with the LU form.
func (m *columns) solve(x []float64) {
	n, a := m.n, m.a
	x = x[:n]
	for k, p := range m.pivot {
		if p != k {
			x[k], x[p] = x[p], x[k]
		}
	}
	for k, v := range x {
		if v = x[k]; v != 0 {
			subtract(x[k+1:], v, a[k*n+k+1:k*n+n])
		}
	}
	for k := n - 1; k >= 0; k-- {
		column := a[k*n : k*n+k+1]
		v := x[k] * column[k]
		x[k] = v
		if v != 0 {
			subtract(x[:k], v, column)
		}
	}
}

// subtract takes v times b off a; b is at least as long.
func subtract(a []float64, v float64, b []float64) {
	b = b[:len(a)]
	for i := range a {
		a[i] -= v * b[i]
	}
}
