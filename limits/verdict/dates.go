package verdict

import (
	"fmt"
	"strings"
	"time"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// datesPast judges the dates that the design itself states: of parts to retire and
// of confirmed items. Its value is how many are past on the day of the question; the
// day itself still counts. The yearly inspection of a paper is judged by whoever reads
// the paper.
func datesPast(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = fmt.Sprintf("dates stated in the design; a confirmed item holds %d months: own rule of this project (common practice, no "+
		"source)", finding.ItemValidMonths)
	v.Basis = finding.OnData
	if _, err := time.Parse(time.DateOnly, a.Day); err != nil {
		v.Unknown(finding.Words("missing: the day of the question"))
		return
	}
	var past []string
	next := ""
	dates := a.Stated.DueDates("")
	for _, d := range dates {
		switch {
		case d.Date < a.Day:
			past = append(past, d.What+", "+d.Date)
		case next == "":
			next = d.Date
		}
	}
	ahead, aged := madeAhead(a), madeLongAgo(a)
	v.Judge(float64(len(past)+len(ahead)+len(aged)), 0)
	v.Why = finding.Words("no part has a date")
	if len(dates) > 0 {
		v.Why = finding.Say("%d dates are stated, the next is %s", len(dates), next)
	}
	if len(past) > 0 {
		v.Why = finding.Say("past on %s: %s", a.Day, strings.Join(past, "; "))
		v.Advice = finding.Words("Replace the part, or do the test again and write its new date into the design.")
	}
	if len(ahead) > 0 {
		v.Why = finding.Say("made after %s, as the design has it: %s", a.Day, strings.Join(ahead, "; "))
		if v.Advice = finding.Words("State the date that is printed on the part."); len(past) > 0 {
			v.Why = v.Why.Say("; past: %s", strings.Join(past, "; "))
			v.Advice = v.Advice.Say(" Replace what is past its date, or do the test again and write its new date into the design.")
		}
	}
	if len(aged) > 0 {
		old := finding.Words("made long ago, and no retire_by says how long it lasts: " + strings.Join(aged, "; "))
		if len(past)+len(ahead) == 0 {
			v.Why, v.Advice = old, nil
		} else {
			v.Why, v.Advice = v.Why.Say("; ").And(old), v.Advice.Say(" ")
		}
		v.Advice = v.Advice.Say("State as retire_by how long it may be used, as its maker or whoever inspects such parts says; or replace it.")
	}
	unlessUndated(a, v)
}

// unlessUndated lets the verdict hold only while a look at the parts shows that those without any date are none that would fail: what a
// design leaves out is no better than what it says.
func unlessUndated(a *assessment.Assessment, v *finding.Verdict) {
	undated := UndatedParts(a.Stated)
	if v.Status != finding.Pass || len(undated) == 0 {
		return
	}
	v.Why = v.Why.Say("; nothing says how old these are: %s", strings.Join(undated, ", "))
	v.HoldsWhile(finding.Say("what is printed on it, or its bill, shows each to be younger than %d years, foam than %d: %s", oldPart, oldFoam,
		strings.Join(undated, ", ")), finding.ItemAgeRetire)
	v.Advice = finding.Words("State made_on from the plate or the bill, or retire_by.")
}

// UndatedParts are the tables of those parts of which neither made_on nor retire_by is stated.
func UndatedParts(l *launcher.Launcher) (out []string) {
	add := func(table, made, retire string) {
		if made == "" && retire == "" {
			out = append(out, table)
		}
	}
	for i := range l.Volumes {
		add("volumes."+l.Volumes[i].Name, l.Volumes[i].MadeOn, l.Volumes[i].RetireBy)
	}
	add("barrel", l.Barrel.MadeOn, l.Barrel.RetireBy)
	add("projectile", l.Projectile.MadeOn, l.Projectile.RetireBy)
	return out
}

// How old parts are used as a rule [years]: vessels and barrels, and foam (own rule of this project, no source).
const (
	oldPart = 40
	oldFoam = 10
)

// madeLongAgo are the dates of manufacture of parts that are older than such parts are used as a rule, where nobody states until when
// these may be: forty years of a vessel or a barrel, ten of foam (own rule of this project, no source). Without a day none is.
func madeLongAgo(a *assessment.Assessment) (out []string) {
	if _, err := time.Parse(time.DateOnly, a.Day); err != nil {
		return nil
	}
	add := func(table, made, retire string, years int) {
		if end := finding.MonthsAfter(made, 12*years); retire == "" && end != "" && end < a.Day {
			out = append(out, table+".made_on, "+made)
		}
	}
	l := a.Stated
	for i := range l.Volumes {
		add("volumes."+l.Volumes[i].Name, l.Volumes[i].MadeOn, l.Volumes[i].RetireBy, oldPart)
	}
	add("barrel", l.Barrel.MadeOn, l.Barrel.RetireBy, oldPart)
	add("projectile", l.Projectile.MadeOn, l.Projectile.RetireBy, oldFoam)
	return out
}

// madeAhead are the dates of manufacture that are still to come on the day of the question: whoever wrote them has not read them off.
// Without a day none is.
func madeAhead(a *assessment.Assessment) (out []string) {
	if _, err := time.Parse(time.DateOnly, a.Day); err != nil {
		return nil
	}
	for _, d := range a.Stated.DatesAfter(a.Day) {
		if strings.HasSuffix(d.Key, ".made_on") {
			out = append(out, d.Key+", "+d.Date)
		}
	}
	return out
}

// anyDate tells whether there are dates to judge.
func anyDate(a *assessment.Assessment) bool {
	return len(a.Stated.DueDates("")) > 0 || len(madeAhead(a)) > 0 || len(madeLongAgo(a)) > 0 || len(UndatedParts(a.Stated)) > 0
}
