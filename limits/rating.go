package limits

import (
	"fmt"
	"math"
	"strings"
	"unicode"
)

// part is a vessel or the barrel, as the rating verdicts see it.
type part struct {
	name        string
	rated       Band
	forGas      Answer
	material    string
	normal, top float64 // highest pressure, normal and at a single fault [Pa gauge]
	why         string
}

// parts lists the vessels and the barrel, with the highest pressures in them.
func (l *Launcher) parts() []part {
	var out []part
	worst := vesselPressure{}
	for i, p := range l.vesselPressures() {
		v := &l.Volumes[i]
		out = append(out, part{"volumes." + v.Name, v.RatedPressure, v.RatedForGas, v.Material, p.normal, p.fault, p.why})
		if reachOf(l).volumes[i] && (p.fault > worst.fault || math.IsNaN(p.fault)) {
			worst = p
		}
	}
	b := &l.Barrel
	return append(out, part{"barrel", b.RatedPressure, b.RatedForGas, b.Material, worst.normal, worst.fault,
		"the highest pressure of what feeds it"})
}

// rating is the pressure a part is good for at the hottest temperature [Pa
// gauge]: its stated rating, for PVC times the water derating factor.
func (l *Launcher) rating(p part) (pressure float64, note string) {
	pressure = p.rated.Low
	if isPVC(p.material) {
		f := PVCFactor(l.hottest())
		return pressure * f, fmt.Sprintf("derated to %.0f %% for PVC at the hottest temperature", 100*f)
	}
	return pressure, ""
}

// pipePlastics are words for pipe, and for other things from the kitchen, that
// never hold compressed gas here, whatever is printed on them.
var pipePlastics = [...]string{"pvc", "cpvc", "upvc", "polyvinyl", "drain", "drainpipe", "waste", "soil", "sewer", "gutter", "downpipe",
	"glass", "bottle", "bottles", "soda", "lemonade", "cardboard"}

func isPipePlastic(material string) bool {
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
