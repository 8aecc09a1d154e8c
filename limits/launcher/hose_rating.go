package launcher

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/material"
	"puffproof/pneumatics"
)

// HoseParts lists the hoses, as the rating verdicts see them: those whose rating is stated, and those of which none is.
// A hose sees the higher of the pressures at its two ends at a single fault, and twice that where a shot's air rushes
// through it: its wave is thrown back from a closed end.
func (l *Launcher) HoseParts() (rated, unrated []Part) {
	var pressures []VesselPressure
	reach := ReachOf(l)
	for i := range l.Paths {
		p := &l.Paths[i]
		h := p.Hose
		if h == nil || h.Shared {
			continue
		}
		if pressures == nil {
			pressures = l.VesselPressures()
		}
		worst := VesselPressure{}
		for _, end := range [...]string{p.From, p.To} {
			at := VesselPressure{}
			if n := l.Node(end); n >= 0 {
				at = pressures[n]
			} else if n == pneumatics.BarrelNode {
				at = l.BarrelFault()
			}
			if at.Fault > worst.Fault || math.IsNaN(at.Fault) {
				worst = at
			}
		}
		top, why := worst.Fault, finding.Say("the higher of its ends: %s", worst.Why)
		if reach.Paths[i] && p.isLine() {
			top, why = Rush*top, why.Say(", twice: the wave of a shot's air is thrown back")
		}
		made := h.Material
		if material.Of(made) == material.Unnamed { // no verdict asks for it: silence is no better than a plastic
			made = "not stated"
		}
		to := &rated
		if !h.RatedPressure.Set {
			to = &unrated
		}
		*to = append(*to, Part{Name: "paths." + p.Name + ".hose", Rated: h.RatedPressure, ForGas: Yes, Material: made, Top: top, Why: why})
	}
	return rated, unrated
}
