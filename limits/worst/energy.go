package worst

import (
	"context"
	"math"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/search"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flight"
)

// WithheldError is a computation that failed its own checks; its numbers are not
// to be used.
type WithheldError struct{ What, Reason string }

// Error tells what was withheld and why.
func (e *WithheldError) Error() string { return e.What + " is withheld: " + e.Reason }

// EnergyInput is what the energies of normal operation are computed from.
type EnergyInput struct {
	Launcher *launcher.Launcher
	Limits   launcher.EnergyLimits
	Depth    Depth
	Seeds    []StartSeed // the hardest shots of a search over normal operation and more; nil: none was made
	Tame     bool        // climbs of that search from far apart came to the same (Case.Tame)
}

// Energies is what a launcher's shots of normal operation come to.
type Energies struct {
	Report  *EnergyReport
	Normal  *Case           // the worst case; nil: not computed
	Wave    *WaveComparison // nil: not asked for
	NoStart finding.Text    // why the highest start pressure, or what pushes besides, is unknown; nil: known
}

// ComputeEnergies makes nominal shots, worst case and ceiling. The error is the
// context's or a WithheldError.
func ComputeEnergies(ctx context.Context, in EnergyInput) (out Energies, err error) {
	l, limits := in.Launcher, in.Limits
	e := &EnergyReport{Factor: ModelFactor, FactorSource: finding.Words(ModelFactorSource), Limit: limits.Total.Value,
		AreaLimit: limits.Area.Value, MovingAt: MovingAt(l)}
	out.Report = e
	start, rest := NominalStart(l), l.Resting()
	e.Rest = rest.Shown(l)
	if e.NominalShot, err = nominalFigures(l, start, 0); err != nil {
		return out, err
	}
	high, ok := l.SoakedHigh()
	if !ok {
		out.NoStart = launcher.NoHighest().Say("; state [supply] dead_head, a [pressure_switch], or filled_to of a vessel that comes filled")
		return out, nil
	}
	if s := l.Supply; s != nil && s.MostFreeAir() <= 0 && launcher.ReachOf(l).Supply {
		out.NoStart = finding.Key("supply.free_air").Say(" is not stated, and what it delivers gets into the barrel while it is " +
			"fired: how hard it pushes is not known; state it, or the states in which it runs (runs_in) without firing")
		return out, nil
	}
	if out.NoStart = nothingBehind(l, high); len(out.NoStart) != 0 {
		return out, nil
	}
	e.StartHigh = high
	if e.Ceiling, err = Ceiling(ctx, l, high); err != nil {
		return out, err
	}
	allowed, _ := limits.Allowed(l.Projectile.ContactDiameter)
	height, _ := MuzzleHeight(l) // the ceiling decides alone only where it leaves room for the fall too (EnergyReport.Most)
	if err := out.worstShot(ctx, in, allowed-Fall(l, height)); err != nil {
		return out, err
	}
	if out.Normal.Shot != nil {
		if why := out.Normal.Shot.Withheld(); why != "" {
			return out, withhold("the worst shot", why, &out.Normal.Circuit, out.Normal.Shot)
		}
		e.Worst = figures(&out.Normal.Circuit, out.Normal.Shot, out.Normal.start, out.Normal.seat)
		e.WorstPoint = out.Normal.point
		e.useFactor(out.Normal)
		if in.Depth == Thorough {
			progress.Looking(ctx, finding.Words("the worst shot in the wave model"))
			out.Wave = e.useWave(out.Normal)
		}
		e.Maxima, e.Gap = len(out.Normal.Result.Maxima), out.Normal.Result.Gap
		e.ModelBounds = !out.Normal.Undetermined() && !e.Slow() && (out.Wave.Compared() || len(BeyondStudy(l)) == 0)
	}
	e.Runs = out.Normal.Result.Evaluations
	if e.NominalMax, err = NominalWorstSeat(ctx, l, start); err != nil {
		return out, err
	}
	if e.Entered, err = computeEntered(ctx, l, high, out.Normal); err != nil {
		return out, err
	}
	e.CeilingDose = pneumatics.CeilingDose(e.Limit, high, l.Ambient.Pressure.Nominal)
	e.Judged, e.Basis = e.Model, finding.OnModel
	if e.Ceiling <= allowed {
		e.Judged, e.Basis = e.Ceiling, finding.OnCeiling
	}
	e.UseAreas(&l.Projectile)
	return out, nil
}

// nothingBehind says that nothing that feeds the barrel holds any pressure, from up to high of the sensed volume [Pa gauge]: a launcher
// that is not filled, or is not as it is stated, and every limit would hold of it. nil: something does.
func nothingBehind(l *launcher.Launcher, high float64) finding.Text {
	reach := launcher.ReachOf(l)
	if reach.Supply {
		return nil
	}
	var empty []string
	for i, g := range l.HighStart(high) {
		switch {
		case !reach.Volumes[i]:
		case g > 0:
			return nil
		default:
			empty = append(empty, l.Volumes[i].Name)
		}
	}
	return finding.Say("nothing that feeds the barrel (%s) is ever filled by the design before it is fired: what it shoots with is not "+
		"known; name the states in which what fills it is open (open_in)", strings.Join(empty, ", "))
}

// worstShot searches normal operation, once more in full where its shot shows that the
// ceiling, which seemed to decide, is above what is allowed [J].
func (out *Energies) worstShot(ctx context.Context, in EnergyInput, allowed float64) (err error) {
	e := out.Report
	for {
		decides := e.Ceiling > allowed
		if out.Normal, err = Maximise(ctx, in.Launcher, EnergyQuestion(in.Launcher, e.StartHigh), in.search(e.StartHigh, decides)); err != nil {
			return err
		}
		out.Normal.tame = in.Tame
		if decides {
			if err := out.Normal.Surely(ctx, allowed/ModelFactor); err != nil {
				return err
			}
		}
		if err := e.holdToCeiling(out.Normal); err != nil || decides == (e.Ceiling > allowed) {
			return err
		}
	}
}

// Fall is what a fall from a height [m] to the ground adds to the energy of the heaviest projectile [J], without drag: whatever its way,
// it comes down with no more than its shot and its fall have given it (conservation of energy).
func Fall(l *launcher.Launcher, height float64) float64 {
	return l.Projectile.Mass.High * flight.Gravity * height
}

// UnstatedHeight is how high above the ground a muzzle of which nothing is stated may be [m]: at the top of a float or of a stage, above
// the people around it (common practice, no source). A higher muzzle reaches further, and what falls from it gains more.
const UnstatedHeight = 3

// MuzzleHeight is the height of the muzzle above the ground [m] at its highest, and whether the design states it; else it is
// UnstatedHeight.
func MuzzleHeight(l *launcher.Launcher) (height float64, stated bool) {
	if l.Event != nil && l.Event.MuzzleHeight.Set {
		return l.Event.MuzzleHeight.High, true
	}
	return UnstatedHeight, false
}

// holdToCeiling holds the worst shot to the bound at its own point of the box, and takes
// that into the bound over the box. A shot above its bound is a contradiction: neither of
// the two is to be used.
func (e *EnergyReport) holdToCeiling(w *Case) error {
	if w.Shot == nil {
		return nil
	}
	at := (&CeilingAt{w.Box.Evaluator()}).Value(w.Result.Best.Point)
	// What the balances of a shot may be off by is no contradiction.
	if bare := w.Value / (1 + RangeExcess(&w.Circuit, w.Shot)); bare > at+pneumatics.MaxEnergyResidual*max(bare, 1e-3) {
		return &WithheldError{"the worst shot", "it is above the thermodynamic ceiling"}
	}
	e.Ceiling = max(e.Ceiling, at)
	return nil
}

// search is how normal operation is searched: in full; around the hardest shots of a
// full search over it and more, where one is already made; and briefly where the
// model's shot is for information only, since the ceiling decides.
func (in EnergyInput) search(high float64, modelDecides bool) search.Options {
	b := NewBox(in.Launcher, EnergyQuestion(in.Launcher, high))
	var seeds [][]float64
	for _, k := range in.Seeds {
		if k.Fits(b) {
			seeds = append(seeds, k.In(b))
		}
	}
	if len(seeds) == 0 && modelDecides {
		return search.Options{Seeds: b.Hills()}
	}
	o := search.Quick(seeds...)
	if len(seeds) > 0 {
		o.Far = 1 // they are of this very question
	}
	return o
}

// EnergyQuestion asks for the final energy of a shot in normal operation, raised
// where the model is outside its range.
func EnergyQuestion(l *launcher.Launcher, startMax float64) Question {
	return Question{Name: "normal operation", StartMax: startMax, Top: startMax, to: pneumatics.Firing,
		FromAll: l.StatesBefore(), Measure: JudgedEnergy(MovingAt(l)), Say: sayEnergy}
}

// sayEnergy says the energy [J] of the hardest shot so far.
func sayEnergy(e float64) finding.Text {
	return finding.Say("up to %s", finding.Joule(e))
}

// sayPressure says the highest pressure [Pa gauge] so far.
func sayPressure(p float64) finding.Text {
	return finding.Say("up to %s", finding.Bar(p))
}

// UseAreas fills contact and projected area and the energy per area.
func (e *EnergyReport) UseAreas(p *launcher.ProjectileSpec) {
	e.ProjectedArea = launcher.Circle(p.Diameter.Low)
	if p.ContactDiameter.Set {
		e.ContactArea = launcher.Circle(p.ContactDiameter.Low)
		e.AreaJudged = e.Judged / e.ContactArea
	}
}

// Ceiling is the largest thermodynamic bound over the box.
func Ceiling(ctx context.Context, l *launcher.Launcher, high float64) (float64, error) {
	b := NewBox(l, EnergyQuestion(l, high))
	ctx = progress.Looking(ctx, finding.Words("what the air could do at most"))
	res, err := search.Maximise(ctx, b.Dim, func() search.Objective { return &CeilingAt{b.Evaluator()} }, search.Quick())
	if err != nil {
		return 0, err
	}
	if !res.Found || math.IsNaN(res.Best.Value) {
		return 0, &WithheldError{"the ceiling", "it could not be computed"}
	}
	return res.Best.Value, nil
}

// CeilingAt evaluates the ceiling at points of the box, relative to a person
// standing still: what the air that can reach the barrel could do, or what its pressure
// could do on the projectile's way, whichever is less.
type CeilingAt struct{ Evaluator *Evaluator }

// Value gives the bound on the final energy at u.
func (c *CeilingAt) Value(u []float64) float64 {
	e := c.Evaluator
	e.prepare(u)
	// The projectile may leave at any time while a shot lasts.
	supply := e.sim.SupplyMass(&e.Circuit, &e.sc, ShotLimit)
	energy := min(e.sim.Ceiling(&e.Circuit, &e.sc, supply).Final, e.sim.MostPush(&e.Circuit, &e.sc))
	m := e.Circuit.Barrel.Mass
	v := math.Sqrt(2*energy/m) + MovingAt(e.l)
	return 0.5 * m * v * v
}

// figures turns a result into the figures of a report.
func figures(c *pneumatics.Circuit, r *pneumatics.Result, start, seat float64) ShotFigures {
	return ShotFigures{Outcome: r.Outcome.String(), MuzzleSpeed: r.MuzzleSpeed, MuzzleEnergy: r.MuzzleEnergy,
		FinalSpeed: r.FinalSpeed, FinalEnergy: r.FinalEnergy, ExitTime: r.ExitTime, StartGauge: start, Seat: seat}
}
