package worst

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/line"
	"puffproof/pneumatics/wave"
)

// ModelFactor multiplies the model's worst energy before it is judged [-]. It
// covers what the lumped model leaves out where it is inside its range (waves in the
// barrel, sharp fronts in hoses), flow coefficients read off catalogues, and a search that
// proves no global maximum. A shot outside the range counts for more already
// before: see RangeExcess. This is the one place where the factor is declared.
const ModelFactor = 1.25

// ModelFactorSource says where ModelFactor comes from.
const ModelFactorSource = "own rule of this project: against one-dimensional gas dynamics (pneumatics/wave) the fast model, hoses as " +
	"lines in both, was at most 10 % low in energy over some 2600 random launchers inside its range, shots of a millijoule or more " +
	"(testdata/wave/README.md); the rest of the factor, for catalogue flow figures and the search, is from memory"

// RangeExcess is the share by which the energy of a shot is raised because the
// lumped model is outside its range there [-]: the most that the wave model gave
// above the lumped one over random launchers of that kind. 0 inside the range,
// and for a projectile that did not leave: its energy is none, or a
// thermodynamic bound that no wave exceeds.
//
//	outside wave.Rule, or a hose beyond those compared:  wave.HoseExcess with a hose, else wave.OutsideExcess
//
// It grows from nothing over the last fifth before the end of the range: a step would hide
// the hardest shots beyond it from a search that climbs (own rule of this project).
//
// Inside the range the wave model still gave up to wave.InsideExcess more; ModelFactor
// covers that.
func RangeExcess(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
	if r.Outcome != pneumatics.Left {
		return 0
	}
	rule := wave.RuleOf(c, r)
	share := min(max((rule.Nearness()-nearEnd)/(1-nearEnd), 0), 1)
	if share < 1 && beyondStudy(c) {
		share = 1
	}
	return share * allowance(rule)
}

// allowance is the whole of RangeExcess, outside the range [-].
func allowance(r wave.Rule) float64 {
	if r.HoseRatio > 0 {
		return wave.HoseExcess
	}
	return wave.OutsideExcess
}

// InRange tells that the fast model is inside its range at a shot, and its hoses are of
// those that it was compared on. A projectile that did not leave has nothing to compare.
func InRange(c *pneumatics.Circuit, r *pneumatics.Result) bool {
	return r.Outcome != pneumatics.Left || wave.RuleOf(c, r).Inside() && !beyondStudy(c)
}

// nearEnd is the Nearness from which on RangeExcess begins to count [-].
const nearEnd = 0.8

// JudgedEnergy is the measure of the energy verdicts: the final energy, raised by
// RangeExcess where the lumped model is outside its range. Times ModelFactor it
// is compared with a limit.
func JudgedEnergy(speed float64) func(*pneumatics.Circuit, *pneumatics.Result) float64 {
	energy := FinalEnergy(speed)
	return func(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
		return (1 + RangeExcess(c, r)) * energy(c, r)
	}
}

// useFactor fills the factor of the worst case: WorstEnergy is the bare energy,
// Factor what it is multiplied by in all.
func (e *EnergyReport) useFactor(w *Case) {
	raise := 1 + RangeExcess(&w.Circuit, w.Shot)
	e.WorstEnergy = w.Value / raise
	e.Model = w.Value * ModelFactor
	e.Factor, e.FactorSource = ModelFactor*raise, finding.Words(ModelFactorSource)
	if raise > 1 {
		e.FactorSource = e.FactorSource.Say("; times %.3g: %s", raise, ExcessWhy(&w.Circuit, w.Shot))
	}
}

// ExcessWhy says why the energy of a shot is raised.
func ExcessWhy(c *pneumatics.Circuit, r *pneumatics.Result) finding.Text {
	rule := wave.RuleOf(c, r)
	kind := ""
	if rule.HoseRatio > 0 {
		kind = " with a hose"
	}
	why := RuleText(rule)
	switch {
	case beyondStudy(c):
		why = finding.Words("a hose is beyond those that the two models were compared on")
	case rule.Inside():
		why = why.Say(", near the end of the range")
	}
	return finding.Say("%s; over random launchers%s outside the range the wave model gave up to %s more energy than the fast one", why,
		kind, finding.Percent(allowance(rule)))
}

// RuleText says where a shot stands against the range of the lumped model.
func RuleText(r wave.Rule) finding.Text {
	with := ""
	if r.HoseRatio > 0 {
		with = ", with that of its hoses,"
	}
	return finding.Say("the air behind the projectile%s weighs %.2g of it (range: up to %.2g) and sound crosses the barrel %.3g times while "+
		"it travels (range: %.0f or more)", with,
		r.GasRatio, wave.MaxGasRatio, r.SoundTimes, wave.MinSoundTimes)
}

// studiedHose is the range of the hoses that the two models were compared on.
const (
	studiedHoseLength = 5.0 // [m]
	studiedHoseShare  = 0.1 // least conductance of the hose over the valve's [-]
)

// beyondStudy tells that a hose on the way to the barrel is none of those that the two
// models were compared on.
func beyondStudy(c *pneumatics.Circuit) bool {
	path, _, _ := worstHose(c)
	return path >= 0
}

// worstHose finds a path that is fired through with lines beyond the study: their length
// [m] and their conductance over that of the part beside them [-]; path -1: none.
func worstHose(c *pneumatics.Circuit) (path int, length, share float64) {
	for i := range c.Paths {
		p := &c.Paths[i]
		if len(p.Before)+len(p.After) == 0 || !wave.Carries(p) {
			continue
		}
		length, share = 0, math.Inf(1)
		for _, side := range [...][]line.Piece{p.Before, p.After} {
			run := 0.0
			for k := range side {
				run += side[k].Length
			}
			length = max(length, run)
		}
		if p.Kind != pneumatics.Hose {
			alone := pneumatics.Path{Kind: pneumatics.Hose, Flow: p.Flow, Before: p.Before, After: p.After}
			hose, _ := alone.SteadyFlow(c.Gas).Conductance(c.Gas)
			valve, _ := p.Flow.Conductance(c.Gas)
			share = hose / valve
		}
		if length > studiedHoseLength || share < studiedHoseShare {
			return i, length, share
		}
	}
	return -1, 0, math.Inf(1)
}

// BeyondStudy says why the fast model alone decides nothing for a launcher's hose, and
// what would change that; nil where it does.
func BeyondStudy(l *launcher.Launcher) finding.Text {
	w := l.Clone()
	for i := range w.Paths {
		if h := w.Paths[i].Hose; h != nil {
			h.Length.Nominal = max(h.Length.Nominal, h.Length.High)
		}
	}
	c := new(pneumatics.Circuit)
	w.FillShot(c)
	i, length, share := worstHose(c)
	switch {
	case i < 0:
		return nil
	case length > studiedHoseLength:
		return finding.Say("the hose of paths.%s is longer than the %s up to which the fast model was compared with gas dynamics: shorten "+
			"it, or run check --thorough", l.Paths[i].Name, finding.Metre(studiedHoseLength).In(finding.Decimals, 0))
	}
	return finding.Say("the hose of paths.%s passes %s of what its valve does, less than the %s down to which the fast model was compared "+
		"with gas dynamics: a wider or shorter hose, or run check --thorough", l.Paths[i].Name, finding.Percent(share),
		finding.Percent(studiedHoseShare))
}
