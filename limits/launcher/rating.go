package launcher

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
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
// gauge]: its stated rating, for PVC times the water derating factor. The other plastics that
// soften early have no table here and take that one, the steepest of the usual pipe plastics'
// (common practice, no source).
func (l *Launcher) Rating(p Part) (pressure float64, note string) {
	pressure = p.Rated.Low
	what := "PVC"
	switch {
	case hasWord(p.Material, pipePlastics[:4]):
	case hasWord(p.Material, softPlastics[:]):
		what = "a plastic without a table of its own, as PVC,"
	default:
		return pressure, ""
	}
	f := benchmark.PVCFactor(l.Hottest())
	return pressure * f, fmt.Sprintf("derated to %.0f %% for %s at the hottest temperature", 100*f, what)
}

// softPlastics are words for plastics, PVC apart, that lose much of their strength below
// 70 degC.
var softPlastics = [...]string{"abs", "acrylic", "pmma", "polyethylene", "polyethene", "pe", "hdpe", "ldpe", "pex", "polypropylene",
	"pp", "polystyrene", "pla", "petg", "pet", "printed", "plastic", "polyurethane", "pu", "nylon", "polyamide",
	"plexiglass", "plexiglas", "perspex", "vinyl", "rubber", "silicone", "latex"}

// pipePlastics are words for pipe (KG and HT are the drain pipe of German shops, Rohr its word for pipe), and for other things from
// kitchen and workshop, that never hold compressed gas here, whatever is printed on them.
var pipePlastics = [...]string{"pvc", "cpvc", "upvc", "polyvinyl", "drain", "drainpipe", "waste", "soil", "sewer", "gutter", "downpipe",
	"glass", "bottle", "bottles", "flasche", "wasserflasche", "soda", "lemonade", "cardboard", "tin", "jar", "balloon",
	"kg", "ht", "rohr", "wood", "wooden", "plywood", "bamboo", "ceramic", "paper", "glue"}

// IsPipePlastic tells whether a material is one that never holds compressed gas here.
func IsPipePlastic(material string) bool {
	return hasWord(material, pipePlastics[:]) || hasWord(material, []string{"abs"}) && hasWord(material, []string{"pipe", "tube"})
}

func hasWord(text string, words []string) bool {
	fields := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
	for _, f := range fields {
		for _, w := range words {
			if f == w {
				return true
			}
		}
	}
	return false
}
