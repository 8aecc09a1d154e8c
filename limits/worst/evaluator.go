package worst

import (
	"context"
	"math"

	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// Evaluator computes a question's figure at points of its box. It owns its
// scratch space: one per worker.
type Evaluator struct {
	Box        *Box
	l          *launcher.Launcher  // a clone whose nominal values are moved
	quantities []launcher.Quantity // of the clone, as the box has them
	Circuit    pneumatics.Circuit
	sc         pneumatics.Scenario
	sim        pneumatics.Sim
	gauge      []float64
	Options    pneumatics.Options
}

// Evaluator is a new evaluator of the box's question, at the accuracy of a search.
func (b *Box) Evaluator() *Evaluator {
	e := &Evaluator{Box: b, l: b.Launcher.Clone()}
	e.quantities = e.l.Coordinates(max(b.Question.Top, b.Question.StartMax))
	// A search needs the order of thousands of shots, not their last digits. Most
	// are over in fewer than 100 steps; one that is not after 1000 is tried once
	// more, tighter: at a loose tolerance a run can mark time.
	e.Options = pneumatics.Options{Tolerance: 1e-5, NoPeak: true, MaxSteps: 1000}
	return e
}

// Value computes the figure at u.
func (e *Evaluator) Value(u []float64) float64 {
	return e.Box.Question.Measure(&e.Circuit, e.Run(u))
}

// Run computes the shot at u. One that the search's short run leaves open is
// followed further: tighter and with more steps, and where air still goes in or out
// behind a projectile that does not move, for an hour.
func (e *Evaluator) Run(u []float64) *pneumatics.Result {
	e.prepare(u)
	r := e.sim.Run(&e.Circuit, &e.sc, e.Options)
	if e.Options.MaxSteps <= 0 || e.Options.MaxSteps >= longRun {
		return r
	}
	o := e.Options
	o.Tolerance, o.MaxSteps = 1e-6, longRun
	if e.Circuit.Barrel.Frictionless() {
		o.MaxSteps = longBounce
	}
	const bouncing = 50 // rests after which more steps bring more bounces only, without friction
	open := func() bool { return r.Outcome == pneumatics.TimeRanOut && r.Freed > negligible }
	more := r.Rests < bouncing || r.Fed || !e.Circuit.Barrel.Frictionless()
	if open() && more && r.Time < e.sc.Until || r.Reason != "" {
		r = e.sim.Run(&e.Circuit, &e.sc, o)
	}
	if open() && r.Time >= e.sc.Until {
		e.sc.Until = 3600
		r = e.sim.Run(&e.Circuit, &e.sc, o)
	}
	return r
}

// longRun is the number of steps of a shot that is followed further, longBounce
// where nothing but the gas slows the projectile: more bring more bounces only.
const (
	longRun    = 12000
	longBounce = 3000
)

// Setup is what a shot at u is computed from: circuit and scenario, with the pressures
// that it starts from. They hold until the next call.
func (e *Evaluator) Setup(u []float64) (*pneumatics.Circuit, *pneumatics.Scenario) {
	e.prepare(u)
	return &e.Circuit, &e.sc
}

// prepare fills circuit and scenario for the point u.
func (e *Evaluator) prepare(u []float64) {
	b := e.Box
	for k := range e.quantities {
		e.quantities[k].Move(u[k])
	}
	e.l.FillShot(&e.Circuit)
	at := 0.0
	if b.Start >= 0 {
		at = u[b.Start] * b.Question.StartMax
	}
	e.fillScenario(at)
	if b.Seat >= 0 {
		e.sc.Seat = u[b.Seat] * e.Circuit.Barrel.Travel
	}
	if b.From >= 0 {
		i := min(int(u[b.From]*float64(len(b.Question.FromAll))), len(b.Question.FromAll)-1)
		e.sc.From = b.Question.FromAll[i]
	}
	if b.Question.Adjust != nil {
		b.Question.Adjust(&e.Circuit, &e.sc, u[b.first:])
	}
}

// fillScenario sets the scenario of a shot from the sensed pressure at [Pa gauge].
func (e *Evaluator) fillScenario(at float64) {
	l, b := e.l, e.Box
	volumes := e.sc.Volumes
	e.sc = pneumatics.Scenario{From: pneumatics.Armed, To: b.Question.to, Parts: l.Model.Parts, SupplyRuns: l.SupplyFires(),
		// A creeping shot is followed longer than the ten seconds after which a shot
		// counts as not over: the worst case needs to know how it ends.
		Until: 120}
	if len(b.Question.FromAll) > 0 {
		e.sc.From = b.Question.FromAll[0]
	}
	e.gauge = l.ReadyPressures(&e.Circuit, at, e.gauge)
	e.sc.Volumes = volumes[:0]
	for _, g := range e.gauge {
		e.sc.Volumes = append(e.sc.Volumes, pneumatics.Condition{Pressure: e.Circuit.Ambient.Pressure + g,
			Temperature: e.Circuit.Ambient.Temperature})
	}
}

// Case is the outcome of a search for the worst case.
type Case struct {
	Box     *Box
	Result  search.Result
	Value   float64 // the worst figure; NaN: none was found
	point   Point
	Shot    *pneumatics.Result // the worst shot at full accuracy
	Circuit pneumatics.Circuit // at the worst point
	start   float64            // [Pa gauge] of the sensed volume
	seat    float64            // [m]
}

// Undetermined tells that somewhere in the box the figure could not be computed.
func (w *Case) Undetermined() bool { return !w.Result.Found || w.Result.Undefined > 0 }

// Maximise searches a question's worst case and computes the shot there again
// at full accuracy.
func Maximise(ctx context.Context, l *launcher.Launcher, q Question, o search.Options) (*Case, error) {
	b := NewBox(l, q)
	if len(o.Seeds) > 0 && len(o.Seeds[0]) != b.Dim {
		o.Seeds = nil
	}
	res, err := search.Maximise(ctx, b.Dim, func() search.Objective { return b.Evaluator() }, o)
	if err != nil {
		return nil, err
	}
	w := &Case{Box: b, Result: res}
	if !res.Found {
		w.Value = math.NaN()
		return w, nil
	}
	if err := w.refine(ctx, o); err != nil {
		return nil, err
	}
	return w, nil
}

// exact is an evaluator at the accuracy of every figure shown.
func (b *Box) exact() *Evaluator {
	e := b.Evaluator()
	e.Options = pneumatics.Options{NoPeak: true, Tolerance: pneumatics.DefaultTolerance, MaxSteps: 20000}
	return e
}

// refine judges the maxima of a search again at full accuracy: near a rest a
// shot at the search's accuracy can be wrong by a third, on either side. A long
// search then climbs on from the best of them at full accuracy.
func (w *Case) refine(ctx context.Context, o search.Options) error {
	const most, long = 12, 2000 // maxima taken over; evaluations of a long search
	var seeds [][]float64
	for _, m := range w.Result.Maxima[:min(most, len(w.Result.Maxima))] {
		seeds = append(seeds, m.Point)
	}
	if len(seeds) == 0 {
		seeds = [][]float64{w.Result.Best.Point}
	}
	polish := search.Options{Seeds: seeds, FullCorners: -1, Climbs: -1, PerCoordinate: -1, LeastPoints: -1, Starts: 3, Settle: 5,
		Budget: 1, FinestStep: 1.0 / 1024}
	if o.Budget == 0 || o.Budget >= long {
		polish.Budget = 200
	}
	best := w.Result.Best.Point
	if polish.Budget > 1 {
		res, err := search.Maximise(ctx, w.Box.Dim, func() search.Objective { return w.Box.exact() }, polish)
		if err != nil {
			return err
		}
		if res.Found {
			best = res.Best.Point
		}
	} else {
		e, value := w.Box.exact(), math.Inf(-1)
		for _, u := range seeds {
			if v := e.Value(u); v > value {
				best, value = u, v
			}
		}
	}
	w.shootAt(best)
	return nil
}

// shootAt makes the point u the worst one and computes its shot.
func (w *Case) shootAt(u []float64) {
	e := w.Box.Evaluator()
	e.Options = pneumatics.Options{MaxSteps: 20000}
	r := e.Run(u)
	w.Value = w.Box.Question.Measure(&e.Circuit, r)
	w.Result.Best = search.Maximum{Point: u, Value: w.Value}
	w.Shot = r.Clone()
	w.Circuit = e.Circuit
	w.point = w.Box.Point(u)
	if w.Box.Start >= 0 {
		w.start = u[w.Box.Start] * w.Box.Question.StartMax
	}
	w.seat = e.sc.Seat
}

// negligible is the energy [J] below which it does not matter how a shot ends: a
// quarter of the smallest limit.
const negligible = 0.02

// FinalEnergy is the measure of the energy verdicts: the final energy relative
// to a person standing still, on a launcher that moves at speed. One that never
// leaves counts zero. A shot whose fate was not settled counts with its bound;
// where a supply feeds it there is none, and unless it is too small to matter the
// energy is undetermined.
func FinalEnergy(speed float64) func(*pneumatics.Circuit, *pneumatics.Result) float64 {
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
			if r.Freed > negligible && r.Fed {
				return math.NaN()
			}
			v = math.Sqrt(2 * r.Freed / m)
		}
		return 0.5 * m * (v + speed) * (v + speed)
	}
}

// MovingAt is the vehicle's speed [m/s].
func MovingAt(l *launcher.Launcher) float64 {
	v := l.Mount.MovingAt.High
	if l.Event != nil {
		v = max(v, l.Event.VehicleSpeed.High)
	}
	return v
}
