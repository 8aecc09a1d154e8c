package worst

import (
	"context"
	"math"
	"slices"

	"puffproof/limits/launcher"
	"puffproof/limits/recall"
	"puffproof/limits/search"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// Nominal is one shot with nominal values, in detail.
type Nominal struct {
	Circuit     *pneumatics.Circuit
	Scenario    *pneumatics.Scenario
	Result      *pneumatics.Result
	Ceiling     float64      // thermodynamic bound of this shot [J]
	ContactArea float64      // nominal [m2]; 0: not stated
	Highest     *ShotFigures // from the seat that shoots hardest; nil: fixed, or not asked for
	Above       float64      // how far the start lies above the highest normal pressure [Pa]; 0: not
}

// RangeError is a question outside the model's range.
type RangeError struct{ Err error }

// Error says which bound is passed.
func (e *RangeError) Error() string { return e.Err.Error() }

// Unwrap gives the model's own error.
func (e *RangeError) Unwrap() error { return e.Err }

// NominalShot is the shot with nominal values at the stated travel, from at
// [Pa gauge] of the sensed volume; nil: the cut-out, or what else ends the filling. The supply
// counts where it is what pushes (launcher.SupplyPushes); else the switch has just stopped it. samples
// is the length of the trace. The error is the context's, a start outside the
// model's range, or a WithheldError.
func NominalShot(ctx context.Context, l *launcher.Launcher, at *float64, samples int) (*Nominal, error) {
	start := NominalStart(l)
	if at != nil {
		start = *at
	}
	if err := flow.CheckRange(start, l.Ambient.Temperature.Nominal); err != nil {
		return nil, &RangeError{err}
	}
	n := &Nominal{}
	n.Circuit, n.Scenario = NominalScenario(l, start)
	var sim pneumatics.Sim
	stop := func() bool { return ctx.Err() != nil }
	r := sim.Run(n.Circuit, n.Scenario, pneumatics.Options{Stop: stop})
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if why := r.Withheld(); why != "" {
		return nil, withhold("the shot", why, n.Circuit, r)
	}
	// The trace stops at every sample, so it costs steps; the figures are those of
	// the undisturbed run.
	n.Result = r.Clone()
	n.Result.Trace = sim.Run(n.Circuit, n.Scenario, pneumatics.Options{Samples: samples, TraceEnd: n.Result.Time, Stop: stop}).Trace
	n.Ceiling = min(sim.Ceiling(n.Circuit, n.Scenario, n.Result.SupplyMass).Final, sim.MostPush(n.Circuit, n.Scenario))
	if n.Result.Outcome == pneumatics.Left && n.Result.FinalEnergy > n.Ceiling+max(n.Result.EnergyImbalance, 0) {
		return nil, &WithheldError{"the shot", "it is above the thermodynamic ceiling"}
	}
	if l.Projectile.ContactDiameter.Set {
		n.ContactArea = launcher.Circle(l.Projectile.ContactDiameter.Nominal)
	}
	if high, ok := l.SoakedHigh(); ok && start > high {
		n.Above = start - high
	}
	return n, ctx.Err()
}

// NominalShotAndSeats is NominalShot, and where the seat is not fixed the nominal shot from the seat that shoots hardest beside it.
func NominalShotAndSeats(ctx context.Context, l *launcher.Launcher, at *float64, samples int) (*Nominal, error) {
	n, err := NominalShot(ctx, l, at, samples)
	if err != nil || l.Barrel.FixedSeat {
		return n, err
	}
	start := NominalStart(l)
	if at != nil {
		start = *at
	}
	f, err := NominalWorstSeat(ctx, l, start)
	if err != nil {
		return nil, err
	}
	n.Highest = &f
	return n, nil
}

// NominalStart is the sensed pressure of a nominal shot [Pa gauge].
func NominalStart(l *launcher.Launcher) float64 { return l.Working().Nominal }

// NominalScenario is circuit and scenario of the shot with nominal values from a gauge
// pressure [Pa] of the sensed volume.
func NominalScenario(l *launcher.Launcher, start float64) (*pneumatics.Circuit, *pneumatics.Scenario) {
	c, sc := new(pneumatics.Circuit), new(pneumatics.Scenario)
	l.FillShot(c)
	*sc = pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing, Parts: l.Model.Parts, SupplyRuns: l.SupplyPushes()}
	for _, g := range l.StartPressures(c, start, nil) {
		sc.Volumes = append(sc.Volumes, pneumatics.Condition{Pressure: c.Ambient.Pressure + g, Temperature: c.Ambient.Temperature})
	}
	return c, sc
}

func nominalFigures(l *launcher.Launcher, start, seat float64) (ShotFigures, error) {
	c, sc := NominalScenario(l, start)
	sc.Seat = seat
	var sim pneumatics.Sim
	r := sim.Run(c, sc, pneumatics.Options{})
	if why := r.Withheld(); why != "" {
		return ShotFigures{}, withhold("the nominal shot", why, c, r)
	}
	return figures(c, r, start, seat), nil
}

// NominalWorstSeat is the nominal shot from the seat that shoots hardest.
func NominalWorstSeat(ctx context.Context, l *launcher.Launcher, start float64) (ShotFigures, error) {
	if l.Barrel.FixedSeat {
		return nominalFigures(l, start, 0)
	}
	c, sc := NominalScenario(l, start)
	worker := func() *seatEnergy {
		cc, s := *c, *sc
		return &seatEnergy{circuit: &cc, scenario: &s, sim: new(pneumatics.Sim), measure: FinalEnergy(0), known: recall.Of(ctx)}
	}
	seats := sixteenths()
	best, closer, err := hardestSeat(ctx, seats, worker)
	if err != nil {
		return ShotFigures{}, err
	}
	if !closer {
		return nominalFigures(l, start, best*c.Barrel.Travel)
	}
	res, err := search.Maximise(ctx, 1, func() search.Objective { return worker() }, seatSearch(seats))
	if err != nil {
		return ShotFigures{}, err
	}
	if !res.Found {
		return ShotFigures{}, &WithheldError{"the nominal shot", "no seat gives a result"}
	}
	return nominalFigures(l, start, res.Best.Point[0]*c.Barrel.Travel)
}

// sixteenths are seats all over the travel, as shares of it.
func sixteenths() (seats [][]float64) {
	const parts = 16
	for i := range parts + 1 {
		seats = append(seats, []float64{float64(i) / parts})
	}
	return seats
}

// hardestSeat is the one of some seats, as a share of the travel, that shoots hardest, and whether a closer look is worth its
// time: not where a projectile leaves from none, nor where it creeps, behind a hose for seconds, from one.
func hardestSeat(ctx context.Context, seats [][]float64, worker func() *seatEnergy) (best float64, closer bool, err error) {
	const creeping = 20000 // evaluations of a shot; most take some hundred
	values, left, evals := make([]float64, len(seats)), make([]bool, len(seats)), make([]int, len(seats))
	err = SideBySide(len(seats), func(i int) error {
		values[i], left[i], evals[i] = worker().shoot(seats[i])
		return ctx.Err()
	})
	top := math.Inf(-1)
	for i, v := range values {
		if v > top {
			best, top = seats[i][0], v
		}
	}
	return best, slices.Contains(left, true) && slices.Max(evals) < creeping, err
}

// seatSearch is the search over the seat alone: from some all over the travel a hundred shots
// around the best of them.
func seatSearch(seats [][]float64) search.Options {
	o := search.Light(seats...)
	o.Budget, o.Starts, o.Settle = 60, 2, 40
	return o
}

// seatEnergy is the final energy of one shot as a function of the seat.
type seatEnergy struct {
	circuit  *pneumatics.Circuit
	scenario *pneumatics.Scenario
	sim      *pneumatics.Sim
	measure  func(*pneumatics.Circuit, *pneumatics.Result) float64
	known    *recall.Memory
}

// Value gives the energy from a seat at u of the travel.
func (s *seatEnergy) Value(u []float64) float64 {
	energy, _, _ := s.shoot(u)
	return energy
}

// shoot is Value, whether the projectile leaves, and how many evaluations that took.
func (s *seatEnergy) shoot(u []float64) (energy float64, leaves bool, evaluations int) {
	s.scenario.Seat = u[0] * s.circuit.Barrel.Travel
	r := s.known.Run(s.sim, s.circuit, s.scenario, pneumatics.Options{Tolerance: 1e-6, NoPeak: true})
	return s.measure(s.circuit, r), r.Outcome == pneumatics.Left, r.Evaluations
}
