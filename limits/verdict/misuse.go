package verdict

import (
	"math"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// misuseObjects judges what a child may put into the barrel, all as rigid.
func misuseObjects(a *assessment.Assessment, v *finding.Verdict) {
	limit := benchmark.BenchmarkOf(benchmark.TotalRigid)
	v.Source, v.Caveat, v.Basis = limit.Source(), finding.Words(limit.Caveat), finding.OnModel
	if v.UnknownFor(a.EnergyUnknown()) {
		return
	}
	if len(a.Misuse) == 0 {
		v.NotApplicable(finding.Say("nothing listed enters: %s; a second projectile is an item of the checklist",
			a.Launcher.Opening()))
		return
	}
	var hardest, second, open finding.Text
	most, next := math.Inf(-1), math.Inf(-1)
	for _, c := range a.Misuse {
		if c.Undetermined {
			open = c.Name
		}
		switch e := c.Energy * worst.ModelFactor; {
		case e > most:
			next, second = most, hardest
			most, hardest = e, c.Name
		case e > next:
			next, second = e, c.Name
		}
	}
	if len(open) != 0 && !(most > limit.Value) {
		v.Unknown(finding.Say("the shot of %s could not be computed over the whole tolerance box", open))
		return
	}
	v.Judge(most, limit.Value)
	v.Why = finding.Say("worst of %d that were computed: %s", len(a.Misuse), hardest)
	if len(second) != 0 {
		v.Why = v.Why.Say(" (then %s, %s)", second, finding.WorstJoule(next))
	}
	holdByControl(v, &a.Launcher.Barrel)
}

// holdByControl makes a failure conditional where the design declares how other objects
// are kept out.
func holdByControl(v *finding.Verdict, b *launcher.BarrelSpec) {
	controls, advice := b.ObjectControl, "Declare and keep object_control (supervised loading by the adult in charge; loading from "+
		"the breech with the muzzle covered; a grid), or a muzzle that takes nothing else, or less pressure."
	if b.Fit == pneumatics.OverTube { // no grid keeps anything from being put over it
		advice = "Declare and keep object_control (supervised loading by the adult in charge, who covers the tube where no rocket is on it), " +
			"or less pressure."
	}
	v.Mend(advice)
	if v.Status != finding.Fail || len(controls) == 0 {
		return
	}
	var items []string
	for i := range controls {
		items = append(items, finding.ObjectControlItem(i))
	}
	v.HoldsWhile(finding.Words(strings.Join(controls, "; ")), items...)
	v.Advice = nil // the condition says it
}
