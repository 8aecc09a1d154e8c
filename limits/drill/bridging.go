package drill

import (
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/material"
)

// NoBridging says why the supply must not be let run on against the relief valve, with the switch bridged or held
// closed; nil: it may. If that valve sticks, only the dead head ends it: every vessel, hose and gauge, and the barrel,
// must be good for that. What is not stated is not good for it. Fittings have no key: whoever bridges reads them.
func NoBridging(l *launcher.Launcher) finding.Text {
	if l.Supply == nil || !l.Supply.DeadHead.Set {
		return finding.Words("how far the supply can push is not known")
	}
	top := l.Soak(l.FailedSource().Supply.DeadHead.High)
	weak := func(name string, least float64, known bool) finding.Text {
		if !known {
			return finding.Say("if the relief valve sticks, the supply can push to %s, and nothing states what %s is good for",
				finding.WorstBar(top), name)
		}
		return finding.Say("if the relief valve sticks, the supply can push to %s, and %s is good for %s",
			finding.WorstBar(top), name, finding.Bar(least))
	}
	hoses, unrated := l.HoseParts()
	for _, p := range slices.Concat(l.Parts(), hoses, unrated) {
		rating, _ := l.Rating(p)
		known := p.Rated.Set && p.ForGas == launcher.Yes && !material.Of(p.Material).Bars()
		if !known || rating < top {
			return weak(p.Name, rating, known)
		}
	}
	for i := range l.Gauges {
		if g := &l.Gauges[i]; !g.Range.Set || g.Range.Low < top {
			return weak("the gauge on "+g.On, g.Range.Low, g.Range.Set)
		}
	}
	return nil
}

// ReliefRest is between which readings a gauge comes to rest while the supply runs on against the relief valve [Pa gauge]: not
// below where that may begin to lift, not above where it carries the supply, each less the error of the gauge.
func ReliefRest(l *launcher.Launcher) (low, high float64) {
	p := &l.Paths[l.ReliefOnSupply()]
	e := 0.0
	if l.Switch != nil && l.Switch.GaugeError.Set {
		e = l.Switch.GaugeError.High
	}
	high = p.FullFlowHigh()
	if over := l.Overcharge(); over.Known {
		high = over.Pressure
	}
	return max(0, p.SetPressure.Low-e), high - e
}
