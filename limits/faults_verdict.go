package limits

import (
	"fmt"
)

// energyFault judges the largest energy over all single faults.
func energyFault(a *Assessment) Verdict {
	v := newVerdict(EnergyFault, "Energy at any single fault", InJoule)
	v.Source, v.Caveat, v.Basis = a.Limits.Total.Source, a.Limits.Total.Caveat, OnModel
	if why := a.energyUnknown(); why != "" {
		v.unknown(why)
		return v
	}
	worst, changing, open := hardestFault(a.Faults)
	limit := a.Limits.Total.Value
	if open != "" && (worst == nil || worst.Judged <= limit) { // what is certain goes first
		v.unknown(open)
		return v
	}
	if worst == nil {
		v.notApplicable(fmt.Sprintf("none of %d single faults can change the shot", len(a.Faults.Faults)))
		return v
	}
	v.judge(worst.Judged, limit)
	v.Why = fmt.Sprintf("worst of %d single faults, %d of which can change the shot: %s", len(a.Faults.Faults), changing, worst.Name())
	if worst.State != "any" {
		v.Why += " while " + worst.State
	}
	if open != "" {
		v.Why += "; others are unknown"
	}
	if v.Status == Fail {
		v.Advice = "Make this fault impossible or weaker: puffproof faults lists every one with what prevents it."
	}
	return v
}

// hardestFault finds the single fault of the largest known energy, counts those that
// can change the shot, and says what is open of the first that is unknown; "" none.
func hardestFault(r *FaultReport) (worst *FaultResult, changing int, open string) {
	for _, f := range r.byPart() {
		switch {
		case f.Effect == NoEffect:
			continue
		case f.Status == Unknown && open == "":
			open = fmt.Sprintf("%s, %s: %s", f.Part, f.Mode, f.Reason)
		case f.Status != Unknown && (worst == nil || f.Judged > worst.Judged):
			worst = f
		}
		changing++
	}
	return worst, changing, open
}

// jamNotes say what only the jam drill holds back.
func jamNotes(a *Assessment) []string {
	var out []string
	for _, f := range a.Faults.Faults {
		if f.Status == OpenItem {
			out = append(out, fmt.Sprintf("A projectile that jams before the whole charge could get up to %s when a hand frees it: "+
				"open until item %s is confirmed. barrel.stalled is about one that stops by itself after a shot.", worstJoule(f.Freed), ItemJamDrill))
		}
	}
	return out
}
