package limits

import (
	"fmt"
)

// energyFaultVerdict is the largest energy over all single faults.
func (j *judge) energyFaultVerdict() {
	v := j.newVerdict("energy.fault", "Energy at any single fault", InJoule)
	v.Source, v.Caveat, v.Basis = j.Limits.Total.Source, j.Limits.Total.Caveat, OnModel
	defer func() { j.add(v) }()
	if why := j.energyUnknown(); why != "" {
		v.unknown(why)
		return
	}
	var worst *FaultResult
	n, open := 0, ""
	for i := range j.Faults.Faults {
		f := &j.Faults.Faults[i]
		if f.Effect == NoEffect {
			continue
		}
		n++
		if f.Status == Unknown {
			if open == "" {
				open = fmt.Sprintf("%s, %s: %s", f.Part, f.Mode, f.Reason)
			}
			continue
		}
		if worst == nil || f.Judged > worst.Judged {
			worst = f
		}
	}
	limit := j.Limits.Total.Value
	if open != "" && (worst == nil || worst.Judged <= limit) { // what is certain goes first
		v.unknown(open)
		return
	}
	if worst == nil {
		v.notApplicable(fmt.Sprintf("none of %d single faults can change the shot", len(j.Faults.Faults)))
		return
	}
	v.judge(worst.Judged, limit)
	v.Why = fmt.Sprintf("worst of %d single faults, %d of which can change the shot: %s", len(j.Faults.Faults), n, worst.Name())
	if worst.State != "any" {
		v.Why += " while " + worst.State
	}
	if open != "" {
		v.Why += "; others are unknown"
	}
	if v.Status == Fail {
		v.Advice = "Make this fault impossible or weaker: puffproof faults lists every one with what prevents it."
	}
}
