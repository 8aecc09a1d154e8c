package worst

import (
	"math"
	"strings"

	"puffproof/limits/finding"
	"puffproof/pneumatics"
	"puffproof/pneumatics/wave"
)

// Depth is how much a check computes.
type Depth uint8

// The depths.
const (
	Quick    Depth = iota // the fast model decides
	Thorough              // the wave model is run at the worst shot too
)

// WaveComparison is one shot in the fast model and in one-dimensional gas
// dynamics, side by side. It compares the bore only: the wave model leaves out
// the push after the muzzle.
type WaveComparison struct {
	Which  string       // the shot, in words
	WhyNot finding.Text // why the wave model was not run; "" it was
	Lumped BoreFigures
	Wave   BoreFigures
	// Relative are the figures of the wave model over those of the fast one, less
	// 1 [-]; NaN where either is missing.
	Relative BoreFigures
	Excess   float64 // energy of the wave model over that of the fast one, less 1 [-]; NaN: one of the two did not leave
	Mesh     float64 // relative difference of the muzzle speed to that on half the cells [-]; NaN: none
	Cells    int
	Rule     wave.Rule // of the fast model's shot; NaN in it where that did not leave
	Inside   bool      // the fast model is inside its range
	// The range of the rule [-].
	MaxGasRatio, MinSoundTimes float64
	Matters                    finding.Text // what the difference means
}

// Compared tells that the worst shot was run in the wave model as well; nil was not.
func (w *WaveComparison) Compared() bool { return w != nil && len(w.WhyNot) == 0 }

// BoreFigures are what both models say of a shot up to the muzzle. Speed, energy
// and time are NaN unless it left.
type BoreFigures struct {
	Outcome string
	Speed   float64 // at the muzzle [m/s]
	Energy  float64 // [J]
	Time    float64 // when it leaves, after the command [s]
	Peak    float64 // highest pressure behind the projectile [Pa gauge]: the mean of the barrel, or that at the breech or base
	Exit    float64 // pressure as it leaves [Pa gauge]: the mean of the barrel, or that on the base
}

// maxWaveSteps ends a wave run that would take more than some ten seconds, found
// by running: a creeping shot has no waves worth resolving.
const maxWaveSteps = 200_000

// compareWave runs a shot of the fast model in the wave model.
func compareWave(which string, c *pneumatics.Circuit, sc *pneumatics.Scenario, r *pneumatics.Result) *WaveComparison {
	pa := c.Ambient.Pressure
	w := &WaveComparison{Which: which, Excess: math.NaN(), Mesh: math.NaN(), Cells: wave.DefaultCells,
		MaxGasRatio: wave.MaxGasRatio, MinSoundTimes: wave.MinSoundTimes,
		Rule: wave.RuleOf(c, r), Lumped: BoreFigures{Outcome: r.Outcome.String(), Speed: r.MuzzleSpeed, Energy: r.MuzzleEnergy,
			Time: r.ExitTime, Peak: r.BarrelPeak - pa, Exit: r.BarrelExit - pa}}
	w.Inside = InRange(c, r)
	if r.Outcome != pneumatics.Left {
		w.WhyNot = finding.Words("the projectile does not leave in the fast model, so there is no shot to compare")
		return w
	}
	run := *sc
	// A shot that the wave model does not end in three times the time is over.
	run.Until = 3 * r.ExitTime
	g, mesh, err := wave.ShotWithError(c, &run, wave.Options{MaxSteps: maxWaveSteps})
	switch {
	case err != nil:
		w.WhyNot = finding.Words(strings.ReplaceAll(strings.ReplaceAll(err.Error(), "wave: ", ""), "\n", "; "))
		return w
	case g.Reason != "":
		w.WhyNot = finding.Words("its run did not end well: " + g.Reason)
		return w
	case math.Abs(g.EnergyResidual) > pneumatics.MaxEnergyResidual || math.Abs(g.MassResidual) > pneumatics.MaxMassResidual:
		w.WhyNot = finding.Words("its balances do not close")
		return w
	}
	w.Wave = BoreFigures{Outcome: g.Outcome.String(), Speed: g.MuzzleSpeed, Energy: g.MuzzleEnergy, Time: g.ExitTime,
		Peak: math.Max(g.BreechPeak, g.BasePeak) - pa, Exit: g.BaseExit - pa}
	w.Relative = w.Wave.over(w.Lumped)
	if g.Outcome == pneumatics.Left {
		w.Mesh, w.Excess = mesh, w.Relative.Energy
	}
	w.Matters = w.meaning()
	return w
}

// over gives figures relative to others, less 1; NaN where either is none.
func (f BoreFigures) over(g BoreFigures) BoreFigures {
	return BoreFigures{Speed: f.Speed/g.Speed - 1, Energy: f.Energy/g.Energy - 1, Time: f.Time/g.Time - 1,
		Peak: f.Peak/g.Peak - 1, Exit: f.Exit/g.Exit - 1}
}

// meaning says when the difference matters.
func (w *WaveComparison) meaning() finding.Text {
	if math.IsNaN(w.Excess) {
		return finding.Words("In the wave model the projectile does not leave: it is slower there, and the fast model is on the cautious side.")
	}
	where := "The fast model is inside its range"
	if !w.Inside {
		where = "The fast model is outside its range"
	}
	switch {
	case w.Excess <= 0:
		return finding.Say("%s, and the wave model gives %s less energy: the fast model is on the cautious side.", where,
			finding.Percent(-w.Excess))
	case w.Excess <= wave.InsideExcess:
		return finding.Say("%s. The wave model gives %s more energy: the model factor of %.3g covers it, with what it is meant for besides.",
			where, finding.Percent(w.Excess), ModelFactor)
	}
	return finding.Say("%s. The wave model gives %s more energy than the fast one: that matters. Shorten or widen the hose, or use a slower "+
		"valve or a heavier projectile, or measure.", where, finding.Percent(w.Excess))
}

// useWave runs the wave model at the worst shot. It never makes a verdict
// milder: where the wave model, with the model factor, gives more than is judged,
// that is judged.
func (r *EnergyReport) useWave(w *Case) *WaveComparison {
	e := w.Box.Evaluator()
	e.prepare(w.Result.Best.Point)
	cmp := compareWave("the worst shot over all tolerances", &e.Circuit, &e.sc, w.Shot)
	if len(cmp.WhyNot) != 0 || !(cmp.Excess > 0) {
		return cmp
	}
	// The push after the muzzle is taken to grow as the energy at the muzzle does.
	if model := r.WorstEnergy * (1 + cmp.Excess) * ModelFactor; model > r.Model {
		r.Model = model
		r.Factor = model / r.WorstEnergy
		r.FactorSource = finding.Say("the wave model gave %s more energy than the fast one at this shot; times %.3g: %s",
			finding.Percent(cmp.Excess), ModelFactor, ModelFactorSource)
	}
	return cmp
}

// CompareWave is a nominal shot in both models.
func (n *Nominal) CompareWave() *WaveComparison {
	return compareWave("the shot with nominal values", n.Circuit, n.Scenario, n.Result)
}
