package verdict

import (
	"math"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
)

// barrelJammed judges what a hand frees from a projectile that never moved: at once within the limit it passes; within it
// only after the time to empty, it holds while nobody comes near before; above it even then it fails, whatever drill there
// is: what keeps the air in is mended in the design.
func barrelJammed(a *assessment.Assessment, v *finding.Verdict) {
	v.Source, v.Caveat, v.Basis = a.Limits.Total.Source, a.Limits.Total.Caveat, finding.OnModel
	j := a.Faults.Jam
	if j == nil {
		v.Unknown(finding.Words("not computed: what a jam leaves"))
		return
	}
	if v.UnknownFor(j.Unknown) {
		return
	}
	limit := a.Limits.Total.Value
	switch {
	case j.AtOnce <= limit:
		v.Judge(j.AtOnce, limit)
		v.Why = finding.Say("the whole charge behind it, up to %s, and all that is joined to it", finding.WorstBar(j.Top))
	case math.IsNaN(j.After.Energy):
		v.Unknown(finding.Say("missing: %s, after which it is to be empty; freed at once it could gain %s",
			finding.Key("venting.within"), finding.WorstJoule(j.AtOnce)))
	case j.After.Energy <= limit:
		v.Judge(j.AtOnce, limit)
		v.HoldsWhile(finding.Say("nobody comes near a stuck projectile before it has been off, or without power, for %s",
			finding.Second(j.After.Wait)), finding.ItemJamDrill)
		v.Why = finding.Say("freed at once, with up to %s behind it, it could gain that; after %s what is left gives %s at most",
			finding.WorstBar(j.Top), finding.Second(j.After.Wait), finding.WorstJoule(j.After.Energy))
	default:
		v.Judge(j.After.Energy, limit)
		v.Why = j.Left()
		v.Advice = bleedAdvice(j.Drill)
	}
}

// bleedAdvice is how to let the air out from behind a projectile, by a hole of a drill [m]; NaN: none is known to do.
func bleedAdvice(drill float64) finding.Text {
	hole := finding.Words("a hole, wider than 5 mm or in a longer time,")
	if !math.IsNaN(drill) {
		hole = finding.Say("a hole of %s or more", finding.Millimetre(drill))
	}
	return finding.Say("Drill %s into the barrel, near its rear end, that nothing shuts: [paths.NAME], from = \"barrel\", to = "+
		"\"atmosphere\", "+
		"kind = \"orifice\". The shot counts it. A drill that people keep is no substitute.", hole)
}
