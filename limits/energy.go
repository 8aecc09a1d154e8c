package limits

import (
	"context"
	"math"

	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// WithheldError is a computation that failed its own checks; its numbers are not
// to be used.
type WithheldError struct{ What, Reason string }

// Error tells what was withheld and why.
func (e *WithheldError) Error() string { return e.What + " is withheld: " + e.Reason }

// energyStage computes the energies of normal operation of a launcher.
type energyStage struct {
	ctx    context.Context
	l      *Launcher
	limits EnergyLimits
	depth  Depth
	known  []startSeed // the hardest shots of a search over normal operation and more; nil: none was made
}

// energies is what a launcher's shots of normal operation come to.
type energies struct {
	report  *EnergyReport
	normal  *worst          // the worst case; nil: not computed
	wave    *WaveComparison // nil: not asked for
	noStart string          // why the highest start pressure is unknown; "" known
}

// compute makes nominal shots, worst case and ceiling. The error is the context's or
// a WithheldError.
func (s energyStage) compute() (out energies, err error) {
	l, limits := s.l, s.limits
	e := &EnergyReport{Factor: ModelFactor, FactorSource: ModelFactorSource, Limit: limits.Total.Value, AreaLimit: limits.Area.Value}
	out.report = e
	start := l.nominalStart()
	if e.NominalShot, err = l.nominalFigures(start, 0); err != nil {
		return out, err
	}
	high, ok := l.SoakedHigh()
	if !ok {
		out.noStart = "no pressure switch and no dead head: the highest working pressure is not known; state [supply] dead_head or a [pressure_switch]"
		return out, nil
	}
	e.StartHigh = high
	if e.Ceiling, err = l.ceiling(s.ctx, high); err != nil {
		return out, err
	}
	allowed, _ := limits.allowed(l.Projectile.ContactDiameter)
	if out.normal, err = l.maximise(s.ctx, l.energyQuestion(high), s.search(high, e.Ceiling > allowed)); err != nil {
		return out, err
	}
	if out.normal.shot != nil {
		if why := out.normal.shot.Withheld(); why != "" {
			return out, &WithheldError{"the worst shot", why}
		}
		e.Worst = figures(&out.normal.c, out.normal.shot, out.normal.start, out.normal.seat)
		e.WorstPoint = out.normal.point
		e.useFactor(out.normal)
		if s.depth == Thorough {
			out.wave = e.useWave(out.normal)
		}
		e.Maxima, e.Gap = len(out.normal.result.Maxima), out.normal.result.Gap
	}
	e.Runs = out.normal.result.Evaluations
	if e.NominalMax, err = l.nominalWorstSeat(s.ctx, start); err != nil {
		return out, err
	}
	e.CeilingDose = pneumatics.CeilingDose(e.Limit, high, l.Ambient.Pressure.Nominal)
	e.Judged, e.Basis = e.Model, OnModel
	if e.Ceiling <= allowed {
		e.Judged, e.Basis = e.Ceiling, OnCeiling
	}
	e.useAreas(&l.Projectile)
	return out, nil
}

// search is how normal operation is searched: in full; around the hardest shots of a
// full search over it and more, where one is already made; and briefly where the
// model's shot is for information only, since the ceiling decides.
func (s energyStage) search(high float64, modelDecides bool) search.Options {
	b := newBox(s.l, s.l.energyQuestion(high))
	var seeds [][]float64
	for _, k := range s.known {
		if len(k.u) == b.dim {
			seeds = append(seeds, k.in(b))
		}
	}
	if len(seeds) == 0 && modelDecides {
		return search.Options{}
	}
	return search.Light(seeds...)
}

// energyQuestion asks for the final energy of a shot in normal operation, raised
// where the model is outside its range.
func (l *Launcher) energyQuestion(startMax float64) question {
	return question{name: "normal operation", startMax: startMax, to: pneumatics.Firing,
		fromAll: l.statesBefore(), measure: judgedEnergy(l.movingAt())}
}

// useAreas fills contact and projected area and the energy per area.
func (e *EnergyReport) useAreas(p *ProjectileSpec) {
	e.ProjectedArea = circle(p.Diameter.Low)
	if p.ContactDiameter.Set {
		e.ContactArea = circle(p.ContactDiameter.Low)
		e.AreaJudged = e.Judged / e.ContactArea
	}
}

// ceiling is the largest thermodynamic bound over the box.
func (l *Launcher) ceiling(ctx context.Context, high float64) (float64, error) {
	b := newBox(l, l.energyQuestion(high))
	res, err := search.Maximise(ctx, b.dim, func() search.Objective { return &ceilingAt{b.evaluator()} }, search.Light())
	if err != nil {
		return 0, err
	}
	if !res.Found || math.IsNaN(res.Best.Value) {
		return 0, &WithheldError{"the ceiling", "it could not be computed"}
	}
	return res.Best.Value, nil
}

// ceilingAt evaluates the ceiling at points of the box, relative to a person
// standing still.
type ceilingAt struct{ e *evaluator }

// Value gives the bound on the final energy at u.
func (c *ceilingAt) Value(u []float64) float64 {
	e := c.e
	e.prepare(u)
	supply := 0.0
	if s := e.c.Supply; s != nil && e.sc.SupplyRuns {
		supply = s.Delivery(0) * e.c.Ambient.Pressure / (e.c.Gas.R * e.c.Ambient.Temperature) // one second of free air
	}
	energy := e.sim.Ceiling(&e.c, &e.sc, supply).Final
	m := e.c.Barrel.Mass
	v := math.Sqrt(2*energy/m) + e.l.movingAt()
	return 0.5 * m * v * v
}

// figures turns a result into the figures of a report.
func figures(c *pneumatics.Circuit, r *pneumatics.Result, start, seat float64) ShotFigures {
	return ShotFigures{Outcome: r.Outcome.String(), MuzzleSpeed: r.MuzzleSpeed, MuzzleEnergy: r.MuzzleEnergy,
		FinalSpeed: r.FinalSpeed, FinalEnergy: r.FinalEnergy, ExitTime: r.ExitTime, StartGauge: start, Seat: seat}
}
