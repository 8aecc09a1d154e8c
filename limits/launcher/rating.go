package launcher

import (
	"fmt"
	"math"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/material"
	"puffproof/pneumatics"
)

// Part is a vessel or the barrel, as the rating verdicts see it.
type Part struct {
	Name     string
	Rated    Band
	ForGas   Answer
	Material string
	Top      float64 // highest pressure, at a single fault, or a bound of it [Pa gauge]; NaN: not known
	Why      finding.Text
}

// Parts lists the vessels and the barrel, with the highest pressures in them.
func (l *Launcher) Parts() []Part {
	var out []Part
	for i, p := range l.VesselPressures() {
		v := &l.Volumes[i]
		if p.Normal <= 0 && ReachOf(l).Volumes[i] && l.Rushes() { // filled by a shot only
			p.Fault *= Rush
			p.Why = p.Why.Say(", twice: the air of a hose rushes into it, and its wave is thrown back")
		}
		out = append(out, Part{"volumes." + v.Name, v.RatedPressure, v.RatedForGas, v.Material, p.Fault, p.Why})
	}
	b := &l.Barrel
	top, why := l.BarrelFault().Fault, finding.Words("the highest pressure of what feeds it")
	if l.Rushes() {
		top *= Rush
		why = why.Say(", twice: the air of a hose rushes into it, and its wave is thrown back")
	} else if wave := l.BaseWave(top); wave > top {
		top, why = wave, why.Say(", with the wave of a valve that opens at once")
	}
	return append(out, Part{"barrel", b.RatedPressure, b.RatedForGas, b.Material, top, why})
}

// BarrelFault is the highest pressure, at a single fault, of the volumes whose air flows
// straight into the barrel in a shot; what stands behind a volume has been counted there.
func (l *Launcher) BarrelFault() VesselPressure {
	reach, pressures := ReachOf(l), l.VesselPressures()
	worst := VesselPressure{}
	for k, link := range l.Links() {
		i := max(link.From, link.To)
		if !reach.Paths[k] || i < 0 || min(link.From, link.To) != pneumatics.BarrelNode {
			continue
		}
		if p := pressures[i]; p.Fault > worst.Fault || math.IsNaN(p.Fault) {
			worst = p
		}
	}
	return worst
}

// Rating is the pressure a part is good for at the hottest temperature [Pa
// gauge]: its stated rating, for PVC times the water derating factor. Another plastic that softens early, and what is not known to stay
// strong, has no table here and takes that one, the steepest of the usual pipe plastics' (common practice, no source); polycarbonate has
// its own. A vessel that names no material is not judged by this: its material is then unknown.
func (l *Launcher) Rating(p Part) (pressure float64, note string) {
	pressure = p.Rated.Low
	what := "PVC"
	switch material.Of(p.Material) {
	case material.Strong, material.Unnamed:
		return pressure, ""
	case material.Tough:
		f := benchmark.PolycarbonateFactor(l.Hottest())
		if f == 1 {
			return pressure, ""
		}
		return pressure * f, fmt.Sprintf("derated to %.0f %% for polycarbonate at the hottest temperature", 100*f)
	case material.Soft, material.Rubber, material.Never:
		what = "a plastic without a table of its own, as PVC,"
	case material.Unknown:
		what = fmt.Sprintf("a material that is not known here (%s), as PVC,", p.Material)
	}
	f := benchmark.PVCFactor(l.Hottest())
	return pressure * f, fmt.Sprintf("derated to %.0f %% for %s at the hottest temperature", 100*f, what)
}
