package wave

// split cuts every cell from first on in two equal halves. Totals are shared
// out along the limited slopes, so what a pair holds is what its cell held.
func (t *tube) split(first int) {
	n := t.n
	add := n - first
	if n+add >= len(t.x) {
		return
	}
	// From the top down: a cell's halves go to places that are not read again.
	for i := n - 1; i >= first; i-- {
		lo := first + 2*(i-first)
		dm, dq, de := t.halfDifference(i, first)
		m, q, e := t.mass[i], t.mom[i], t.energy[i]
		m1, q1, e1 := 0.5*m-dm, 0.5*q-dq, 0.5*e-de
		m2, q2, e2 := 0.5*m+dm, 0.5*q+dq, 0.5*e+de
		if !(e1*m1 > 0.55*q1*q1 && e2*m2 > 0.55*q2*q2 && m1 > 0 && m2 > 0) {
			m1, q1, e1 = 0.5*m, 0.5*q, 0.5*e
			m2, q2, e2 = m1, q1, e1
		}
		// the slopes of lower cells need this cell's totals: keep them aside
		t.mass0[lo], t.mom0[lo], t.energy0[lo] = m1, q1, e1
		t.mass0[lo+1], t.mom0[lo+1], t.energy0[lo+1] = m2, q2, e2
	}
	for i := n; i > first; i-- {
		hi := first + 2*(i-first)
		for _, s := range [][]float64{t.base, t.share, t.area, t.x} {
			s[hi] = s[i]
		}
		for _, s := range [][]float64{t.section, t.drag} {
			s[hi-1], s[hi-2] = s[i-1], s[i-1]
		}
	}
	for k := first + 1; k < n+add; k += 2 {
		for _, s := range [][]float64{t.base, t.share, t.area, t.x} {
			s[k] = 0.5 * (s[k-1] + s[k+1])
		}
	}
	t.n = n + add
	copy(t.mass[first:t.n], t.mass0[first:t.n])
	copy(t.mom[first:t.n], t.mom0[first:t.n])
	copy(t.energy[first:t.n], t.energy0[first:t.n])
}

// halfDifference is an eighth of the limited difference of the totals across
// cell i: half of what its two halves differ by, divided by two cells' way.
func (t *tube) halfDifference(i, first int) (dm, dq, de float64) {
	if i <= first || i >= t.n-1 {
		return 0, 0, 0
	}
	d := func(s []float64) float64 { return 0.125 * limit(s[i]-s[i-1], s[i+1]-s[i]) }
	return d(t.mass), d(t.mom), d(t.energy)
}

// merge joins the cells in pairs; their number must be even.
func (t *tube) merge() {
	t.n /= 2
	for i := range t.n {
		for _, s := range [][]float64{t.mass, t.mom, t.energy} {
			s[i] = s[2*i] + s[2*i+1]
		}
		t.section[i], t.drag[i] = t.section[2*i], t.drag[2*i]
	}
	for i := 0; i <= t.n; i++ {
		for _, s := range [][]float64{t.base, t.share, t.area, t.x} {
			s[i] = s[2*i]
		}
	}
}
