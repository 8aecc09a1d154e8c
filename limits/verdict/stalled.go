package verdict

import (
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
)

// barrelStalled judges what a projectile that came to rest for good could gain when
// a hand frees it.
func barrelStalled(a *assessment.Assessment, v *finding.Verdict) {
	v.Source, v.Caveat = a.Limits.Total.Source, a.Limits.Total.Caveat
	v.Basis = finding.OnCeiling
	if v.UnknownFor(a.EnergyUnknown()) {
		return
	}
	if !a.Launcher.Projectile.Breakaway.Set { // none is counted, so that nothing would ever be stuck
		v.Unknown(finding.Say("missing: %s: what holds it fast", finding.Key("projectile.breakaway_force")))
		return
	}
	v.Judge(a.Stuck.Freed, a.Limits.Total.Value)
	if a.Stuck.Freed <= 0 {
		v.Why = finding.Words("no combination of tolerances tried leaves it stuck with air behind it")
	} else {
		v.Why = finding.Say("stuck after a shot from %s: the most that the air behind it could still give", finding.Bar(a.Stuck.Start))
		if a.Stuck.Unended {
			v.Why = v.Why.Say(", with the valve open: its pulse does not end, or is given again and again")
		}
	}
	v.Mend("Less travel, less friction or a looser fit, so that it leaves from lower pressures too.")
}
