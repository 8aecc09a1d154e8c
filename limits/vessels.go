package limits

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"puffproof/limits/search"
	"puffproof/pneumatics"
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

func (j *judge) parts() []part {
	l := j.Launcher
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
func (j *judge) rating(p part) (pressure float64, note string) {
	pressure = p.rated.Low
	if isPVC(p.material) {
		f := PVCFactor(j.Launcher.hottest())
		return pressure * f, fmt.Sprintf("derated to %.0f %% for PVC at the hottest temperature", 100*f)
	}
	return pressure, ""
}

// vessels judges vessel.rating and vessel.material over all parts.
func (j *judge) vessels() error {
	rating := j.newVerdict("vessel.rating", "Highest pressure against the ratings", InPascalGauge)
	rating.Basis = OnData
	rating.Source = "the rating stated in the design; " + BenchmarkOf(PlasticPipeGas).Source()
	material := j.newVerdict("vessel.material", "Vessels and barrel made for gas", InCount)
	material.Basis = OnRule
	material.Source = BenchmarkOf(PlasticPipeGas).Source()
	var missing []string
	worst := math.Inf(-1)
	for _, p := range j.parts() {
		switch {
		case !p.rated.Set:
			missing = append(missing, p.name+".rated_pressure")
			continue
		case math.IsNaN(p.top):
			missing = append(missing, "the highest pressure of "+p.name+" ("+p.why+")")
			continue
		}
		limit, note := j.rating(p)
		if use := p.top / limit; use > worst || math.IsNaN(use) {
			worst = use
			rating.judge(p.top, limit)
			rating.Why = joinNotes(p.name+": "+p.why, note)
		}
	}
	switch {
	case rating.Status == Fail:
		rating.Advice = "A vessel rated for gas above this pressure, a relief valve set lower, or a supply that cannot go so high."
	case len(missing) > 0:
		rating.unknown("missing: " + strings.Join(missing, ", "))
	}
	j.materials(material)
	j.add(rating, material)
	return nil
}

// materials counts the parts that are not made for compressed gas.
func (j *judge) materials(v *Verdict) {
	var bad, missing []string
	for _, p := range j.parts() {
		switch {
		case isPipePlastic(p.material):
			bad = append(bad, p.name+" ("+p.material+")")
		case p.material == "":
			missing = append(missing, p.name+".material")
		case p.forGas == No:
			bad = append(bad, p.name+" (rated_for_gas = false)")
		case p.forGas == Unanswered:
			bad = append(bad, p.name+" (no answer to rated_for_gas counts as no)")
		}
	}
	v.judge(float64(len(bad)), 0)
	switch {
	case len(bad) > 0:
		v.Why = "not for compressed gas: " + strings.Join(bad, ", ")
		v.Advice = "Use vessels and tube whose maker rates them for compressed air, with the document at hand. Water pipe bursts into splinters."
	case len(missing) > 0:
		v.unknown("missing: " + strings.Join(missing, ", "))
	default:
		v.Why = "every part is declared as rated for gas; the labels are items to confirm"
	}
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

func joinNotes(notes ...string) string {
	var out []string
	for _, n := range notes {
		if n != "" {
			out = append(out, n)
		}
	}
	return strings.Join(out, "; ")
}

// blocked judges barrel.blocked: the muzzle closed, the larger of the feeding
// volumes' pressure and of the pressure on either side of a loaded projectile
// driven against it, at the highest pressure of normal operation and of every
// overcharging fault.
func (j *judge) blocked() error {
	v := j.newVerdict("barrel.blocked", "Barrel pressure with muzzle plugged", InPascalGauge)
	v.Source = "the rating stated in the design"
	v.Basis = OnCircuit
	defer func() { j.add(v) }()
	b := part{name: "barrel", rated: j.Launcher.Barrel.RatedPressure, material: j.Launcher.Barrel.Material}
	top, ok := j.Launcher.faultHigh()
	switch {
	case !b.rated.Set:
		v.unknown("missing: barrel.rated_pressure")
		return nil
	case !ok:
		v.unknown("the highest pressure at a fault is not known: " + j.Launcher.Overcharge().Why)
		return nil
	}
	q := j.Launcher.pluggedQuestion(top)
	w, err := j.Launcher.maximise(j.ctx, q, search.Light(j.seeds(q)...))
	if err != nil {
		return err
	}
	if w.undetermined() {
		v.unknown("the plugged shot could not be computed over the whole tolerance box")
		return nil
	}
	limit, note := j.rating(b)
	v.judge(max(w.value, top), limit)
	if w.value > top {
		v.Why = joinNotes("a loaded projectile driven against the plug compresses the air ahead beyond the tank's pressure", note)
	} else {
		v.Why = joinNotes("the barrel fills to the pressure of what feeds it, "+j.Launcher.Overcharge().Why, note)
	}
	if v.Status == Fail {
		v.Advice = "A barrel rated for gas above this pressure, a slower or smaller firing valve, or a lower pressure."
	}
	return nil
}

// pluggedQuestion asks for the highest pressure on either side of a projectile
// driven against a closed muzzle.
func (l *Launcher) pluggedQuestion(startMax float64) question {
	return question{name: "muzzle plugged", startMax: startMax, to: pneumatics.Firing, fromAll: l.statesBefore(),
		adjust: func(_ *pneumatics.Circuit, sc *pneumatics.Scenario, _ []float64) { sc.MuzzleClosed = true },
		measure: func(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
			return max(r.AheadPeak, r.BarrelPeak) - c.Ambient.Pressure
		}}
}

// seeds hands the worst case of normal operation on to a question with the same
// coordinates; a question with others gets none.
func (j *judge) seeds(q question) [][]float64 {
	if j.Normal == nil || !j.Normal.result.Found {
		return nil
	}
	if newBox(j.Launcher, q).dim == j.Normal.box.dim {
		return [][]float64{j.Normal.result.Best.Point}
	}
	var out []float64
	out = append(out, j.Normal.result.Best.Point...)
	for range q.extra {
		out = append(out, 0.5)
	}
	return [][]float64{out}
}
