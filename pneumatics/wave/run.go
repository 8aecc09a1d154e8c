package wave

import (
	"math"

	"puffproof/pneumatics"
)

// run drives the shot to its outcome.
func (r *runner) run() Result {
	nan := math.NaN()
	r.r = Result{MuzzleSpeed: nan, MuzzleEnergy: nan, ExitTime: nan, MoveTime: nan, Outcome: pneumatics.TimeRanOut}
	r.m0, r.e0 = r.contents()
	for i := range r.nodes {
		r.start = append(r.start, r.nodes[i].mass)
	}
	if r.o.Samples > 0 {
		r.r.Trace.Volumes = make([][]float64, len(r.c.Volumes))
	}
	ok := r.conditions()
	x0 := r.shot.x
	for ok && r.r.Steps < r.o.MaxSteps && r.time < r.until {
		if r.over() {
			break
		}
		r.adapt()
		dt := r.nextStep()
		ok = r.step(dt)
		r.note()
	}
	switch {
	case !ok:
		r.r.Reason = "the wave solution lost its positivity"
	case r.r.Steps >= r.o.MaxSteps:
		r.r.Reason = "too many steps"
	}
	r.finish(x0)
	return r.r
}

// over tells whether the projectile has left or rests for good, and notes it.
func (r *runner) over() bool {
	b := &r.shot
	// A last step that would be a billionth of the travel is no step.
	if left := r.travel - b.x; left <= 1e-10*r.travel {
		r.r.Outcome = pneumatics.Left
		r.r.MuzzleSpeed, r.r.ExitTime = b.v, r.time
		r.r.MuzzleEnergy = b.kinetic()
		return true
	}
	if b.held && r.r.Steps > 0 && r.r.Steps%64 == 0 && r.highestReach() <= r.holding() {
		r.r.Outcome = pneumatics.Stalled
		return true
	}
	return false
}

// holding is the base pressure that would just break the rest [Pa].
func (r *runner) holding() float64 {
	return r.flow.front + (r.shot.breakaway+r.shot.weight)/r.shot.area
}

// highestReach is the highest pressure that can still act on the base [Pa]. The
// waves left in the barrel count with the pressure they would reach at a wall.
func (r *runner) highestReach() float64 {
	best := r.reach
	for i, ok := range r.joined {
		if ok {
			best = max(best, r.nodes[i].p)
		}
	}
	best = max(best, r.shot.behind.highest(r.g.g))
	for i := range r.steps { // the tubes that lead to the barrel without a valve
		best = max(best, r.steps[i].from.highest(r.g.g))
	}
	return best
}

// highest is the highest pressure that the gas would reach at a wall [Pa], its
// waves taken for sound.
func (t *tube) highest(gamma float64) float64 {
	best := 0.0
	for i := range t.n {
		best = max(best, t.p[i]+t.rho[i]*math.Abs(t.u[i])*math.Sqrt(gamma*t.p[i]/t.rho[i]))
	}
	return best
}

// adapt keeps the cells near their target length.
func (r *runner) adapt() {
	b := &r.shot
	t := b.behind
	changed := false
	if t.x[t.n]-t.x[t.n-1] > 1.5*r.target && 2*t.n < len(t.x) {
		t.split(r.fixed)
		changed = true
	}
	if a := b.ahead; a != nil && a.n >= 16 && a.n%2 == 0 && a.x[1]-a.x[0] < r.target {
		a.merge()
		changed = true
	}
	if changed {
		r.conditions()
	}
}

// nextStep is the next step's length [s]: stable, not past a bend of a valve's
// schedule, and ending where the base reaches the muzzle.
func (r *runner) nextStep() float64 {
	dt := min(r.limitStep(), r.until-r.time)
	for i := range r.valves {
		dt = min(dt, max(r.valves[i].next(r.time)-r.time, 1e-12))
	}
	b := &r.shot
	if b.v > 0 {
		left := r.travel - b.x
		root := b.v*b.v + 2*b.last*left
		if root > 0 {
			dt = min(dt, 2*left/(b.v+math.Sqrt(root)))
		}
	}
	return dt
}

// note keeps peaks, counts and the trace after a step.
func (r *runner) note() {
	res, b := &r.r, &r.shot
	res.Steps++
	for _, t := range r.tubes {
		res.CellSteps += t.n
	}
	if !b.held && math.IsNaN(res.MoveTime) {
		res.MoveTime = r.time
	}
	res.PeakSpeed = max(res.PeakSpeed, b.v)
	res.BasePeak = max(res.BasePeak, r.flow.base)
	res.FrontPeak = max(res.FrontPeak, r.flow.front)
	res.BreechPeak = max(res.BreechPeak, r.breech.p[0])
	n := len(res.Trace.Time)
	if n >= r.o.Samples {
		return
	}
	end := r.o.TraceEnd
	if end <= 0 {
		end = r.until
	}
	if r.time < end*float64(n)/float64(max(r.o.Samples-1, 1)) {
		return
	}
	tr := &res.Trace
	tr.Time = append(tr.Time, r.time)
	tr.Position = append(tr.Position, b.x)
	tr.Speed = append(tr.Speed, b.v)
	tr.Breech = append(tr.Breech, r.breech.p[0])
	tr.Base = append(tr.Base, r.flow.base)
	tr.Front = append(tr.Front, r.flow.front)
	for i := range tr.Volumes {
		tr.Volumes[i] = append(tr.Volumes[i], r.nodes[i].p)
	}
}

// finish closes the books.
func (r *runner) finish(x0 float64) {
	res, b := &r.r, &r.shot
	res.Position, res.Speed, res.Time, res.Rests = b.x, b.v, r.time, b.rests
	res.BaseExit = r.flow.base
	for i := range r.c.Volumes {
		res.Volumes = append(res.Volumes, pneumatics.Condition{Pressure: r.nodes[i].p, Temperature: r.nodes[i].t})
	}
	res.GasMass, _ = b.behind.totals()
	length := b.behind.x[b.behind.n] - b.behind.x[0]
	if t := r.breech; t != b.behind {
		m, _ := t.totals()
		res.GasMass += m
		length += t.x[t.n] - t.x[0]
	}
	res.SoundTime = length / r.g.SoundSpeed(r.ta)
	mass, energy := r.contents()
	moved := math.Abs(r.book.mass)
	for i := range r.nodes {
		moved += math.Abs(r.nodes[i].mass - r.start[i])
	}
	if moved > 0 {
		res.MassResidual = (mass + r.book.mass - r.m0) / moved
	}
	res.EnergyResidual = r.imbalance(energy) / r.e0
}

// imbalance is what the energy book lacks [J].
func (r *runner) imbalance(energy float64) float64 {
	k := &r.book
	return energy + k.energy + k.friction + k.back + k.gravity + k.impact + r.shot.kinetic() - r.e0
}
