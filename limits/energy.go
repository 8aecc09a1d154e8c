package limits

import (
	"context"
	"fmt"
	"math"

	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// WithheldError is a computation that failed its own checks; its numbers are not
// to be used.
type WithheldError struct{ What, Reason string }

// Error tells what was withheld and why.
func (e *WithheldError) Error() string { return e.What + " is withheld: " + e.Reason }

// energies computes the energy report: nominal shots, worst case, ceiling.
func (j *judge) energies() error {
	l := j.Launcher
	limits, err := j.energyLimits()
	if err != nil {
		return err
	}
	j.Limits = limits
	e := &EnergyReport{Factor: ModelFactor, FactorSource: ModelFactorSource, Limit: limits.Total.Value, AreaLimit: limits.Area.Value}
	j.Energy = e
	start := l.nominalStart()
	if e.NominalShot, err = l.nominalFigures(start, 0); err != nil {
		return err
	}
	high, ok := l.SoakedHigh()
	if !ok {
		j.NoStart = "no pressure switch and no dead head: the highest working pressure is not known; state [supply] dead_head or a [pressure_switch]"
		return nil
	}
	e.StartHigh = high
	if e.Ceiling, err = l.ceiling(j.ctx, high); err != nil {
		return err
	}
	j.Normal, err = l.maximise(j.ctx, l.energyQuestion(high), j.normalSearch(high))
	if err != nil {
		return err
	}
	if j.Normal.shot != nil {
		if why := j.Normal.shot.Withheld(); why != "" {
			return &WithheldError{"the worst shot", why}
		}
		e.Worst = figures(&j.Normal.c, j.Normal.shot, j.Normal.start, j.Normal.seat)
		e.WorstPoint = j.Normal.point
		e.useFactor(j.Normal)
		j.thorough()
		e.Maxima, e.Gap = len(j.Normal.result.Maxima), j.Normal.result.Gap
	}
	e.Runs = j.Normal.result.Evaluations
	if e.NominalMax, err = l.nominalWorstSeat(j.ctx, start); err != nil {
		return err
	}
	e.CeilingDose = pneumatics.CeilingDose(e.Limit, high, l.Ambient.Pressure.Nominal)
	e.Judged, e.Basis = e.Model, OnModel
	if allowed, _ := limits.allowed(l.Projectile.ContactDiameter); e.Ceiling <= allowed {
		e.Judged, e.Basis = e.Ceiling, OnCeiling
	}
	j.areas()
	return nil
}

// normalSearch is how normal operation is searched: in full; around the hardest shots
// of a full search over it and more, where one is already made; and briefly where the
// ceiling decides, since the model's shot is for information only then.
func (j *judge) normalSearch(high float64) search.Options {
	b := newBox(j.Launcher, j.Launcher.energyQuestion(high))
	var seeds [][]float64
	for _, s := range j.known {
		if len(s.u) == b.dim {
			seeds = append(seeds, s.in(b))
		}
	}
	allowed, _ := j.Limits.allowed(j.Launcher.Projectile.ContactDiameter)
	if len(seeds) == 0 && j.Energy.Ceiling > allowed {
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

// areas fills contact and projected area and the energy per area.
func (j *judge) areas() {
	e, p := j.Energy, &j.Launcher.Projectile
	e.ProjectedArea = circle(p.Diameter.Low)
	if p.ContactDiameter.Set {
		e.ContactArea = circle(p.ContactDiameter.Low)
		e.AreaJudged = e.Judged / e.ContactArea
	}
	j.Eye = EyeFigures(e.Judged / e.ProjectedArea)
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

// energyVerdicts judges total energy and energy per contact area.
func (j *judge) energyVerdicts() {
	total := j.newVerdict("energy.total", "Energy of the projectile, worst case", InJoule)
	area := j.newVerdict("energy.area", "Energy per contact area, worst case", InJoulePerArea)
	total.Source, total.Caveat = j.Limits.Total.Source, j.Limits.Total.Caveat
	area.Source, area.Caveat = j.Limits.Area.Source, j.Limits.Area.Caveat
	if why := j.energyUnknown(); why != "" {
		total.unknown(why)
		area.unknown(why)
		j.add(total, area)
		return
	}
	e := j.Energy
	total.Basis, area.Basis = e.Basis, e.Basis
	total.judge(e.Judged, e.Limit)
	total.Why = j.worstWhy()
	if total.Status == Fail {
		total.Advice = j.energyAdvice(e.Limit / e.Judged)
	} else if e.Basis == OnModel {
		total.Advice = "On the model: confirm with at least 5 measured shots before anyone plays."
	}
	j.areaVerdict(area)
	j.measuredVerdict(total, area)
	j.add(total, area)
}

func (j *judge) areaVerdict(area *Verdict) {
	e := j.Energy
	switch {
	case !j.Limits.AreaApplies(e.Judged):
		area.notApplicable(fmt.Sprintf("the worst energy, %s, is at or below the floor of %s, where no energy per area is judged",
			joule(e.Judged), joule(j.Limits.Floor.Value)))
	case e.ContactArea == 0:
		area.unknown("projectile.contact_diameter is not stated: measure the print that the tip leaves (ink, paper over a board)")
	default:
		area.judge(e.AreaJudged, e.AreaLimit)
		area.Why = fmt.Sprintf("%s on the smallest contact print, %s across", joule(e.Judged), millimetre(j.Launcher.Projectile.ContactDiameter.Low))
		if area.Status == Fail {
			area.Advice = fmt.Sprintf("Less energy, or a larger contact print: at least %s across at this energy.",
				millimetre(math.Sqrt(4*e.Judged/(math.Pi*e.AreaLimit))))
		}
	}
}

// energyUnknown says why the energies cannot be judged; "" where they can.
func (j *judge) energyUnknown() string {
	switch {
	case j.NoStart != "":
		return j.NoStart
	case j.Normal == nil || !j.Normal.result.Found:
		return "no shot of the tolerance box could be computed"
	case j.Energy.Basis != OnCeiling && j.Normal.undetermined() &&
		j.Energy.Judged <= j.Energy.Limit: // a failure is one all the same
		return fmt.Sprintf("%d of %d shots in the tolerance box could not be computed", j.Normal.result.Undefined, j.Normal.result.Evaluations)
	case j.Energy.Basis == OnModel:
		return j.Launcher.beyondStudy()
	}
	return ""
}

func (j *judge) worstWhy() string {
	e := j.Energy
	if e.Basis == OnCeiling {
		return fmt.Sprintf("no valve or friction can make more of the air: at most %s", joule(e.Ceiling))
	}
	w := fmt.Sprintf("the hardest of %d shots over all tolerances gives %s; times the model factor %.3g", e.Runs, joule(e.WorstEnergy), e.Factor)
	if e.Worst.Outcome == pneumatics.TimeRanOut.String() {
		w += " (a shot that does not end: counted with all that its air can still give)"
	}
	return w
}

// energyAdvice names what to change when the energy is too high by 1/share.
func (j *judge) energyAdvice(share float64) string {
	s := fmt.Sprintf("The energy must fall to %s of this: lower the cut-out, or use less travel, a smaller dose, a smaller valve or a restrictor.", percent(share))
	if a := j.assumedAdvice(); a != "" {
		s += " " + a
	}
	return s
}
