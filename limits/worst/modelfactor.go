package worst

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/wave"
)

// ModelFactor multiplies the model's worst energy before it is judged [-]. It
// covers what the lumped model leaves out where it is inside its range (waves in
// barrel and hose), flow coefficients read off catalogues, and a search that
// proves no global maximum. A shot outside the range counts for more already
// before: see RangeExcess. This is the one place where the factor is declared.
const ModelFactor = 1.25

// ModelFactorSource says where ModelFactor comes from.
const ModelFactorSource = "own rule of this project: against one-dimensional gas dynamics (pneumatics/wave) the fast model was at most " +
	"7 % low in energy over some 1900 random launchers inside its range (testdata/wave/README.md); the rest of the factor, for catalogue " +
	"flow figures and the search, is from memory"

// RangeExcess is the share by which the energy of a shot is raised because the
// lumped model is outside its range there [-]: the most that the wave model gave
// above the lumped one over random launchers of that kind. 0 inside the range,
// and for a projectile that did not leave: its energy is none, or a
// thermodynamic bound that no wave exceeds.
//
//	hose to the barrel, tighter than wave.WideHose times the valve:  wave.HoseExcess
//	wider hose, or outside wave.Rule:                                wave.OutsideExcess
//
// Both at once count as the larger: the hoses' launchers were outside the rule
// too. Inside the range the wave model still gave up to wave.InsideExcess more; ModelFactor
// covers that.
func RangeExcess(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
	if r.Outcome != pneumatics.Left {
		return 0
	}
	excess := hoseExcess(c)
	if excess < wave.OutsideExcess && !wave.RuleOf(c, r).Inside() {
		excess = wave.OutsideExcess
	}
	return excess
}

// hoseExcess is the part of RangeExcess that a circuit has whatever the shot.
func hoseExcess(c *pneumatics.Circuit) float64 {
	switch i, share := hoseToBarrel(c); {
	case i < 0:
		return 0
	case share < wave.WideHose:
		return wave.HoseExcess
	}
	return wave.OutsideExcess
}

// hoseToBarrel finds a path to the barrel with a hose, and the hose's conductance
// over the valve's [-], 0 for a hose alone; the tightest where there are several;
// -1: none. The air in such a hose stands past its resistance and pushes first;
// the lumped model has it all before the resistance.
func hoseToBarrel(c *pneumatics.Circuit) (path int, share float64) {
	path, share = -1, math.Inf(1)
	for i := range c.Paths {
		p := &c.Paths[i]
		s := math.Inf(1)
		switch {
		case p.From != pneumatics.BarrelNode && p.To != pneumatics.BarrelNode:
			s = hoseThroughManifold(c, p)
		case p.Kind == pneumatics.Hose:
			s = 0
		case !p.Hose.IsZero() && !p.Flow.IsZero():
			hose, _ := p.Hose.Conductance(c.Gas)
			valve, _ := p.Flow.Conductance(c.Gas)
			s = hose / valve
		}
		if s < share {
			path, share = i, s
		}
	}
	return path, share
}

// manifold is the volume [m3] up to which a vessel between a hose and the valve
// to the barrel is taken for a fitting: the hose feeds the valve then.
const manifold = 0.1e-3

// hoseThroughManifold gives the conductance of a hose that ends in a small volume
// at the valve to the barrel, over that valve's [-]; +Inf where p is none.
func hoseThroughManifold(c *pneumatics.Circuit, p *pneumatics.Path) float64 {
	hose := p.Hose
	if p.Kind == pneumatics.Hose {
		hose = p.Flow
	}
	if hose.IsZero() {
		return math.Inf(1)
	}
	share := math.Inf(1)
	for _, end := range [2]pneumatics.Node{p.From, p.To} {
		if end < 0 || int(end) >= len(c.Volumes) || c.Volumes[end].Volume > manifold {
			continue
		}
		for i := range c.Paths {
			q := &c.Paths[i]
			if q.From == end && q.To == pneumatics.BarrelNode || q.To == end && q.From == pneumatics.BarrelNode {
				h, _ := hose.Conductance(c.Gas)
				v, _ := q.Flow.Conductance(c.Gas)
				share = min(share, h/v)
			}
		}
	}
	return share
}

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
	raised := finding.Percent(RangeExcess(c, r))
	i, share := hoseToBarrel(c)
	if i < 0 {
		return finding.Say("%s; over random launchers outside the range the wave model gave up to %s more energy than the fast one",
			RuleText(wave.RuleOf(c, r)), raised)
	}
	what := "is a hose that feeds the barrel"
	if share > 0 {
		what = "has a hose that passes " + finding.Percent(share) + " of what its valve does"
	}
	return finding.Say("the path %q %s; over random launchers with such a hose the wave model gave up to %s more energy than the fast one",
		c.Paths[i].Name, what, raised)
}

// RuleText says where a shot stands against the range of the lumped model.
func RuleText(r wave.Rule) finding.Text {
	return finding.Say("the air behind the projectile weighs %.2g of it (range: up to %.2g) and sound crosses the barrel %.3g times while "+
		"it travels (range: %.0f or more)",
		r.GasRatio, wave.MaxGasRatio, r.SoundTimes, wave.MinSoundTimes)
}

// studiedHose is the range of the hoses that the two models were compared on.
const (
	studiedHoseLength = 3.0  // [m]
	studiedHoseShare  = 0.05 // least conductance of the hose over the valve's [-]
)

// BeyondStudy says why no factor is known for a launcher's hose; nil where one is.
func BeyondStudy(l *launcher.Launcher) finding.Text {
	c := new(pneumatics.Circuit)
	l.Fill(c)
	i, share := hoseToBarrel(c)
	if i < 0 {
		return nil
	}
	p := &l.Paths[i]
	switch {
	case p.Kind != pneumatics.Hose && p.Hose != nil && p.Hose.Side == launcher.HoseAfter && p.To == "barrel":
		return finding.Say("the hose of paths.%s lies between valve and barrel: the fast model was compared with gas dynamics only for hoses "+
			"before the valve", p.Name)
	case p.Hose != nil && p.Hose.Length.High > studiedHoseLength:
		return finding.Say("the hose of paths.%s is longer than the %s up to which the fast model was compared with gas dynamics", p.Name,
			finding.Metre(studiedHoseLength).In(finding.Decimals, 0))
	case share > 0 && share < studiedHoseShare:
		return finding.Say("the hose of paths.%s passes less than %s of what its valve does: beyond what the fast model was compared with gas "+
			"dynamics for", p.Name, finding.Percent(studiedHoseShare))
	}
	return nil
}
