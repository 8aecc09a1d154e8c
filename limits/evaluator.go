package limits

import (
	"context"
	"math"

	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// evaluator computes a question's figure at points of its box. It owns its
// scratch space: one per worker.
type evaluator struct {
	b      *box
	l      *Launcher // a clone whose nominal values are moved
	bands  []*Band
	values []*Band // those of the original, for their ends
	c      pneumatics.Circuit
	sc     pneumatics.Scenario
	sim    pneumatics.Sim
	gauge  []float64
	o      pneumatics.Options
}

func (b *box) evaluator() *evaluator {
	e := &evaluator{b: b, l: b.l.Clone()}
	all, originals := shotBands(e.l), shotBands(b.l)
	for _, i := range b.bands {
		e.bands = append(e.bands, all[i])
		e.values = append(e.values, originals[i])
	}
	// A search needs the order of thousands of shots, not their last digits. Most
	// are over in fewer than 100 steps; one that is not after 1000 is tried once
	// more, tighter: at a loose tolerance a run can mark time.
	e.o = pneumatics.Options{Tolerance: 1e-5, NoPeak: true, MaxSteps: 1000}
	return e
}

// Value computes the figure at u.
func (e *evaluator) Value(u []float64) float64 {
	return e.b.q.measure(&e.c, e.run(u))
}

// run computes the shot at u. One that the search's short run leaves open is
// followed further: tighter and with more steps, and where air still goes in or out
// behind a projectile that does not move, for an hour.
func (e *evaluator) run(u []float64) *pneumatics.Result {
	e.prepare(u)
	r := e.sim.Run(&e.c, &e.sc, e.o)
	if e.o.MaxSteps <= 0 || e.o.MaxSteps >= longRun {
		return r
	}
	o := e.o
	o.Tolerance, o.MaxSteps = 1e-6, longRun
	if e.c.Barrel.Frictionless() {
		o.MaxSteps = longBounce
	}
	const bouncing = 50 // rests after which more steps bring more bounces only, without friction
	open := func() bool { return r.Outcome == pneumatics.TimeRanOut && r.Freed > settled }
	more := r.Rests < bouncing || r.Fed || !e.c.Barrel.Frictionless()
	if open() && more && r.Time < e.sc.Until || r.Reason != "" {
		r = e.sim.Run(&e.c, &e.sc, o)
	}
	if open() && r.Time >= e.sc.Until {
		e.sc.Until = 3600
		r = e.sim.Run(&e.c, &e.sc, o)
	}
	return r
}

// longRun is the number of steps of a shot that is followed further, longBounce
// where nothing but the gas slows the projectile: more bring more bounces only.
const (
	longRun    = 12000
	longBounce = 3000
)

// prepare fills circuit and scenario for the point u.
func (e *evaluator) prepare(u []float64) {
	b := e.b
	for k, band := range e.bands {
		band.Nominal = b.value(e.values[k], u[k])
	}
	e.l.Fill(&e.c)
	at := 0.0
	if b.start >= 0 {
		at = u[b.start] * b.q.startMax
	}
	e.fillScenario(at)
	if b.seat >= 0 {
		e.sc.Seat = u[b.seat] * e.c.Barrel.Travel
	}
	if b.from >= 0 {
		i := min(int(u[b.from]*float64(len(b.q.fromAll))), len(b.q.fromAll)-1)
		e.sc.From = b.q.fromAll[i]
	}
	if b.q.adjust != nil {
		b.q.adjust(&e.c, &e.sc, u[b.first:])
	}
}

// fillScenario sets the scenario of a shot from the sensed pressure at [Pa gauge].
func (e *evaluator) fillScenario(at float64) {
	l, b := e.l, e.b
	volumes := e.sc.Volumes
	e.sc = pneumatics.Scenario{From: pneumatics.Armed, To: b.q.to, Parts: l.Model.Parts, SupplyRuns: l.supplyFires(),
		// A creeping shot is followed longer than the ten seconds after which a shot
		// counts as not over: the worst case needs to know how it ends.
		Until: 120}
	if len(b.q.fromAll) > 0 {
		e.sc.From = b.q.fromAll[0]
	}
	e.gauge = l.StartPressures(&e.c, at, e.gauge)
	e.sc.Volumes = volumes[:0]
	for _, g := range e.gauge {
		e.sc.Volumes = append(e.sc.Volumes, pneumatics.Condition{Pressure: e.c.Ambient.Pressure + g, Temperature: e.c.Ambient.Temperature})
	}
}

// worst is the outcome of a search for the worst case.
type worst struct {
	box    *box
	result search.Result
	value  float64
	point  Point
	shot   *pneumatics.Result // the worst shot at full accuracy
	c      pneumatics.Circuit
	start  float64 // [Pa gauge] of the sensed volume
	seat   float64 // [m]
}

// undetermined tells that somewhere in the box the figure could not be computed.
func (w *worst) undetermined() bool { return !w.result.Found || w.result.Undefined > 0 }

// maximise searches a question's worst case and computes the shot there again
// at full accuracy.
func (l *Launcher) maximise(ctx context.Context, q question, o search.Options) (*worst, error) {
	b := newBox(l, q)
	if len(o.Seeds) > 0 && len(o.Seeds[0]) != b.dim {
		o.Seeds = nil
	}
	res, err := search.Maximise(ctx, b.dim, func() search.Objective { return b.evaluator() }, o)
	if err != nil {
		return nil, err
	}
	w := &worst{box: b, result: res}
	if !res.Found {
		w.value = math.NaN()
		return w, nil
	}
	if err := w.settle(ctx, o); err != nil {
		return nil, err
	}
	return w, nil
}

// exact is an evaluator at the accuracy of every figure shown.
func (b *box) exact() *evaluator {
	e := b.evaluator()
	e.o = pneumatics.Options{NoPeak: true, Tolerance: pneumatics.DefaultTolerance, MaxSteps: 20000}
	return e
}

// settle judges the maxima of a search again at full accuracy: near a rest a
// shot at the search's accuracy can be wrong by a third, on either side. A long
// search then climbs on from the best of them at full accuracy.
func (w *worst) settle(ctx context.Context, o search.Options) error {
	const most, long = 12, 2000 // maxima taken over; evaluations of a long search
	var seeds [][]float64
	for _, m := range w.result.Maxima[:min(most, len(w.result.Maxima))] {
		seeds = append(seeds, m.Point)
	}
	if len(seeds) == 0 {
		seeds = [][]float64{w.result.Best.Point}
	}
	polish := search.Options{Seeds: seeds, FullCorners: -1, Climbs: -1, PerCoordinate: -1, LeastPoints: -1, Starts: 3, Settle: 5,
		Budget: 1, FinestStep: 1.0 / 1024}
	if o.Budget == 0 || o.Budget >= long {
		polish.Budget = 200
	}
	best := w.result.Best.Point
	if polish.Budget > 1 {
		res, err := search.Maximise(ctx, w.box.dim, func() search.Objective { return w.box.exact() }, polish)
		if err != nil {
			return err
		}
		if res.Found {
			best = res.Best.Point
		}
	} else {
		e, value := w.box.exact(), math.Inf(-1)
		for _, u := range seeds {
			if v := e.Value(u); v > value {
				best, value = u, v
			}
		}
	}
	w.take(best)
	return nil
}

// take makes the point u the worst one and computes its shot.
func (w *worst) take(u []float64) {
	e := w.box.evaluator()
	e.o = pneumatics.Options{MaxSteps: 20000}
	r := e.run(u)
	w.value = w.box.q.measure(&e.c, r)
	w.result.Best = search.Maximum{Point: u, Value: w.value}
	w.shot = r.Clone()
	w.c = e.c
	w.point = w.box.point(u)
	if w.box.start >= 0 {
		w.start = u[w.box.start] * w.box.q.startMax
	}
	w.seat = e.sc.Seat
}

// settled is the energy [J] below which it does not matter how a shot ends: a
// quarter of the smallest limit.
const settled = 0.02

// finalEnergy is the measure of the energy verdicts: the final energy relative
// to a person standing still, on a launcher that moves at speed. One that never
// leaves counts zero. A shot whose fate was not settled counts with its bound;
// where a supply feeds it there is none, and unless it is too small to matter the
// energy is undetermined.
func finalEnergy(speed float64) func(*pneumatics.Circuit, *pneumatics.Result) float64 {
	return func(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
		if r.Reason != "" {
			return math.NaN()
		}
		m := c.Barrel.Mass
		var v float64
		switch r.Outcome {
		case pneumatics.Left:
			v = r.FinalSpeed
		case pneumatics.Stalled:
			return 0
		default:
			if r.Freed > settled && r.Fed {
				return math.NaN()
			}
			v = math.Sqrt(2 * r.Freed / m)
		}
		return 0.5 * m * (v + speed) * (v + speed)
	}
}

// movingAt is the vehicle's speed [m/s].
func (l *Launcher) movingAt() float64 {
	v := l.Mount.MovingAt.High
	if l.Event != nil {
		v = max(v, l.Event.VehicleSpeed.High)
	}
	return v
}
