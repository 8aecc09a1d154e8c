package launcher

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
)

// Part is a vessel or the barrel, as the rating verdicts see it.
type Part struct {
	Name     string
	Rated    Band
	ForGas   Answer
	Material string
	Top      float64 // highest pressure, at a single fault [Pa gauge]; NaN: not known
	Why      finding.Text
}

// Parts lists the vessels and the barrel, with the highest pressures in them.
func (l *Launcher) Parts() []Part {
	var out []Part
	worst := VesselPressure{}
	for i, p := range l.VesselPressures() {
		v := &l.Volumes[i]
		out = append(out, Part{"volumes." + v.Name, v.RatedPressure, v.RatedForGas, v.Material, p.Fault, p.Why})
		if ReachOf(l).Volumes[i] && (p.Fault > worst.Fault || math.IsNaN(p.Fault)) {
			worst = p
		}
	}
	b := &l.Barrel
	return append(out, Part{"barrel", b.RatedPressure, b.RatedForGas, b.Material, worst.Fault,
		finding.Words("the highest pressure of what feeds it")})
}

// Rating is the pressure a part is good for at the hottest temperature [Pa
// gauge]: its stated rating, for PVC times the water derating factor.
func (l *Launcher) Rating(p Part) (pressure float64, note string) {
	pressure = p.Rated.Low
	if isPVC(p.Material) {
		f := benchmark.PVCFactor(l.Hottest())
		return pressure * f, fmt.Sprintf("derated to %.0f %% for PVC at the hottest temperature", 100*f)
	}
	return pressure, ""
}

// pipePlastics are words for pipe, and for other things from the kitchen, that
// never hold compressed gas here, whatever is printed on them.
var pipePlastics = [...]string{"pvc", "cpvc", "upvc", "polyvinyl", "drain", "drainpipe", "waste", "soil", "sewer", "gutter", "downpipe",
	"glass", "bottle", "bottles", "soda", "lemonade", "cardboard"}

// IsPipePlastic tells whether a material is one that never holds compressed gas here.
func IsPipePlastic(material string) bool {
	return hasWord(material, pipePlastics[:]) || hasWord(material, []string{"abs"}) && hasWord(material, []string{"pipe", "tube"})
}

func isPVC(material string) bool { return hasWord(material, pipePlastics[:4]) }

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
