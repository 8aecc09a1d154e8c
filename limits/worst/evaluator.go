package worst

import (
	"math"

	"puffproof/limits/catalogue"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Evaluator computes a question's figure at points of its box. It owns its
// scratch space: one per worker.
type Evaluator struct {
	Box        *Box
	l          *launcher.Launcher   // a clone whose nominal values are moved
	quantities []catalogue.Quantity // of the clone, as the box has them
	Circuit    pneumatics.Circuit
	sc         pneumatics.Scenario
	sim        pneumatics.Sim
	gauge      []float64
	Options    pneumatics.Options
	judges     bool // its shots are those that are judged, not a search's (Question.Unfed)
}

// Evaluator is a new evaluator of the box's question, at the accuracy of a search.
func (b *Box) Evaluator() *Evaluator {
	e := &Evaluator{Box: b, l: b.Launcher.Clone()}
	e.quantities = catalogue.Coordinates(e.l, max(b.Question.Top, b.Question.StartMax))
	// A search needs the order of thousands of shots, not their last digits. Most
	// are over in fewer than 100 steps; one that is not after 1000 is tried once
	// more, tighter: at a loose tolerance a run can mark time. Hoses have mostly the same few cells everywhere in the box:
	// with a number that fits each shot the energy changes by some 0.5 % from one to the next.
	e.Options = pneumatics.Options{Tolerance: 1e-5, NoPeak: true, MaxSteps: 1000, Onward: mostSteps, Leap: true,
		OnlyLeaving: true, Coarse: !b.Question.Fine, Stop: b.stop, Later: ShotLimit, Worth: negligible}
	return e
}

// Value computes the figure at u.
func (e *Evaluator) Value(u []float64) float64 { return e.Box.Question.Measure(&e.Circuit, e.Run(u)) }

// Run computes the shot at u. One that the first run leaves open is followed further:
// tighter and with more steps, and where air still goes in or out behind a projectile
// that does not move, for an hour.
func (e *Evaluator) Run(u []float64) *pneumatics.Result {
	e.prepare(u)
	o := e.Options
	r := e.Box.known.Run(&e.sim, &e.Circuit, &e.sc, o)
	if o.MaxSteps <= 0 {
		return r
	}
	if o.Onward, o.Later, o.Leap = 0, 0, false; o.Tolerance > 0 {
		o.Tolerance = min(o.Tolerance, 1e-6)
	}
	for _, o.MaxSteps = range [...]int{longRun, mostSteps} {
		if o.MaxSteps > max(e.Options.MaxSteps, min(r.Steps, longRun)) && r.Time < e.sc.Until && e.goesOn(r) {
			if o.MaxSteps == mostSteps {
				e.sc.Until = ShotLimit // one that creeps is not computed twice
			}
			r = e.Box.known.Run(&e.sim, &e.Circuit, &e.sc, o)
		}
	}
	if unsettled(r) && r.Reason == "" && r.Time >= e.sc.Until && r.Time < ShotLimit {
		e.sc.Until = ShotLimit
		r = e.Box.known.Run(&e.sim, &e.Circuit, &e.sc, o)
	}
	return r
}

// The numbers of steps in which a shot is followed further.
const (
	longRun   = 12000
	mostSteps = 200000
)

// ShotLimit is how long a shot is followed at most [s]: nobody holds the trigger longer.
const ShotLimit = 3600.0

// unsettled tells that a shot's end is open, and that it matters.
func unsettled(r *pneumatics.Result) bool {
	return r.Reason != "" || r.Outcome == pneumatics.TimeRanOut && r.Freed > negligible
}

// goesOn tells that more steps may settle a shot. Where nothing but the gas slows a
// projectile that no supply pushes they bring more bounces only.
func (e *Evaluator) goesOn(r *pneumatics.Result) bool {
	const bouncing = 50 // rests
	return unsettled(r) && (r.Reason != "" || r.Fed || r.Rests < bouncing || !e.Circuit.Barrel.Frictionless())
}

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
	if b.Turn >= 0 {
		b.turns[min(int(u[b.Turn]*float64(len(b.turns))), len(b.turns)-1)].apply(e.l, &e.Circuit)
	}
	at := b.Question.StartMin
	if b.Start >= 0 {
		at = b.Question.start(u[b.Start])
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
	if b.Question.Unfed && !e.judges {
		e.sc.SupplyRuns = false
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
