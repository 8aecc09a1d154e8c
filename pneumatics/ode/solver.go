// Package ode integrates systems of ordinary differential equations whose
// right-hand side has kinks and switches: an explicit Runge-Kutta method of
// order 8 with adaptive steps, dense output of order 7, and events that end a
// step where they happen; on stiff stretches a linearly implicit method of order
// 4 takes over by itself, or, for a few fast components among waves, an additive one.
//
// It knows nothing of gases. The caller ends a run at each known discontinuity
// (Advance stops exactly at its limit) and at each unknown one (an event).
//
// Start reading at Solver.
package ode

import "math"

// System is the right-hand side dy/dt = f(t, y).
type System interface {
	// Derivatives fills dydt. It must not keep or change y.
	Derivatives(t float64, y, dydt []float64)
}

// Watcher is a System with events. Event i happens where its value passes
// through zero in the direction Directions()[i] asks for.
type Watcher interface {
	System
	// EventValues fills g, one value per event; dydt is the derivative at (t, y),
	// nil where it is not at hand.
	EventValues(t float64, y, dydt, g []float64)
	// Accepted is told every accepted step before events are looked for in the
	// next one.
	Accepted(t float64, y []float64)
}

// Single is a Watcher that can give the value of one event without the others.
type Single interface {
	Watcher
	// EventValue may read the components from … to-1 of y that Sees tells, and no others.
	EventValue(event int, t float64, y []float64) float64
	Sees(event int) (from, to int)
}

// Picky is a Watcher that can tell, from both ends of a step, that an event that happened
// inside makes no difference: it is passed over.
type Picky interface {
	Watcher
	// Matters is given the step's length, and state and derivative at its ends.
	Matters(event int, h float64, y0, d0, y1, d1 []float64) bool
}

// Skeptic is a Watcher that can tell, from both ends of a step, that an event may
// have happened and undone itself inside. Such a step is searched at points
// between.
type Skeptic interface {
	Watcher
	// Doubtful is given the step's length, and state and derivative at its ends.
	Doubtful(h float64, y0, d0, y1, d1 []float64) bool
}

// Linear is a System with kinks that a difference quotient must not straddle.
type Linear interface {
	System
	// Linearise makes the branch of each kink that holds at (t, y) hold for all
	// arguments, until Linearised.
	Linearise(t float64, y []float64)
	// Linearised ends it.
	Linearised()
}

// Differentiable is a System that can give its Jacobian for less than difference quotients
// of all of it cost.
type Differentiable interface {
	System
	// Jacobian fills how the rates f at (t, y) change with the controlled components, row
	// after row, and with time; false: it cannot here. y is as it was when it returns.
	Jacobian(t float64, y, f, jac, ft []float64) bool
}

// Direction is the sense in which an event's value passes through zero.
type Direction int8

// The directions of events.
const (
	Falling Direction = -1
	Rising  Direction = +1
	Either  Direction = 0
	Never   Direction = 2 // switched off
)

// Outcome is why Advance stopped.
type Outcome uint8

// The outcomes of Advance.
const (
	Reached      Outcome = iota // the limit in time
	Happened                    // an event; Solver.Event says which
	TooManySteps                // the budget of steps is spent
	StepTooSmall                // the tolerance cannot be met at this point
	NotFinite                   // the right-hand side gave NaN or Inf
	Stopped                     // Settings.Stop said so
)

// String names the outcome.
func (o Outcome) String() string {
	return [...]string{"reached", "event", "too many steps", "step too small", "not finite", "stopped"}[o]
}

// Settings are the accuracy and the budget of a run.
type Settings struct {
	// Tolerance is the relative error aimed at per step [-], in (0, 0.1].
	Tolerance float64
	// Scale is added to |y| in the error's denominator, one per component [in
	// the component's unit]; components whose natural size is Scale near zero
	// do not force tiny steps.
	Scale []float64
	// Controlled is how many leading components the error control looks at; the
	// rest are quadratures that ride along. 0: all.
	Controlled int
	MaxSteps   int // 0: 100000
	// Stop is asked now and then whether the result is still wanted; nil: it is.
	Stop      func() bool
	FirstStep float64 // 0: chosen
	MaxStep   float64 // 0: no bound
	// Waves says that the system has undamped waves beside what may be stiff in it. Stiff
	// steps are waited for longer, taken implicitly in the fast components alone where these
	// are few, and left where the explicit method would be as quick.
	Waves bool
	// Order is the order in which the implicit method eliminates the controlled
	// components, for a system whose matrix is sparse in it; nil: as they stand.
	Order []int
}

// Solver integrates one system at a time. Make it once with New, then Start as
// often as wanted: nothing is allocated after New while dimensions fit.
type Solver struct {
	n, controlled int
	sys           System
	watcher       Watcher
	single        Single
	skeptic       Skeptic
	picky         Picky
	linear        Linear
	differ        Differentiable
	directions    []Direction

	t, tOld    float64
	y, next    []float64
	work       []float64
	scale      []float64
	k          [extendedStages][]float64
	rtol       float64
	stated     float64 // rtol is that, or looser for a while
	h, hMax    float64
	hLast      float64
	lastErr    float64
	steps      int
	maxSteps   int
	stop       func() bool
	accepted   int
	rejected   int
	calls      int
	derivative bool // k[0] is f(t, y)
	waves      bool
	kind       int            // of stretch
	fresh      bool           // no step of it is made yet
	begins     [kinds]float64 // with what step a stretch of each kind last got under way; 0: not yet

	denseReady bool
	yOld       []float64
	coeff      [7][]float64

	stiff stiffness
	add   additive

	g, gNew, gTry, gScan []float64
	// Event is the index of the event that stopped Advance.
	Event int
}

// New makes a solver for systems of up to n components and up to events events.
func New(n, events int) *Solver {
	s := &Solver{}
	s.grow(n, events)
	return s
}

func (s *Solver) grow(n, events int) {
	if cap(s.y) < n {
		block := make([]float64, n*(5+extendedStages+7))
		take := func() []float64 { v := block[:n:n]; block = block[n:]; return v }
		s.y, s.next, s.work, s.scale, s.yOld = take(), take(), take(), take(), take()
		for i := range s.k {
			s.k[i] = take()
		}
		for i := range s.coeff {
			s.coeff[i] = take()
		}
	}
	if cap(s.g) < events {
		s.g, s.gNew, s.gTry, s.gScan = make([]float64, events), make([]float64, events), make([]float64, events), make([]float64, events)
	}
	s.n = n
	s.g, s.gNew, s.gTry, s.gScan = s.g[:events], s.gNew[:events], s.gTry[:events], s.gScan[:events]
}

// Start begins a run at (t, y). If sys is a Watcher, directions holds one entry
// per event; Start evaluates the events at the start point and an event that
// is zero there does not happen there.
func (s *Solver) Start(sys System, t float64, y []float64, directions []Direction, set Settings) {
	if !(set.Tolerance > 0 && set.Tolerance <= 0.1) {
		panic("ode: tolerance outside (0, 0.1]")
	}
	s.grow(len(y), len(directions))
	s.sys, s.watcher, s.single, s.skeptic, s.picky, s.directions = sys, nil, nil, nil, nil, directions
	s.linear, _ = sys.(Linear)
	s.differ, _ = sys.(Differentiable)
	if w, ok := sys.(Watcher); ok && len(directions) > 0 {
		s.watcher = w
		s.single, _ = sys.(Single)
		s.skeptic, _ = sys.(Skeptic)
		s.picky, _ = sys.(Picky)
	}
	s.t, s.tOld = t, t
	copy(s.y, y)
	for i := range s.scale {
		s.scale[i] = 1e-6
	}
	copy(s.scale, set.Scale)
	s.stated, s.hMax, s.h = set.Tolerance, set.MaxStep, set.FirstStep
	s.rtol = s.stated
	if s.hMax <= 0 {
		s.hMax = math.Inf(1)
	}
	s.controlled = set.Controlled
	if s.controlled <= 0 || s.controlled > s.n {
		s.controlled = s.n
	}
	s.maxSteps, s.stop = set.MaxSteps, set.Stop
	if s.maxSteps <= 0 {
		s.maxSteps = 100000
	}
	s.waves, s.stiff.patience = set.Waves, 4
	if s.waves {
		s.stiff.patience = 20
	}
	s.steps, s.accepted, s.rejected, s.calls, s.lastErr = 0, 0, 0, 0, 1e-4
	s.derivative, s.denseReady = false, false
	s.kind, s.fresh, s.begins = 0, false, [kinds]float64{}
	s.stiff.on, s.stiff.implicit, s.stiff.hits, s.stiff.still = false, false, 0, 0
	s.stiff.bound, s.stiff.tryAfter, s.stiff.lenient = 0, firstTry, 0
	s.stiff.order = set.Order
	s.add.on, s.add.wanted, s.add.reached, s.add.most = false, false, 0, mostAdditive
	s.Restart()
}

// Restart tells the solver that the right-hand side has changed at the current
// point (a switch, an impulse), and looks at the events afresh. Components
// changed through State take effect.
func (s *Solver) Restart() {
	s.derivative = false
	s.denseReady = false
	s.tOld = s.t
	if s.watcher != nil {
		s.evaluate()
		s.watcher.EventValues(s.t, s.y[:s.n], s.k[0][:s.n], s.g)
	}
}

// StiffSoon tells the solver of a system with waves that from here on, until Start, it is
// likely to be stiff: it waits for fewer steps at the limit of stability.
func (s *Solver) StiffSoon() {
	s.stiff.patience = 3
	s.stiff.on, s.stiff.hits, s.add.on, s.add.reached = false, 0, false, 0
}

// Burst tells the solver, before Restart, that what begins is likely to be stiff and quicker than all before: its first step is chosen
// anew, and the implicit method, which gives way where it is not needed, makes it.
func (s *Solver) Burst() {
	s.h = 0
	s.stiff.on, s.stiff.hits, s.stiff.calm, s.stiff.patient = true, 0, 0, hurried
	s.add.on, s.add.wanted, s.add.reached = false, false, 0
}

// kinds is how many kinds of stretches a run may have.
const kinds = 8

// Phase tells the solver, before Restart, what kind of stretch begins, 0 to 7. One that has come before begins with no longer a step
// than such a stretch got under way with last time: where a run goes to and fro between two kinds, the step that ended the one is
// often hundreds of times too long for the other.
func (s *Solver) Phase(kind int) {
	if kind == s.kind {
		return
	}
	s.kind, s.fresh = kind, true
	if b := s.begins[kind]; b > 0 {
		s.h = min(s.h, b)
	}
}

// Grant lets the run make so many steps from here on, but no more than most in all.
func (s *Solver) Grant(steps, most int) { s.maxSteps = max(s.maxSteps, min(s.steps+steps, most)) }

// Loosen makes the tolerance so many times the stated one from here on, until Start.
func (s *Solver) Loosen(times float64) { s.rtol = times * s.stated }

// Leap sets the time, where the caller has changed the state to what it is then; call Restart after it.
func (s *Solver) Leap(t float64) { s.t = t }

// SetDirections replaces the events' directions; call Restart after it.
func (s *Solver) SetDirections(d []Direction) { s.directions = d }

// Time is the current time.
func (s *Solver) Time() float64 { return s.t }

// State is the current state, which the caller may change before Restart.
func (s *Solver) State() []float64 { return s.y[:s.n] }

// Steps, Rejected and Evaluations count the work since Start.
func (s *Solver) Steps() int { return s.accepted }

// Rejected counts the steps that missed the tolerance.
func (s *Solver) Rejected() int { return s.rejected }

// Evaluations counts the calls of the right-hand side.
func (s *Solver) Evaluations() int { return s.calls }

func (s *Solver) evaluate() {
	if !s.derivative {
		s.sys.Derivatives(s.t, s.y[:s.n], s.k[0][:s.n])
		s.calls++
		s.derivative = true
	}
}

// askEvery is the number of steps between two questions whether the result is still
// wanted: a step takes a microsecond or more, the question some ten nanoseconds.
const askEvery = 32

// Advance integrates to the time limit, or to the first event before it.
func (s *Solver) Advance(limit float64) Outcome {
	for s.t < limit {
		if s.steps >= s.maxSteps {
			return TooManySteps
		}
		if s.stop != nil && s.steps%askEvery == 0 && s.stop() {
			return Stopped
		}
		if o := s.step(limit); o != Reached {
			return o
		}
		if s.watcher == nil {
			continue
		}
		if s.locate() {
			return Happened
		}
		if s.t == s.tOld {
			continue // taken back
		}
		s.watcher.Accepted(s.t, s.y[:s.n])
	}
	return Reached
}

// step makes one accepted step, at most to limit.
func (s *Solver) step(limit float64) Outcome {
	s.evaluate()
	if s.h <= 0 {
		// What starts from rest shows no rate yet, and a bend soon after the start is only seen by a step that is not much
		// longer: a fiftieth of the way at most.
		s.h = min(s.firstStep(limit), 0.02*(limit-s.t))
	}
	if s.stiff.on {
		return s.stiffStep(limit)
	}
	return s.explicitStep(limit)
}

// trialLength is the length to try and whether it ends at limit.
func (s *Solver) trialLength(limit float64) (h float64, last bool) {
	h = min(s.h, s.hMax)
	gap := limit - s.t
	switch {
	case h >= gap*(1-1e-12):
		return gap, true
	case h > 0.5*gap:
		return 0.5 * gap, false // two even steps rather than a long one and a sliver
	}
	return h, false
}

func (s *Solver) explicitStep(limit float64) Outcome {
	retried := false
	for {
		s.steps++
		h, last := s.trialLength(limit)
		if s.t+h <= s.t {
			return StepTooSmall
		}
		s.stagesOf(h)
		s.calls += stages - 1
		t := s.t + h
		if last {
			t = limit
		}
		s.sys.Derivatives(t, s.next[:s.n], s.k[stages][:s.n])
		s.calls++
		err := s.errorNorm(h)
		if err <= 1 {
			s.noticeStiffness(h, err)
			s.accept(t, h, retried, 1/eighthRoot(err))
			s.stayStable()
			s.stiff.implicit = false
			return Reached
		}
		s.rejected++
		s.noticeStiffness(h, err)
		s.h = h * shorter(err, eighthRoot(err), retried)
		retried = true
		if s.t+s.h <= s.t {
			if math.IsNaN(err) {
				return NotFinite
			}
			return StepTooSmall
		}
		if s.steps >= s.maxSteps {
			return TooManySteps
		}
	}
}

// shorter is the share of a rejected step's length to try next; root is the root
// of its error. Where the first shortening did not do, there is a kink inside the
// step, and the method's order does not tell how far it is: half at most.
func shorter(err, root float64, again bool) float64 {
	switch {
	case math.IsNaN(err) || math.IsInf(err, 0):
		return 0.1 // a trial point outside the system's domain: come closer
	case again:
		return min(0.5, max(0.2, 0.9/root))
	}
	return max(0.2, 0.9/root)
}

// accept takes a step over. slack is how many times as long it could have been:
// the root of the error's inverse; infinite without an error.
func (s *Solver) accept(t, h float64, retried bool, slack float64) {
	// Grow by at most 4: the error estimate of a long step can be small by
	// accident. Right after a rejection do not grow at all.
	factor := min(4, max(0.333, 0.9*slack))
	if retried {
		factor = min(factor, 1)
	}
	grown := h * factor
	if h < s.h && !retried {
		// Cut short by the limit: the length planned before still stands.
		grown = max(grown, min(s.h, h*4))
	}
	s.h = grown
	s.hLast = h
	if s.fresh {
		s.begins[s.kind], s.fresh = h, false
	}
	s.tOld, s.t = s.t, t
	s.yOld, s.y, s.next = s.y, s.next, s.yOld
	s.k[0], s.k[stages] = s.k[stages], s.k[0] // now k[stages] is f at tOld, k[0] at t
	s.derivative, s.denseReady = true, false
	s.accepted++
}

// firstStep is Hairer's starting step for order 8.
func (s *Solver) firstStep(limit float64) float64 {
	n := s.controlled
	var d0, d1 float64
	for i := range n {
		sc := s.rtol * (s.scale[i] + abs(s.y[i]))
		d0 += (s.y[i] / sc) * (s.y[i] / sc)
		d1 += (s.k[0][i] / sc) * (s.k[0][i] / sc)
	}
	span := limit - s.t
	if d1 == 0 {
		return 1e-3 * span
	}
	h := 0.01 * sqrt(d0/d1)
	if d0 < 1e-10 {
		h = 1e-6 * span
	}
	h = min(h, span)
	for i := range s.n {
		s.work[i] = s.y[i] + h*s.k[0][i]
	}
	s.sys.Derivatives(s.t+h, s.work[:s.n], s.k[1][:s.n])
	s.calls++
	var d2 float64
	for i := range n {
		sc := s.rtol * (s.scale[i] + abs(s.y[i]))
		e := (s.k[1][i] - s.k[0][i]) / sc
		d2 += e * e
	}
	d := max(sqrt(d1/float64(n)), sqrt(d2/float64(n))/h)
	if !(d > 1e-15) || math.IsInf(d, 0) {
		return max(1e-9*span, 1e-3*h)
	}
	return min(100*h, math.Pow(0.01/d, 1.0/8), span)
}

// fourthRoot and eighthRoot are much faster than a power.
func fourthRoot(x float64) float64 { return sqrt(sqrt(x)) }
func eighthRoot(x float64) float64 { return sqrt(fourthRoot(x)) }

func abs(x float64) float64  { return math.Abs(x) }
func sqrt(x float64) float64 { return math.Sqrt(x) }
