package ode

import "math"

// On a stiff stretch, where stability and not accuracy limits the explicit
// method's step, the solver goes over to the linearly implicit method RODAS of
// order 4, which is L-stable and stiffly accurate:
//
//	(1/(h gamma) - J) K_i = f(t + alpha_i h, y + sum a_ij K_j) + sum (c_ij/h) K_j + gamma_i h df/dt
//
// Source: E. Hairer, G. Wanner, Solving Ordinary Differential Equations II, 2nd
// edition (1996), section IV.7; digits from memory, held by TestRodasOrder.
const rodasStages = 6

const rodasGamma = 0.25

var rodasAlpha = [rodasStages]float64{0, 0.386, 0.21, 0.63, 1, 1}

var rodasGammas = [rodasStages]float64{0.25, -0.1043, 0.1035, -0.0362, 0, 0}

var rodasA = [rodasStages][rodasStages]float64{
	1: {1.544000000000000},
	2: {0.9466785280815826, 0.2557011698983284},
	3: {3.314825187068521, 2.896124015972201, 0.9986419139977817},
	4: {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950},
	5: {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1},
}

var rodasC = [rodasStages][rodasStages]float64{
	1: {-5.668800000000000},
	2: {-2.430093356833875, -0.2063599157091915},
	3: {-0.1073529058151375, -9.594562251023355, -20.47028614809616},
	4: {7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160},
	5: {8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054},
}

// The new point is the last stage's argument plus its K; the last K is the error.

// stiffness is the work space of the implicit method.
type stiffness struct {
	on       bool
	patience int       // how many steps in a row at the explicit method's stability limit count as stiff
	hits     int       // steps at the explicit method's stability limit, with none between that only its error limited
	bound    int       // such steps since the implicit method was last tried among waves
	tryAfter int       // how many of them have it tried
	lenient  int       // trial steps of the implicit method that may still miss the tolerance somewhat
	calm     int       // consecutive implicit steps the explicit method could have made
	patient  int       // how many of them end the stretch, among waves
	still    int       // consecutive implicit steps of one length
	jac      []float64 // n rows, controlled columns
	dense    columns
	order    []int     // of elimination; empty: as they stand, and no zeros are looked for
	lu       []float64 // in that order, controlled x controlled
	pivot    []int
	sparse   sparseRows
	column   []int // of the pivot's row, in use
	ft       []float64
	rate     float64 // fastest decay that the last explicit step saw [1/s]
	implicit bool    // the last step was an implicit one
}

// stabilityLimit is |h lambda| on the explicit method's stability boundary
// along the negative real axis (Hairer's code uses the same figure).
const stabilityLimit = 6.1

// noticeStiffness counts the steps whose length stability limits, by comparing
// the derivative at two points close to each other: the last stage and the new
// point. Without waves, a step of which the error tells nothing, for it was thrown away or would let it be ten times as long, does not end
// the count: what is at rest is thrown off by rounding in a step that is too long, and is back at its rest in the next.
func (s *Solver) noticeStiffness(h, err float64) {
	var num, den float64
	last, end := s.k[stages-1], s.k[stages]
	for i := range s.controlled {
		w := 1 / (s.scale[i] + abs(s.next[i]))
		a, b := (end[i]-last[i])*w, (s.next[i]-s.work[i])*w
		num += a * a
		den += b * b
	}
	s.stiff.rate = sqrt(num / den)
	const tenfold = 1e-8 // the method's error goes with the eighth power of the step
	if den > 0 && h*s.stiff.rate > 0.5*stabilityLimit {
		s.stiff.hits++
		s.stiff.bound++
	} else if s.waves || err > tenfold && err <= 1 {
		s.stiff.hits = 0
	}
	switch st := &s.stiff; {
	case s.waves && st.bound >= st.tryAfter:
		st.patient = hurried
		if st.tryAfter >= late*firstTry {
			st.patient = unhurried
		}
		st.on, st.calm, st.bound, st.tryAfter, st.lenient = true, 0, 0, 2*st.tryAfter, leniently
		s.add.on, s.add.wanted = false, false
	case st.hits >= st.patience:
		st.on, st.calm, st.patient = true, 0, hurried
		s.add.on, s.add.wanted = false, s.waves
	}
}

// Among waves the implicit method, which they do not bind, is tried now and then: they may have died down to what steps at the limit
// of stability keep up. It damps them where its first trial steps are let grow, for all that such waves, about as large as
// the tolerance, look like errors to it.
const (
	firstTry  = 24  // after so many steps at the limit of stability; after twice as many each time that does not pay
	lenience  = 10  // times the tolerance, in the first trial steps; those that miss it are followed by shorter ones
	leniently = 8   // so many of them
	leap      = 100 // times as long as the additive steps the first of them is: waves only die in steps far longer than they last
	paying    = 4   // times as far as the explicit method gets for the same work: it has paid
	// Implicit steps in a row that get no further than the explicit method would end the stretch: more of them from the third trial in vain
	// on, for the slowest waves die down in them before the steps grow. With three a steady flow through hoses was followed in the steps of
	// its waves; with twelve in no fewer than with eight.
	hurried, unhurried, late = 3, 8, 4
)

// stiffStep makes one accepted step with the implicit or the additive method.
func (s *Solver) stiffStep(limit float64) Outcome {
	s.evaluate()
	s.prepare()
	retried := false
	for {
		s.steps++
		h, last := s.trialLength(limit)
		if s.t+h <= s.t {
			return StepTooSmall
		}
		err := s.stiffTrial(h)
		if err <= s.allowed() {
			t := s.t + h
			if last {
				t = limit
			}
			s.sys.Derivatives(t, s.next[:s.n], s.k[stages][:s.n])
			s.calls++
			s.accept(t, h, retried, 1/fourthRoot(err))
			s.stiff.implicit, s.add.made = true, s.add.on
			s.calmDown(h)
			return Reached
		}
		s.rejected++
		s.h = h * shorter(err, fourthRoot(err), retried)
		s.missed(retried)
		retried = true
		if s.t+s.h <= s.t {
			return StepTooSmall
		}
		if s.steps >= s.maxSteps {
			return TooManySteps
		}
	}
}

// prepare readies a step: with the Jacobian, or with the additive method's part of it.
func (s *Solver) prepare() {
	a := &s.add
	if !a.on {
		s.jacobian()
		a.on = a.wanted && s.separate()
		a.wanted = false
	} else if a.age >= keepMatrix {
		s.refresh()
	}
}

// missed readies the next trial of a step.
func (s *Solver) missed(again bool) {
	switch a := &s.add; {
	case !a.on:
	case again: // other components may be fast by now; the steps made count on towards the next trial of the implicit method
		s.jacobian()
		made := a.steps
		a.on = s.separate()
		a.steps = made
	case a.age > 0:
		s.refresh()
	}
}

// stiffTrial makes one trial step of the method in use; the scaled error is returned.
func (s *Solver) stiffTrial(h float64) float64 {
	if s.add.on {
		return s.additiveTrial(h)
	}
	if !s.factorise(h) {
		return math.NaN()
	}
	return s.rodas(h)
}

// allowed is the error that a trial step may have.
func (s *Solver) allowed() float64 {
	if s.stiff.lenient > 0 && !s.add.on {
		s.stiff.lenient--
		return lenience
	}
	return 1
}

// stayStable keeps the next step of a system with waves from growing past the limit of
// stability that the last one has seen: such a step would be thrown away.
func (s *Solver) stayStable() {
	if s.waves && s.stiff.hits > 0 {
		s.h = min(s.h, stabilityLimit/s.stiff.rate)
	}
}

// mostStill is after how many implicit steps of one length the explicit method has a look.
const mostStill = 20

// stands counts implicit steps whose length error limits, and that do not get longer or shorter by a thousandth. So
// they do where a corner of the right-hand side lies within a step and the Jacobian is that of its other side, on which
// a system in balance just behind the corner has rates that are not zero: stages to and fro, and an end where the step
// began, for ever. The explicit method goes over the corner, and the next Jacobian is that of the balance.
func (s *Solver) stands(h float64) bool {
	if st := &s.stiff; h < s.hMax && abs(s.h-h) < 1e-3*h {
		st.still++
	} else {
		st.still = 0
	}
	return s.stiff.still >= mostStill
}

// calmDown returns to the explicit method where it could make the same steps, or, in a
// system with waves, where it would go as far for the same work; and where steps stand.
func (s *Solver) calmDown(h float64) {
	st, a := &s.stiff, &s.add
	if s.stands(h) {
		st.on, st.hits, st.calm, st.still, a.on, a.reached = false, 0, 0, 0, false, 0
		return
	}
	calm, enough := false, 5
	switch {
	case a.on:
		a.age++
		a.steps++
		calm, enough = h < s.explicitReach(a.work()), 3
	case s.waves:
		// The work by measuring: its calls, and for the algebra c^2/30 more of c components.
		c := float64(s.controlled)
		work := c + 8 + c*c/30
		reach := s.explicitReach(work)
		calm, enough = h < reach, st.patient
		if h > paying*reach {
			st.tryAfter = firstTry
		}
		if a.behind(h, work) {
			a.wanted, st.calm = true, 0
			return
		}
	default:
		calm = !s.exceeds(1/h, s.yOld)
	}
	if calm {
		st.calm++
	} else {
		st.calm = 0
	}
	switch {
	case st.calm >= enough:
		st.on, st.hits, a.on, a.reached = false, 0, false, 0
	case a.on && a.steps >= a.most: // the waves may have died down
		a.on, a.reached, a.tried, st.calm = false, h, 0, 0
		s.h, st.lenient = leap*h, leniently
	}
}

// explicitReach is how far the explicit method goes at its limit of stability for some
// evaluations; a sixth of its steps is thrown away.
func (s *Solver) explicitReach(evaluations float64) float64 {
	steps := evaluations / stages / 1.2
	return steps * 5 / s.stiff.rate
}

// rootEps is the square root of the unit of rounding.
const rootEps = 1.5e-8

// jacobian fills the derivatives by the controlled components and by time. The other
// components are quadratures on which nothing depends.
func (s *Solver) jacobian() {
	n, c := s.n, s.controlled
	st := &s.stiff
	if len(st.jac) < n*c || len(st.pivot) < c || len(st.ft) < n {
		st.jac, st.lu, st.pivot, st.ft = make([]float64, n*c), make([]float64, c*c), make([]int, c), make([]float64, n)
	}
	if s.differ == nil || !s.differ.Jacobian(s.t, s.y[:n], s.k[0][:n], st.jac, st.ft[:n]) {
		s.differences()
	}
}

// exceeds tells that an entry of the Jacobian, scaled by the sizes of state y, whose Jacobian it is, is larger than rate [1/s].
func (s *Solver) exceeds(rate float64, y []float64) bool {
	c := s.controlled
	sizes := s.work[:c]
	for j := range sizes {
		sizes[j] = s.scale[j] + abs(y[j])
	}
	for i, size := range sizes {
		limit := rate * size
		for j, v := range s.stiff.jac[i*c : i*c+c] {
			if abs(v)*sizes[j] > limit {
				return true
			}
		}
	}
	return false
}

// differences fills the Jacobian with one-sided difference quotients.
func (s *Solver) differences() {
	n, c := s.n, s.controlled
	st := &s.stiff
	f := s.k[0]
	copy(s.next[:n], s.y[:n])
	if s.linear != nil {
		s.linear.Linearise(s.t, s.y[:n])
		defer s.linear.Linearised()
	}
	const eps = rootEps
	for j := range c {
		size := s.scale[j] + abs(s.y[j])
		d := eps * size
		s.next[j] = s.y[j] + d
		d = s.next[j] - s.y[j]
		s.sys.Derivatives(s.t, s.next[:n], s.k[1][:n])
		s.calls++
		s.next[j] = s.y[j]
		for i := range n {
			v := s.k[1][i] - f[i]
			if v == 0 { // most are
				st.jac[i*c+j] = 0
				continue
			}
			st.jac[i*c+j] = v / d
		}
	}
	dt := eps * max(abs(s.t), abs(s.h))
	s.sys.Derivatives(s.t+dt, s.y[:n], s.k[1][:n])
	s.calls++
	for i := range n {
		st.ft[i] = (s.k[1][i] - f[i]) / dt
	}
}

// rodas makes one trial step: next is the new point; the scaled error is
// returned. Its stages are written out like those of stagesOf.
func (s *Solver) rodas(h float64) float64 {
	c := s.controlled
	y, z, ft, f0, f := s.y[:c], s.work[:c], s.stiff.ft[:c], s.k[0][:c], s.k[rodasStages+1][:c]
	k1, k2, k3, k4, k5, k6 := s.k[1][:c], s.k[2][:c], s.k[3][:c], s.k[4][:c], s.k[5][:c], s.k[6][:c]
	inv := 1 / h
	clear(s.next[c:s.n])
	s.bookRates(0, s.k[0])
	g := h * rodasGammas[0]
	for i := range k1 {
		k1[i] = f0[i] + g*ft[i]
	}
	s.solve(k1)
	for i := range z {
		z[i] = y[i] + rodasA[1][0]*k1[i]
	}
	s.stageRates(1, h)
	g = h * rodasGammas[1]
	for i := range k2 {
		k2[i] = f[i] + g*ft[i] + inv*(rodasC[1][0]*k1[i])
	}
	s.solve(k2)
	for i := range z {
		z[i] = y[i] + rodasA[2][0]*k1[i] + rodasA[2][1]*k2[i]
	}
	s.stageRates(2, h)
	g = h * rodasGammas[2]
	for i := range k3 {
		k3[i] = f[i] + g*ft[i] + inv*(rodasC[2][0]*k1[i]+rodasC[2][1]*k2[i])
	}
	s.solve(k3)
	for i := range z {
		z[i] = y[i] + rodasA[3][0]*k1[i] + rodasA[3][1]*k2[i] + rodasA[3][2]*k3[i]
	}
	s.stageRates(3, h)
	g = h * rodasGammas[3]
	for i := range k4 {
		k4[i] = f[i] + g*ft[i] + inv*(rodasC[3][0]*k1[i]+rodasC[3][1]*k2[i]+rodasC[3][2]*k3[i])
	}
	s.solve(k4)
	for i := range z {
		z[i] = y[i] + rodasA[4][0]*k1[i] + rodasA[4][1]*k2[i] + rodasA[4][2]*k3[i] + rodasA[4][3]*k4[i]
	}
	s.stageRates(4, h) // the last two of rodasGammas are zero
	for i := range k5 {
		k5[i] = f[i] + inv*(rodasC[4][0]*k1[i]+rodasC[4][1]*k2[i]+rodasC[4][2]*k3[i]+rodasC[4][3]*k4[i])
	}
	s.solve(k5)
	for i := range z {
		z[i] += k5[i] // rodasA[5] is rodasA[4], and 1
	}
	s.stageRates(5, h)
	for i := range k6 {
		k6[i] = f[i] + inv*(rodasC[5][0]*k1[i]+rodasC[5][1]*k2[i]+rodasC[5][2]*k3[i]+rodasC[5][3]*k4[i]+rodasC[5][4]*k5[i])
	}
	s.solve(k6)
	next := s.next[:c]
	for i := range next {
		next[i] = z[i] + k6[i]
	}
	s.closeBook(h)
	return s.scaledNorm(k6)
}

// stageRates computes the rates of a stage.
func (s *Solver) stageRates(stage int, h float64) {
	f := s.k[rodasStages+1][:s.n]
	s.sys.Derivatives(s.t+rodasAlpha[stage]*h, s.work[:s.n], f)
	s.calls++
	s.bookRates(stage, f)
}

// rodasWeights are the weights of the rates, and of J K_i, in the new point: what the
// recursion of the K_i comes to for a component on which nothing depends.
var rodasWeights = makeRodasWeights()

func makeRodasWeights() (b [rodasStages]float64) {
	m := rodasA[rodasStages-1]
	m[rodasStages-1] = 1
	for i := rodasStages - 1; i >= 0; i-- { // b (1 - gamma C) = gamma m
		b[i] = rodasGamma * m[i]
		for j := i + 1; j < rodasStages; j++ {
			b[i] += rodasGamma * rodasC[j][i] * b[j]
		}
	}
	return b
}

// bookRates adds a stage's rates of the quadratures to next.
func (s *Solver) bookRates(stage int, f []float64) {
	b, book := rodasWeights[stage], s.next[s.controlled:s.n]
	f = f[s.controlled:s.n]
	for i := range book {
		book[i] += b * f[i]
	}
}

// closeBook makes the quadratures' new values of their rates in next:
//
//	y + h (sum b_i f_i + J sum b_i K_i + h df/dt sum b_i gamma_i)
func (s *Solver) closeBook(h float64) {
	n, c, b := s.n, s.controlled, &rodasWeights
	sum := s.work[:c]
	for i := range sum {
		sum[i] = b[0]*s.k[1][i] + b[1]*s.k[2][i] + b[2]*s.k[3][i] + b[3]*s.k[4][i] + b[4]*s.k[5][i] + b[5]*s.k[6][i]
	}
	late := 0.0
	for i, g := range rodasGammas {
		late += h * b[i] * g
	}
	for i := c; i < n; i++ {
		s.next[i] = s.y[i] + h*(s.next[i]+dot(s.stiff.jac[i*c:i*c+c], sum)+late*s.stiff.ft[i])
	}
}

// scaledNorm is the size of the new point's error, 1 at the tolerance.
func (s *Solver) scaledNorm(e []float64) float64 {
	var sum float64
	for c := range s.controlled {
		w := e[c] / (s.rtol * (s.scale[c] + max(abs(s.y[c]), abs(s.next[c]))))
		sum += w * w
	}
	return sqrt(sum / float64(s.controlled))
}

// addScaled adds f times b to a; b is at least as long.
func addScaled(a []float64, f float64, b []float64) {
	if f == 0 {
		return
	}
	b = b[:len(a)]
	for i, v := range b {
		a[i] += f * v
	}
}

// hermite is the dense output of an implicit step: the cubic through both ends
// with their derivatives.
func (s *Solver) hermite(t float64, out []float64, from, to int) {
	h := s.hLast
	u := (t - s.tOld) / h
	w := 1 - u
	f0, f1 := s.k[stages], s.k[0]
	for i := from; i < to; i++ {
		d := s.y[i] - s.yOld[i]
		out[i] = s.yOld[i]*w + s.y[i]*u + u*w*((w-u)*-d+w*h*f0[i]-u*h*f1[i])
	}
}
