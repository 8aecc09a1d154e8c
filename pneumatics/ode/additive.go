package ode

import (
	"math"
	"slices"
)

// Where few components are much faster than the rest, they alone are taken implicitly: the
// system is split into A (y - y0), with a matrix A that has the rows of the fast components of
// the Jacobian and is zero else, and the remainder,
//
//	dy/dt = (f - A (y - y0)) + A (y - y0)
//
// and an additive Runge-Kutta method of order 4, with an embedded one of order 3, takes the
// remainder explicitly and the rest implicitly. Its order holds for any A. A step costs six
// evaluations, those that form A, and the solution of as many equations as there are fast
// components.
//
// Source: C. A. Kennedy, M. H. Carpenter, Additive Runge-Kutta schemes for
// convection-diffusion-reaction equations, Appl. Numer. Math. 44 (2003) 139, ARK4(3)6L[2]SA;
// digits from memory, held by TestAdditiveConditions.
const additiveStages = 6

const additiveGamma = 0.25

var additiveNodes = [additiveStages]float64{0, 1.0 / 2, 83.0 / 250, 31.0 / 50, 17.0 / 20, 1}

var additiveExplicit = [additiveStages][additiveStages]float64{
	1: {1.0 / 2},
	2: {13861.0 / 62500, 6889.0 / 62500},
	3: {-116923316275.0 / 2393684061468, -2731218467317.0 / 15368042101831, 9408046702089.0 / 11113171139209},
	4: {-451086348788.0 / 2902428689909, -2682348792572.0 / 7519795681897, 12662868775082.0 / 11960479115383,
		3355817975965.0 / 11060851509271},
	5: {647845179188.0 / 3216320057751, 73281519250.0 / 8382639484533, 552539513391.0 / 3454668386233,
		3354512671639.0 / 8306763924573, 4040.0 / 17871},
}

// The diagonal, but for the first stage's, is additiveGamma and not stated.
var additiveImplicit = [additiveStages][additiveStages]float64{
	1: {1.0 / 4},
	2: {8611.0 / 62500, -1743.0 / 31250},
	3: {5012029.0 / 34652500, -654441.0 / 2922500, 174375.0 / 388108},
	4: {15267082809.0 / 155376265600, -71443401.0 / 120774400, 730878875.0 / 902184768, 2285395.0 / 8070912},
	5: {82889.0 / 524892, 0, 15625.0 / 83664, 69875.0 / 102672, -2260.0 / 8211},
}

var additiveWeights = [additiveStages]float64{82889.0 / 524892, 0, 15625.0 / 83664, 69875.0 / 102672, -2260.0 / 8211, 1.0 / 4}

var additiveEmbedded = [additiveStages]float64{4586570599.0 / 29645900160, 0, 178811875.0 / 945068544, 814220225.0 / 1159782912,
	-3700637.0 / 11593932, 61727.0 / 225920}

// mostFast is how many components the additive method takes implicitly; more are a system
// for the implicit one.
const mostFast = 8

// mostAdditive is after how many steps in a row the implicit method, which waves do not
// bind, is tried for longer ones, and onTrial how many it has to get there; where it does not, it is tried after twice as many
// steps the next time, up to rarely as many times.
const (
	mostAdditive = 40
	onTrial      = 6
	rarely       = 32
)

// keepMatrix is for how many steps a matrix holds.
const keepMatrix = 2

// additive is the work space of the additive method.
type additive struct {
	wanted bool // the next step looks for them
	on     bool
	made   bool // the last step was one of this method
	age    int  // steps made with the matrix
	steps  int  // made in a row
	most   int  // of them before the implicit method is tried
	// reached is how long the last step was before the implicit method was tried, 0: it is not on trial; tried is how many steps
	// that has made since.
	reached float64
	tried   int

	rows    []int   // the fast components
	columns []int   // the components that their rates depend on, in order
	groups  [][]int // places in columns: of a group no two bear on one rate
	bears   []bool  // beside matrix: the column bears on the rate
	matrix  []float64
	step    []float64 // of the difference quotients, beside columns
	lu      columns
	fast    [additiveStages][mostFast]float64 // A (z - y) of the stages
	speeds  []float64
	sorted  []float64
}

// separate looks in the Jacobian for components much faster than the rest, and tells
// whether there are some and not many.
func (s *Solver) separate() bool {
	const (
		faster = 2.5  // than the middle one of the components
		counts = 1e-4 // of a rate's speed: what it depends on
	)
	a, c, jac := &s.add, s.controlled, s.stiff.jac
	size := func(j int) float64 { return s.scale[j] + abs(s.y[j]) }
	a.speeds = a.speeds[:0]
	for i := range c {
		sum := 0.0
		for j, v := range jac[i*c : i*c+c] {
			sum += abs(v) * size(j)
		}
		a.speeds = append(a.speeds, sum/size(i))
	}
	a.sorted = append(a.sorted[:0], a.speeds...)
	slices.Sort(a.sorted)
	a.rows, a.columns, a.bears, a.matrix = a.rows[:0], a.columns[:0], a.bears[:0], a.matrix[:0]
	for i, speed := range a.speeds {
		if speed > faster*a.sorted[c/2] {
			a.rows = append(a.rows, i)
		}
	}
	if len(a.rows) == 0 || len(a.rows) > mostFast {
		return false
	}
	bears := func(i, j int) bool { return abs(jac[i*c+j])*size(j) > counts*a.speeds[i]*size(i) }
	for j := range c {
		if slices.ContainsFunc(a.rows, func(i int) bool { return bears(i, j) }) {
			a.columns = append(a.columns, j)
		}
	}
	for _, i := range a.rows {
		for _, j := range a.columns {
			v := jac[i*c+j]
			if !bears(i, j) {
				v = 0
			}
			a.bears, a.matrix = append(a.bears, bears(i, j)), append(a.matrix, v)
		}
	}
	a.group()
	a.age, a.steps = 0, 0
	s.noteRate()
	return true
}

// group puts columns together of which no two bear on one rate: one difference quotient
// gives them all (Curtis, Powell and Reid).
func (a *additive) group() {
	groups := a.groups[:cap(a.groups)]
	n := 0
	for k := range a.columns {
		at := 0
		for at < n && a.meets(k, groups[at]) {
			at++
		}
		if at == n {
			n++
			if at == len(groups) {
				groups = append(groups, nil)
			}
			groups[at] = groups[at][:0]
		}
		groups[at] = append(groups[at], k)
	}
	a.groups = groups[:n]
}

// meets tells whether a column bears on a rate that one of some others bears on.
func (a *additive) meets(k int, others []int) bool {
	m := len(a.columns)
	for r := range a.rows {
		row := a.bears[r*m : r*m+m]
		if row[k] && slices.ContainsFunc(others, func(o int) bool { return row[o] }) {
			return true
		}
	}
	return false
}

// refresh forms the matrix at the current point.
func (s *Solver) refresh() {
	a, n, m := &s.add, s.n, len(s.add.columns)
	if s.linear != nil {
		s.linear.Linearise(s.t, s.y[:n])
		defer s.linear.Linearised()
	}
	if len(a.step) < m {
		a.step = make([]float64, m)
	}
	copy(s.next[:n], s.y[:n])
	for _, group := range a.groups {
		for _, k := range group {
			j := a.columns[k]
			s.next[j] = s.y[j] + rootEps*(s.scale[j]+abs(s.y[j]))
			a.step[k] = s.next[j] - s.y[j]
		}
		s.sys.Derivatives(s.t, s.next[:n], s.k[1][:n])
		s.calls++
		for _, k := range group {
			for r, i := range a.rows {
				if a.bears[r*m+k] {
					a.matrix[r*m+k] = (s.k[1][i] - s.k[0][i]) / a.step[k]
				}
			}
			s.next[a.columns[k]] = s.y[a.columns[k]]
		}
	}
	a.age = 0
	s.noteRate()
}

// noteRate takes the fastest decay to be that of all the fast components together.
func (s *Solver) noteRate() {
	a, m, sum := &s.add, len(s.add.columns), 0.0
	for r, i := range a.rows {
		if k, ok := slices.BinarySearch(a.columns, i); ok {
			sum += abs(a.matrix[r*m+k])
		}
	}
	s.stiff.rate = sum
}

// behind tells of an implicit step of length h, which took so much work, that the additive method, left to try longer ones, got further for
// the same.
func (a *additive) behind(h, work float64) bool {
	if a.reached == 0 {
		return false
	}
	if a.tried++; a.tried < onTrial {
		return false
	}
	behind := h*a.work() < a.reached*work
	a.reached = 0
	if behind {
		a.most = min(2*a.most, rarely*mostAdditive)
	} else {
		a.most = mostAdditive
	}
	return behind
}

// work is what a step takes, in evaluations, of which its algebra is little.
func (a *additive) work() float64 { return additiveStages + float64(len(a.groups))/keepMatrix }

// additiveTrial makes one trial step: next is the new point; the scaled error is returned.
func (s *Solver) additiveTrial(h float64) float64 {
	a, n := &s.add, s.n
	if !a.factorise(h * additiveGamma) {
		return math.NaN()
	}
	z := s.work[:n]
	for i := 1; i < additiveStages; i++ {
		s.additiveStage(i, h, z)
		s.sys.Derivatives(s.t+additiveNodes[i]*h, z, s.k[i][:n])
		s.calls++
	}
	var last [mostFast]float64
	for r, at := range a.rows {
		last[r] = z[at]
	}
	copy(s.next[:n], s.y[:n])
	e := z
	clear(e)
	for j, v := range additiveWeights {
		addScaled(s.next[:n], h*v, s.k[j])
		addScaled(e, h*(v-additiveEmbedded[j]), s.k[j])
	}
	// The embedded method misses by nearly as much as the method itself where the matrix was not
	// that of the stages; the last stage, at the same time, is bound by the implicit part.
	for r, at := range a.rows {
		e[at] = max(abs(e[at]), abs(s.next[at]-last[r]))
	}
	const strict = 4 // makes the result as good as the other methods' at the same tolerance, found by trying
	return strict * s.scaledNorm(e)
}

// additiveStage leaves in z the argument of stage i.
func (s *Solver) additiveStage(i int, h float64, z []float64) {
	a, m := &s.add, len(s.add.columns)
	arg := z[:s.controlled] // the quadratures are in none
	copy(arg, s.y)
	for j, v := range additiveExplicit[i][:i] {
		addScaled(arg, h*v, s.k[j])
	}
	for r, at := range a.rows {
		for j := range i {
			z[at] += h * (additiveImplicit[i][j] - additiveExplicit[i][j]) * a.fast[j][r]
		}
	}
	var x [mostFast]float64 // what the stage's own rate adds to the fast components
	for r := range a.rows {
		for k, j := range a.columns {
			x[r] += h * additiveGamma * a.matrix[r*m+k] * (z[j] - s.y[j])
		}
	}
	a.solve(x[:len(a.rows)])
	for r, at := range a.rows {
		z[at] += x[r]
		a.fast[i][r] = x[r] / (h * additiveGamma)
	}
}

// factorise makes the LU form of 1 - h A over the fast components; false where it is singular.
func (a *additive) factorise(h float64) bool {
	n, m := len(a.rows), len(a.columns)
	a.lu.of(n)
	clear(a.lu.a)
	for q, at := range a.rows {
		column := a.lu.a[q*n : q*n+n]
		if k, ok := slices.BinarySearch(a.columns, at); ok {
			for r := range column {
				column[r] = -h * a.matrix[r*m+k]
			}
		}
		column[q]++
	}
	return a.lu.factorise()
}

// solve replaces x by the solution of (1 - h A) y = x.
func (a *additive) solve(x []float64) { a.lu.solve(x) }
