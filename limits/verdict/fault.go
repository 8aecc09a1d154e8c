package verdict

import (
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
)

// energyFault judges the largest energy over all single faults, and never less than that
// of normal operation.
func energyFault(a *assessment.Assessment, v *finding.Verdict) {
	judgeFaults(a, v)
	faultMeasured(a, v)
	atLeastNormal(a, v)
	unlessKept(a, v)
	neverBySlowness(a, v)
}

// atLeastNormal keeps energy.fault from showing less than energy.total: what normal operation, or the air itself, can do happens at a
// fault as well.
func atLeastNormal(a *assessment.Assessment, v *finding.Verdict) {
	if v.Value == nil || v.Status == finding.Unknown {
		return
	}
	const alike = 1.01 // the same shot, found by another search
	e, hardest := a.Energy, *v.Value
	if e.Judged <= hardest {
		return
	}
	if v.Judge(e.Judged, e.Limit); e.Judged <= alike*hardest {
		return
	}
	v.Basis, v.Why = e.Basis, finding.Words("no fault does more than what is judged of normal operation")
	if one := e.DecidingEntered(); one != nil {
		v.Why = finding.Say("no fault does more than %s, an ordinary change of state (shot.unasked)", one.Does())
	}
}

// judgeFaults judges the hardest fault.
func judgeFaults(a *assessment.Assessment, v *finding.Verdict) {
	v.Source, v.Caveat, v.Basis = a.Limits.Total.Source, a.Limits.Total.Caveat, finding.OnModel
	if v.UnknownFor(a.EnergyUnknown()) {
		return
	}
	worst := a.Faults.Hardest()
	n, open := changing(a.Faults)
	limit := a.Limits.Total.Value
	if len(open) != 0 && (worst == nil || worst.Judged <= limit) { // what is certain goes first
		v.Unknown(open)
		return
	}
	if worst == nil {
		v.NotApplicable(finding.Say("none of %d single faults can change the shot", len(a.Faults.Faults)))
		return
	}
	v.Judge(worst.Judged, limit)
	v.Why = finding.Say("worst of %d single faults, %d of which can change the shot: %s", len(a.Faults.Faults), n, worst.Name())
	if worst.State != "any" {
		v.Why = v.Why.Say(" while %s", worst.State)
	}
	if len(open) != 0 {
		v.Why = v.Why.And(finding.Words("; others are unknown"))
	}
	v.Mend("Make this fault impossible or weaker: puffproof faults lists every one with what prevents it.")
}

// unlessKept lets the verdict hold only while people keep up the items that alone keep harder shots from being made: of foam which water
// has made heavy, and of a projectile that ice holds. No part has failed, and nobody sees it.
func unlessKept(a *assessment.Assessment, v *finding.Verdict) {
	if v.Status == finding.Fail || v.Status == finding.Unknown || a.Faults == nil {
		return
	}
	wet, frozen := a.Faults.KeptBy(finding.ItemWeighed), a.Faults.KeptBy(finding.ItemNotFrozen)
	others, why := v.Why, finding.Text(nil)
	for _, f := range []*fault.Result{wet, frozen} {
		if f == nil {
			continue
		}
		if v.Basis = finding.OnModel; v.Value == nil || f.Judged > *v.Value {
			v.Judge(f.Judged, a.Limits.Total.Value)
		}
		one := finding.Say("%s has up to %s", f.Name(), finding.WorstJoule(f.Judged))
		if f.Judged <= a.Limits.Total.Value {
			one = one.Say(", too much for its contact print")
		}
		why = finding.Notes(why, one)
	}
	if len(why) == 0 {
		return
	}
	v.Why = why.Say("; without it: %s", others)
	if v.Advice = nil; v.Status == finding.Fail { // what is kept from being shot fails nothing
		v.Status = finding.Pass
	}
	for _, f := range []*fault.Result{wet, frozen} {
		if f != nil {
			keepUp(a, v, f.HeldBy)
		}
	}
}

// keepUp makes a verdict hold only while people keep up the item that keeps a shot from being made.
func keepUp(a *assessment.Assessment, v *finding.Verdict, item string) {
	var mend finding.Text
	switch item {
	case finding.ItemWeighed:
		heaviest := finding.Grams.Of(a.Launcher.Projectile.Mass.High, 3)
		heaviest.Side = finding.NotAbove
		alsoWhile(v, finding.Say("each projectile is weighed before each use, and none that is heavier than %s is fired, none in rain or out of "+
			"wet grass", heaviest), []string{item})
		mend = finding.Words("Closed-cell foam takes up no water: projectile.open_cell = false, once one was weighed, pressed under water " +
			"and weighed again. Or keep a scale in the kit.")
	case finding.ItemNotFrozen:
		alsoWhile(v, finding.Words("in frost each projectile is turned in its seat before it is shot, with the launcher off and empty, and none "+
			"that does not turn is fired"), []string{item})
		mend = finding.Words("Where it is never used in frost, state so: ambient.coldest above freezing.")
	}
	if len(v.Advice) != 0 {
		v.Advice = v.Advice.Say(" ")
	}
	v.Advice = v.Advice.And(mend)
}

// changing counts the single faults that can change the shot, and says what is open of the first that is unknown; nil: none.
func changing(r *fault.Report) (n int, open finding.Text) {
	for _, f := range r.ByPart() {
		if f.Effect == fault.NoEffect {
			continue
		}
		if n++; f.Status == finding.Unknown && len(open) == 0 {
			open = finding.Say("%s, %s: %s", f.Part, f.Mode, f.Reason)
		}
	}
	return n, open
}
