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
	unlessOutlived(a, v)
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

// unlessOutlived lets the verdict hold only while somebody has read why a part may be used longer than such parts are: a date that its
// builder chose is no milder than none at all.
func unlessOutlived(a *assessment.Assessment, v *finding.Verdict) {
	old := OutlivedParts(a.Stated, a.Day)
	if !v.Holds() || len(old) == 0 {
		return
	}
	each := strings.Join(old, ", ")
	v.Why = v.Why.Say("; a retire_by lies beyond the %d years that such parts are used as a rule, foam %d: %s", oldPart, oldFoam, each)
	alsoWhile(v, finding.Say("a paper of its maker, or of whoever inspects such parts, shows that each may be used until its retire_by: %s",
		each), []string{finding.ItemAgeRetire})
	if len(v.Advice) > 0 {
		v.Advice = v.Advice.Say(" ")
	}
	v.Advice = v.Advice.Say("Replace what is older than such parts are used, or keep that paper with the safety file.")
}

// UsedFor is how many years such a part is used as a rule.
func UsedFor(p launcher.DatedPart) int {
	if p.Table == "projectile" {
		return oldFoam
	}
	return oldPart
}

// UndatedParts are the tables of those parts of which neither made_on nor retire_by is stated.
func UndatedParts(l *launcher.Launcher) (out []string) {
	for _, p := range l.DatedParts() {
		if p.Made == "" && p.Retire == "" {
			out = append(out, p.Table)
		}
	}
	return out
}

// OutlivedParts are the tables of those parts whose retire_by allows more years than such parts are used as a rule: they were made that
// long ago, or no part of which nothing says when it was made can be used that long from the day on. None without a day, an ISO date.
func OutlivedParts(l *launcher.Launcher, day string) (out []string) {
	if finding.MonthsAfter(day, 0) == "" {
		return nil
	}
	for _, p := range l.DatedParts() {
		if p.Retire < day { // none, or past: that fails
			continue
		}
		if end := finding.MonthsAfter(p.Made, 12*UsedFor(p)); end != "" && end < day ||
			p.Made == "" && p.Retire > finding.MonthsAfter(day, 12*UsedFor(p)) {
			out = append(out, p.Table)
		}
	}
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
	for _, p := range a.Stated.DatedParts() {
		if end := finding.MonthsAfter(p.Made, 12*UsedFor(p)); p.Retire == "" && end != "" && end < a.Day {
			out = append(out, p.Table+".made_on, "+p.Made)
		}
	}
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
