package limits

import (
	"fmt"
	"math"
	"strings"
)

// misuseObjects judges what a child may put into the barrel, all as rigid.
func misuseObjects(a *Assessment) Verdict {
	v := newVerdict(MisuseOfObjects, "Other objects in the barrel, as rigid", InJoule)
	limit := BenchmarkOf(TotalRigid)
	v.Source, v.Caveat, v.Basis = limit.Source(), limit.Caveat, OnModel
	if why := a.energyUnknown(); why != "" {
		v.unknown(why)
		return v
	}
	if !a.Launcher.anythingEnters() {
		v.notApplicable("nothing listed enters: " + a.Launcher.opening() + "; a second, wet or frozen projectile is an item of the checklist")
		return v
	}
	var worst, second, open string
	most, next := math.Inf(-1), math.Inf(-1)
	for _, c := range a.Misuse {
		if c.Undetermined {
			open = c.Name
		}
		switch e := c.Energy * ModelFactor; {
		case e > most:
			next, second = most, worst
			most, worst = e, c.Name
		case e > next:
			next, second = e, c.Name
		}
	}
	if open != "" && !(most > limit.Value) {
		v.unknown("the shot of " + open + " could not be computed over the whole tolerance box")
		return v
	}
	v.judge(most, limit.Value)
	v.Why = fmt.Sprintf("worst of %d: %s", len(a.Misuse), worst)
	if second != "" {
		v.Why += fmt.Sprintf(" (then %s, %s)", second, joule(next))
	}
	holdByControl(&v, a.Launcher.Barrel.ObjectControl)
	return v
}

// holdByControl turns a failure into a pass on procedure where the design declares
// how other objects are kept out.
func holdByControl(v *Verdict, controls []string) {
	if v.Status != Fail {
		return
	}
	if len(controls) > 0 {
		v.Status, v.Basis = Pass, OnProcedure
		v.Advice = "Holds only while people do this: " + strings.Join(controls, "; ") + "."
		return
	}
	v.Advice = "Declare and keep object_control (supervised loading by the adult in charge; loading from the breech with the muzzle " +
		"covered; a grid), or a muzzle that takes nothing else, or less pressure."
}
