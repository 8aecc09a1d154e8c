package limits

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"
)

// TakeLogs lets tests of the real launcher decide beside the computed verdicts:
// readings of an emptying and of a leak-down; nil where none was read. A log that
// is not good stands before everything else, whatever the model says: what was
// seen on the gauge counts more than what was computed.
//
// A good log answers its item of the checklist as measured shots answer theirs,
// but a log of an emptying only where it has the two runs that the item asks for
// and is of the only vessel, since the item asks for every gauge.
func (r *Report) TakeLogs(l *Launcher, vent *LogAnswer, leak *LeakAnswer) {
	var front []Verdict
	if leak != nil {
		front = append(front, leak.verdict())
		if leak.Status == LeakTight {
			r.answer(itemLeakDown, leak.Name, leak.Says)
		} else {
			r.reopen(itemLeakDown, "the leak-down that was read: "+leak.Says)
		}
	}
	if vent != nil {
		front = append([]Verdict{vent.verdict()}, front...)
		switch {
		case vent.Status != LogAgrees:
			r.reopen(itemVentTest, "the emptying that was read: "+vent.Says)
		case vent.Runs >= 2 && len(l.Volumes) == 1:
			r.answer(itemVentTest, vent.Name, vent.Says)
		}
	}
	for _, v := range front { // what is good takes its place among the good
		if v.Status == Pass {
			r.Verdicts = append(r.Verdicts, v)
		}
	}
	front = slices.DeleteFunc(front, func(v Verdict) bool { return v.Status == Pass })
	slices.SortStableFunc(front, func(a, b Verdict) int {
		switch {
		case a.Status == b.Status:
			return 0
		case a.Status == Fail:
			return -1
		}
		return 1
	})
	if len(front) > 0 {
		r.Verdicts = append(front, r.Verdicts...)
		r.Holds = false
	}
	r.count()
}

// MeasuredEmptying and MeasuredLeak name the verdicts of TakeLogs.
const (
	MeasuredEmptying = "vent.measured"
	MeasuredLeak     = "leak.measured"
)

// verdict is a log of an emptying as a verdict. A log that shows too little is
// unknown; one that shows what must not be fails.
func (a *LogAnswer) verdict() Verdict {
	v := Verdict{ID: MeasuredEmptying, Title: "The measured emptying agrees", Status: Fail, Basis: OnData, Why: saysFirst(string(a.Status), a.Says),
		Source: "the readings of " + a.Name + ", judged by a rule of this project", Advice: "Find out why before anybody fills it again; then read a new log."}
	switch a.Status {
	case LogAgrees:
		v.Status, v.Advice = Pass, ""
	case LogTooFew, LogStopsEarly, LogStartsLate, LogInconsistent:
		v.Status, v.Advice = Unknown, "Read a new log, from the cut-out to the end."
	}
	return v
}

// verdict is a leak-down as a verdict.
func (a *LeakAnswer) verdict() Verdict {
	v := Verdict{ID: MeasuredLeak, Title: "The measured leak-down is tight", Status: Fail, Basis: OnData, Why: saysFirst(string(a.Status), a.Says),
		Source: "the readings of " + a.Name + ", judged by a rule of this project", Advice: "Find the leak with soapy water, mend it, read a new log."}
	switch a.Status {
	case LeakTight:
		v.Status, v.Advice = Pass, ""
	case LeakCannotTell, LeakInconsistent:
		v.Status, v.Advice = Unknown, "Read a new log, as long as the leak-down sheet asks for."
	}
	return v
}

// saysFirst is a sentence that begins with a status and a colon.
func saysFirst(status, says string) string {
	says = strings.TrimRight(says, ". ")
	if strings.HasPrefix(says, status+":") {
		return says
	}
	return status + ": " + says
}

// answer marks an item as done by a file of readings, unless a person did it.
func (r *Report) answer(item, file, says string) {
	for i := range r.Items {
		if it := &r.Items[i]; it.ID == item && it.Done == nil {
			it.Done = &Confirmation{Item: item, Who: file, Value: says}
		}
	}
}

// reopen takes the answer off an item that something newer speaks against.
func (r *Report) reopen(item, why string) {
	for i := range r.Items {
		if it := &r.Items[i]; it.ID == item {
			it.Done = nil
			it.Why += " Not done: " + strings.TrimRight(why, ". ") + "."
		}
	}
}

// AheadItem is where the names of the items of TakeDates begin.
const AheadItem = "date-ahead."

// TakeDates looks for dates in a design that lie after a day, an ISO date: what
// has not happened yet shows nothing. A confirmation with such a date is open
// again, and each other one is an open item of its own, so that nothing is
// confirmed before it is cleared up. A day that is no date changes nothing.
func (r *Report) TakeDates(l *Launcher, day string) {
	if _, err := time.Parse(time.DateOnly, day); err != nil {
		return
	}
	for _, d := range l.datesAfter(day) {
		why := fmt.Sprintf("its date, %s, lies after %s", d.date, day)
		if d.item != "" {
			if slices.ContainsFunc(r.Items, func(it Item) bool { return it.ID == d.item && it.Done != nil }) {
				r.reopen(d.item, why)
			}
			continue
		}
		id := AheadItem + d.key
		if slices.ContainsFunc(r.Items, func(it Item) bool { return it.ID == id }) {
			continue
		}
		r.Items = append([]Item{{ID: id, Title: "Clear up a date that is still to come: " + d.key + ", " + d.date, Verdict: d.verdict,
			Why: fmt.Sprintf("It lies after %s, so it counts as not done.", day), How: "Correct the design, or do it and write down the real date.", Source: ownRule}}, r.Items...)
	}
	r.count()
}

// dated is a date of a design that something rests on.
type dated struct {
	key, date string
	item      string // of the checklist; "" none
	verdict   string
}

// isoDate finds dates in a text that also says what was done.
var isoDate = regexp.MustCompile(`\b\d{4}-\d{2}-\d{2}\b`)

// datesAfter lists the dates of what should have happened by a day and has not.
func (l *Launcher) datesAfter(day string) (out []dated) {
	add := func(key, text, verdict string) {
		for _, date := range isoDate.FindAllString(text, -1) {
			if date > day {
				out = append(out, dated{key: key, date: date, verdict: verdict})
				return
			}
		}
	}
	for i := range l.Volumes {
		v := &l.Volumes[i]
		add("volumes."+v.Name+".made_on", v.MadeOn, "vessel.rating")
		add("volumes."+v.Name+".proof_test", v.ProofTest, "vessel.rating")
	}
	add("barrel.made_on", l.Barrel.MadeOn, "barrel.blocked")
	add("barrel.proof_test", l.Barrel.ProofTest, "barrel.blocked")
	add("projectile.made_on", l.Projectile.MadeOn, "energy.total")
	add("projectile.tip_proof", l.Projectile.TipProof, "energy.area")
	for _, c := range l.Checklist {
		if date := strings.TrimSpace(c.Date); date > day {
			out = append(out, dated{key: "checklist." + c.Item, date: date, item: c.Item})
		}
	}
	return out
}

// count counts the open items again and draws what follows from them.
func (r *Report) count() {
	r.OpenItems = 0
	for _, it := range r.Items {
		if it.Done == nil {
			r.OpenItems++
		}
	}
	if !r.Holds || r.OpenItems > 0 {
		r.Confirmed = false
	}
}
