package limits

import (
	"fmt"
)

// barrelStalled judges what a projectile that came to rest for good could gain when
// a hand frees it.
func barrelStalled(a *Assessment) Verdict {
	v := newVerdict(BarrelStalled, "Stuck projectile, freed by hand", InJoule)
	v.Source, v.Caveat = a.Limits.Total.Source, a.Limits.Total.Caveat
	v.Basis = OnCeiling
	if why := a.energyUnknown(); why != "" {
		v.unknown(why)
		return v
	}
	v.judge(a.Stuck.Freed, a.Limits.Total.Value)
	if a.Stuck.Freed <= 0 {
		v.Why = "no combination of tolerances tried leaves it stuck with air behind it"
	} else {
		v.Why = fmt.Sprintf("stuck after a shot from %s: the most that the air behind it could still give", bar(a.Stuck.Start))
	}
	if v.Status == Fail {
		v.Advice = "Less friction or a looser fit so that it never sticks, a bleed that empties the barrel, or a smaller dose."
	}
	return v
}
