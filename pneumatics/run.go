package pneumatics

import (
	"cmp"
	"math"

	"puffproof/pneumatics/ode"
)

// Run answers one scenario on one circuit. The result belongs to the Sim and
// holds until its next run. A circuit and a scenario that do not belong together
// panic; everything physical, even a balance that does not close, is in the
// result (Result.Withheld).
//
// Without a stated tolerance a run whose energy balance does not close at
// DefaultTolerance, as after hundreds of bounces without friction, is computed
// again more finely, ten times at a time: that closes most of them, in half the steps of a hundred times.
func (s *Sim) Run(c *Circuit, sc *Scenario, o Options) *Result {
	if o.Tolerance != 0 {
		return s.run(c, sc, o)
	}
	for _, o.Tolerance = range [...]float64{DefaultTolerance, DefaultTolerance / 10, DefaultTolerance / 100, DefaultTolerance / 1000} {
		if s.run(c, sc, o); s.r.Reason != "" || math.Abs(s.r.EnergyResidual) <= MaxEnergyResidual {
			break
		}
	}
	return &s.r
}

func (s *Sim) run(c *Circuit, sc *Scenario, o Options) *Result {
	e := &s.e
	e.compile(c, sc, o)
	if s.solver == nil {
		s.solver = ode.New(e.n, e.events())
	}
	s.reset()
	e.hold(true)
	e.connect(0)
	s.solver.Start(e, 0, e.state, e.aim(0), ode.Settings{Tolerance: o.Tolerance, Scale: e.scales,
		Controlled: len(e.scales), MaxSteps: cmp.Or(o.MaxSteps, 200000), Waves: len(e.laid) > 0, Order: e.elimination(), Stop: o.Stop})
	book := e.opening()
	s.drive()
	s.finish(book)
	return &s.r
}

func (s *Sim) reset() {
	nan := math.NaN()
	s.rubbed, s.rubbing, s.sampled = 0, false, 0
	s.peaked, s.top = math.Inf(-1), 0
	r := &s.r
	volumes, at, watch := r.Volumes, r.AtExit, r.WatchTimes
	*r = Result{MuzzleSpeed: nan, MuzzleEnergy: nan, ExitTime: nan, BarrelExit: nan, FinalSpeed: nan,
		FinalEnergy: nan, FirstRestTime: nan, MoveTime: nan}
	r.Volumes = resize(volumes, len(s.e.c.Volumes))
	r.AtExit = resize(at, len(s.e.c.Volumes))
	r.WatchTimes = resize(watch, len(s.e.o.Watch))
	for i := range r.AtExit {
		r.AtExit[i] = nan
	}
	for i := range r.WatchTimes {
		r.WatchTimes[i] = nan
		if w := s.e.o.Watch[i]; s.e.sc.Volumes[w.Volume].Pressure <= w.Pressure {
			r.WatchTimes[i] = 0
		}
	}
	if s.e.o.Samples > 0 {
		r.Trace = newTrace(s.e.o.Samples, len(s.e.c.Volumes))
	}
}

// outOfSteps is why a result is withheld whose projectile had left already.
const outOfSteps = "the steps ran out after the muzzle"

// drive advances from knot to knot and from event to event.
func (s *Sim) drive() {
	e, sv, r := &s.e, s.solver, &s.r
	r.Outcome = TimeRanOut
	if e.bar < 0 || e.o.Settle {
		r.Outcome = Ended
	}
	knot := e.nextKnot(0)
	for done := s.startMotion(); !done && (sv.Time() < e.until || s.goesOn()); {
		limit := min(knot, e.until, s.nextSample())
		switch o := sv.Advance(limit); o {
		case ode.Reached:
			s.sample()
			if limit == knot {
				e.phase(knot)
				e.connect(knot)
				knot = e.nextKnot(knot)
				done = s.reconsider()
			}
		case ode.Happened:
			e.follow(sv.State()) // of two turns at one place only one is told
			done = s.handle(sv.Event)
		default:
			r.Fastest = s.fastestExchange()
			switch {
			case o != ode.TooManySteps:
				r.Reason = "the integration failed: " + o.String()
			case r.Outcome == Left:
				r.Reason = outOfSteps
			}
			if r.Outcome != Left {
				r.Outcome = TimeRanOut
			}
			done = true
		}
	}
	s.sample() // one that is due where an event ended the run
	if r.Outcome == TimeRanOut && sv.Time() >= e.until && s.steady() {
		r.Outcome = Stalled
	}
}

// goesOn follows a projectile on its way beyond the end of the scenario, where that is worth it.
func (s *Sim) goesOn() bool {
	e := &s.e
	on := e.o.Later > e.until && (e.mode == held || e.mode == moving) && s.freed() > e.o.Worth
	if on {
		e.until = e.o.Later
		e.connect(s.solver.Time())
	}
	return on
}

// slow is the rate of change that counts as none [1/s]: by its own size in more than a day.
const slow = 1e-5

// steady tells that the projectile is at rest, or without friction floats, and nothing
// changes any more: the pressures of all that reaches the barrel would take more than a
// day to change by their own size, though a supply may be running through the gap.
func (s *Sim) steady() bool {
	e := &s.e
	if e.mode != held && e.mode != moving || e.nextKnot(s.solver.Time()) < math.Inf(1) {
		return false
	}
	y := s.solver.State()
	d := e.rates(s.solver.Time(), y, nil)
	if e.mode == moving && !(math.Abs(y[e.iX+1]) <= slow*e.b.Travel && math.Abs(d[e.iX+1]) <= slow*slow*e.b.Travel) {
		return false
	}
	if len(e.balances) > 0 && !e.staysSeated(s.solver.Time(), y, d) {
		return false
	}
	joined := e.joinedNow(s.solver.Time()) // what is behind a seated diaphragm does not come
	for i := range e.nodes {
		if joined[i] && math.Abs(d[2*i+1]) > slow*y[2*i+1] {
			return false
		}
	}
	return e.rows.Steady(d, e.scales, slow)
}

// again tells the solver that mode or paths have changed here.
func (s *Sim) again() {
	s.noteWatched(-1)
	s.e.settleBalances(s.solver.Time(), s.solver.State())
	if s.r.Rests > manyRests {
		s.solver.Phase(int(s.e.mode))
	}
	s.solver.Loosen(s.e.looseness())
	s.solver.SetDirections(s.e.aim(s.solver.Time()))
	s.solver.Restart()
}

// looseness is how many times the tolerance a search takes: the push after the muzzle adds little to the speed, and behind a
// projectile that is held by far more than the waves of lines have they are no news.
func (e *engine) looseness() float64 {
	waves := e.mode == held && len(e.laid) > 0 && e.threshold > 1000*e.o.Tolerance*e.pa*e.b.Area
	if e.o.Coarse && (e.mode == afterMuzzle || waves) {
		return 10
	}
	return 1
}

// startMotion lets the projectile go at once where nothing holds it; true ends
// the run.
func (s *Sim) startMotion() bool {
	e := &s.e
	if e.mode != held {
		return false
	}
	y := s.solver.State()
	e.conditions(y)
	r := &s.r
	r.BarrelPeak, e.highest = e.p[e.bar], e.p[e.bar]
	if e.ahead >= 0 {
		r.AheadPeak = e.p[e.ahead]
	}
	return s.reconsider()
}

// reconsider asks afresh whether a projectile at rest stays there: at a start,
// after a rest, and where the paths have changed. True ends the run.
func (s *Sim) reconsider() bool {
	e := &s.e
	if e.mode == held {
		y := s.solver.State()
		e.conditions(y)
		net, pull := e.netForce(), e.pull(y)
		if math.Abs(net) <= 1e-12*e.pa*e.b.Area { // rounding
			net, pull = 0, 0
		}
		floats := e.threshold == 0 && pull == 0
		if floats && !e.o.Settle && s.steady() { // on air that goes on flowing past it
			s.r.Outcome = Stalled
			return true
		}
		if pull > e.threshold || floats {
			s.noteRestEnd()
			return s.release(net)
		}
		if e.mayEnd(s.solver.Time()) && e.highestReach() <= e.holding() {
			s.r.Outcome = Stalled
			return true
		}
	}
	if s.idle() {
		s.noteIdle()
		return true
	}
	s.again()
	return false
}

// idle tells that the scenario cannot give the projectile anything worth
// waiting for.
func (s *Sim) idle() bool {
	e := &s.e
	y := s.solver.State()
	if s.r.Rests > manyRests {
		e.dropSeated(s.solver.Time(), y)
	}
	e.conditions(y)
	return e.waits() && e.left(y) < idleEnergy || e.plugged() && e.plug(y) < 0
}

// noteIdle ends a run for which nothing is worth waiting for any more; conditions must be those of its state.
func (s *Sim) noteIdle() {
	e, r := &s.e, &s.r
	r.Idle = true
	if e.ahead >= 0 {
		r.AheadPeak, r.Outcome = max(r.AheadPeak, e.p[e.ahead]), Blocked
	}
}

// release starts the motion in the direction of the net force; true ends the
// run.
func (s *Sim) release(net float64) bool {
	e := &s.e
	y := s.solver.State()
	sign := 1.0
	if net < 0 {
		sign = -1
	}
	e.mode, e.sign = moving, sign
	s.startRub()
	if math.IsNaN(s.r.MoveTime) {
		s.r.MoveTime = s.solver.Time()
	}
	e.hold(false)
	if sign > 0 && y[e.iX] >= e.b.Travel { // it sat with its tail at the muzzle
		return s.leave()
	}
	if e.o.OnlyLeaving && s.idle() {
		s.noteIdle()
		return true
	}
	s.again()
	return false
}

// handle acts on an event; true ends the run.
func (s *Sim) handle(event int) bool {
	e, r := &s.e, &s.r
	y := s.solver.State()
	switch event {
	case evLeaves:
		y[e.iX] = e.b.Travel
		return s.leave()
	case evStops:
		y[e.iX+1] = 0
		return s.rest()
	case evRear:
		r.Account.Impact += 0.5 * e.movingMass(y) * y[e.iX+1] * y[e.iX+1]
		y[e.iX], y[e.iX+1] = 0, 0
		return s.rest()
	case evBreakaway:
		s.noteRestEnd()
		return s.release(e.netForce())
	case evStall:
		r.Outcome = Stalled
		return true
	case evIdle:
		s.noteIdle()
		return true
	case evPeak:
		s.notePeak()
		s.quietPeak()
	case evFar:
		return s.finishPush()
	case evCutOut, evCutIn:
		e.supplyOn = event == evCutIn
		s.again()
	default:
		i := event - numEvents
		k := i - len(e.o.Watch)
		if k >= len(e.balances) {
			e.turn(&e.reliefs[k-len(e.balances)], s.solver.Time(), y)
			return false
		}
		if k >= 0 {
			path := e.balances[k]
			e.lifted[path] = !e.lifted[path]
			s.again()
			return false
		}
		s.noteWatched(i)
	}
	return false
}

// noteWatched notes that a watched volume, by index of Options.Watch, has come to its pressure, and every other that is at its own: of
// two events at one place only one is told, and the other is behind it then. -1: none was told.
func (s *Sim) noteWatched(told int) {
	if len(s.e.o.Watch) == 0 {
		return
	}
	s.e.conditions(s.solver.State())
	for i, w := range s.e.o.Watch {
		if t := &s.r.WatchTimes[i]; math.IsNaN(*t) && (i == told || s.e.p[w.Volume] <= w.Pressure) {
			*t = s.solver.Time()
		}
	}
}

func (s *Sim) noteRestEnd() {
	if !math.IsNaN(s.r.FirstRestTime) {
		s.r.Rests++
	}
}

// rest handles a projectile whose speed has just become zero.
func (s *Sim) rest() bool {
	e, r := &s.e, &s.r
	y := s.solver.State()
	y[e.iX] = max(y[e.iX], 0) // turned back at the stop itself
	e.conditions(y)
	s.endRub()
	s.notePeak()
	if math.IsNaN(r.FirstRestTime) {
		r.FirstRestTime, r.FirstRestAt = s.solver.Time(), y[e.iX]
	}
	if e.ahead >= 0 {
		r.AheadPeak = max(r.AheadPeak, e.p[e.ahead])
		if !e.o.Settle {
			r.Outcome = Blocked
			return true
		}
	}
	e.mode = held
	if r.Rests >= e.mostRests() || e.o.FirstTurn && e.b.Frictionless() {
		return true // Freed bounds what may come
	}
	s.solver.Grant(e.o.MaxSteps, e.o.Onward)
	s.leap()
	return s.reconsider()
}

// maxRests ends a run whose projectile keeps stopping and starting.
const maxRests = 100

// mostRests is how many rests are waited for. Without friction it bounces for ever; with
// it every hop takes it on, and a supply pushes it out in the end.
func (e *engine) mostRests() int {
	if e.b.Frictionless() && e.reach == 0 {
		return maxRests
	}
	return 20 * maxRests
}

// quietPeak switches the peak event off where it comes again at once: at rest
// and in balance the pressure's rate is rounding, and its sign flips for ever.
func (s *Sim) quietPeak() {
	t := s.solver.Time()
	if s.e.mode == held && t-s.peaked < 1e-6 {
		s.e.directions[evPeak] = ode.Never
		s.solver.SetDirections(s.e.directions)
	}
	s.peaked = t
}

func (s *Sim) notePeak() {
	e, r := &s.e, &s.r
	if e.bar >= 0 && e.p[e.bar] > r.BarrelPeak {
		r.BarrelPeak, r.BarrelPeakTime = e.p[e.bar], s.solver.Time()
		e.highest = max(e.highest, r.BarrelPeak)
	}
}

// leave handles the tail passing the muzzle.
func (s *Sim) leave() bool {
	e, r := &s.e, &s.r
	y := s.solver.State()
	e.conditions(y)
	s.endRub()
	s.notePeak()
	if e.ahead >= 0 { // it touches the plug
		r.AheadPeak = max(r.AheadPeak, e.p[e.ahead])
		r.Outcome = Blocked
		return true
	}
	v := y[e.iX+1]
	r.MuzzleSpeed, r.ExitTime, r.BarrelExit = v, s.solver.Time(), e.p[e.bar]
	r.MuzzleEnergy = 0.5 * e.b.Mass * v * v
	r.FinalSpeed, r.FinalEnergy = v, r.MuzzleEnergy
	for i := range r.AtExit {
		r.AtExit[i] = e.p[i]
	}
	r.Outcome = Left
	if e.inertia { // the gas keeps its motion for itself from here on
		r.Account.GasMotion += y[e.iBar] * v * v / 6
	}
	e.inertia, e.column = false, false
	if e.sc.Parts.NoAfterMuzzle {
		return s.finishPush()
	}
	e.mode = afterMuzzle
	e.phase(s.solver.Time()) // the gap is gone
	s.solver.Burst()         // the barrel empties through an opening that grows wide
	if len(e.laid) > 0 {     // far faster than sound runs along a line
		s.solver.StiffSoon()
	}
	s.again()
	return false
}

// finishPush ends the push after the muzzle; a settling run goes on with the
// barrel open to the atmosphere.
func (s *Sim) finishPush() bool {
	e, r := &s.e, &s.r
	v := s.solver.State()[e.iX+1]
	r.FinalSpeed = v
	r.FinalEnergy = 0.5 * e.b.Mass * v * v
	if !e.o.Settle {
		return true
	}
	e.mode = gone
	e.phase(s.solver.Time())
	s.again()
	return false
}

// movingMass is the inertia of all that moves with the projectile [kg].
func (e *engine) movingMass(y []float64) float64 {
	m := e.b.Mass
	if e.inertia {
		m += y[e.iBar] / 3
	}
	if e.column {
		m += e.columnRho * (e.b.Travel - y[e.iX])
	}
	return m
}
