package verdict

import (
	"fmt"
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
)

// EnergyFault judges the largest energy over all single faults, never below what
// measured shots say of normal operation.
func EnergyFault(a *assessment.Assessment) finding.Verdict {
	v := energyOfFaults(a)
	holdMeasured(a, &v)
	return v
}

// energyOfFaults judges the faults on the model alone.
func energyOfFaults(a *assessment.Assessment) finding.Verdict {
	v := finding.NewVerdict(finding.EnergyFault, "Energy at any single fault", finding.InJoule)
	v.Source, v.Caveat, v.Basis = a.Limits.Total.Source, a.Limits.Total.Caveat, finding.OnModel
	if why := a.EnergyUnknown(); why != "" {
		v.Unknown(why)
		return v
	}
	worst, changing, open := hardestFault(a.Faults)
	limit := a.Limits.Total.Value
	if open != "" && (worst == nil || worst.Judged <= limit) { // what is certain goes first
		v.Unknown(open)
		return v
	}
	if worst == nil {
		v.NotApplicable(fmt.Sprintf("none of %d single faults can change the shot", len(a.Faults.Faults)))
		return v
	}
	v.Judge(worst.Judged, limit)
	v.Why = finding.Say("worst of %d single faults, %d of which can change the shot: %s", len(a.Faults.Faults), changing, worst.Name())
	if worst.State != "any" {
		v.Why = v.Why.And(finding.Words(" while " + worst.State))
	}
	if open != "" {
		v.Why = v.Why.And(finding.Words("; others are unknown"))
	}
	if v.Status == finding.Fail {
		v.Advice = finding.Words("Make this fault impossible or weaker: puffproof faults lists every one with what prevents it.")
	}
	return v
}

// hardestFault finds the single fault of the largest known energy, counts those that
// can change the shot, and says what is open of the first that is unknown; "" none.
func hardestFault(r *fault.Report) (worst *fault.Result, changing int, open string) {
	for _, f := range r.ByPart() {
		switch {
		case f.Effect == fault.NoEffect:
			continue
		case f.Status == finding.Unknown && open == "":
			open = fmt.Sprintf("%s, %s: %s", f.Part, f.Mode, f.Reason.String())
		case f.Status != finding.Unknown && (worst == nil || f.Judged > worst.Judged):
			worst = f
		}
		changing++
	}
	return worst, changing, open
}

// JamNotes say what only the jam drill holds back.
func JamNotes(a *assessment.Assessment) []string {
	var out []string
	for _, f := range a.Faults.Faults {
		if f.Status == finding.OpenItem {
			out = append(out, fmt.Sprintf("A projectile that jams before the whole charge could get up to %s when a hand frees it: "+
				"open until item %s is confirmed. barrel.stalled is about one that stops by itself after a shot.", finding.WorstJoule(f.Freed), finding.ItemJamDrill))
		}
	}
	return out
}
