package limits

import (
	"slices"
	"strings"
)

// Logs are the readings of a gauge on the real launcher, judged; nil where none was read.
type Logs struct {
	Vent *LogAnswer  // of an emptying
	Leak *LeakAnswer // of a leak-down
}

// ventMeasured is a log of an emptying as a verdict; there is none where none was
// read. A log that shows too little is unknown; one that shows what must not be fails.
func ventMeasured(a *Assessment) (v Verdict, there bool) {
	log := a.Logs.Vent
	if log == nil {
		return v, false
	}
	v = measuredBy(MeasuredEmptying, "The measured emptying agrees", log.Name, string(log.Status), log.Says)
	switch log.Status {
	case LogAgrees:
		v.Status = Pass
	case LogTooFew, LogStopsEarly, LogStartsLate, LogInconsistent:
		v.Status, v.Advice = Unknown, "Read a new log, from the cut-out to the end."
	default:
		v.Status, v.Advice = Fail, "Find out why before anybody fills it again; then read a new log."
	}
	return v, true
}

// leakMeasured is a leak-down as a verdict, as ventMeasured.
func leakMeasured(a *Assessment) (v Verdict, there bool) {
	log := a.Logs.Leak
	if log == nil {
		return v, false
	}
	v = measuredBy(MeasuredLeak, "The measured leak-down is tight", log.Name, string(log.Status), log.Says)
	switch log.Status {
	case LeakTight:
		v.Status = Pass
	case LeakCannotTell, LeakInconsistent:
		v.Status, v.Advice = Unknown, "Read a new log, as long as the leak-down sheet asks for."
	default:
		v.Status, v.Advice = Fail, "Find the leak with soapy water, mend it, read a new log."
	}
	return v, true
}

// measuredBy starts a verdict on a log: it has no figure, it says what was seen.
func measuredBy(id, title, file, status, says string) Verdict {
	v := newVerdict(id, title, NoQuantity)
	v.Basis, v.Why = OnData, saysFirst(status, says)
	v.Source = "the readings of " + file + ", judged by a rule of this project"
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

// withLogs puts the verdicts on logs among the others, which are in their order. A
// log that is not good stands before everything else, a failure first: what was seen
// on the gauge counts more than what was computed. A good one goes to the end.
func withLogs(verdicts []Verdict, a *Assessment) []Verdict {
	var failed, unknown, good []Verdict
	for _, measured := range []func(*Assessment) (Verdict, bool){ventMeasured, leakMeasured} {
		switch v, there := measured(a); {
		case !there:
		case v.Status == Pass:
			good = append(good, v)
		case v.Status == Fail:
			failed = append(failed, v)
		default:
			unknown = append(unknown, v)
		}
	}
	return slices.Concat(failed, unknown, verdicts, good)
}

// answeredByLogs enters what logs show into the items that ask for them, as measured
// shots answer theirs. A bad log takes the answer off its item, whoever gave it. A good
// one closes it, a log of an emptying only where it has the two runs that the item asks
// for and is of the only vessel, since the item asks for every gauge.
func answeredByLogs(items []Item, a *Assessment) []Item {
	items = slices.Clone(items)
	leak, vent := a.Logs.Leak, a.Logs.Vent
	if i := indexOfItem(items, ItemLeakDown); i >= 0 && leak != nil {
		if leak.Status == LeakTight {
			items[i].answerBy(leak.Name, leak.Says)
		} else {
			items[i].reopen("the leak-down that was read: " + leak.Says)
		}
	}
	if i := indexOfItem(items, ItemVentTest); i >= 0 && vent != nil {
		switch {
		case vent.Status != LogAgrees:
			items[i].reopen("the emptying that was read: " + vent.Says)
		case vent.Runs >= 2 && len(a.Launcher.Volumes) == 1:
			items[i].answerBy(vent.Name, vent.Says)
		}
	}
	return items
}

// answerBy marks an item as done by a file of readings, unless a person did it.
func (it *Item) answerBy(file, says string) {
	if it.Done == nil {
		it.Done = &Confirmation{Item: it.ID, Who: file, Value: says}
	}
}

// TakeLogs lets tests of the real launcher decide beside the computed verdicts; nil
// where none was read.
func (r *Report) TakeLogs(l *Launcher, vent *LogAnswer, leak *LeakAnswer) {
	a := &Assessment{Launcher: l, Logs: Logs{Vent: vent, Leak: leak}}
	r.Verdicts, r.Items = withLogs(r.Verdicts, a), answeredByLogs(r.Items, a)
	r.count()
}

// TakeDates opens what rests on dates in a design that lie after a day, an ISO date.
func (r *Report) TakeDates(l *Launcher, day string) {
	r.Items = reopenedByDates(r.Items, l, day)
	r.count()
}

// count counts what holds and what is open again and draws what follows.
func (r *Report) count() {
	bad := func(v Verdict) bool { return v.Status == Fail || v.Status == Unknown }
	open := func(it Item) bool { return it.Done == nil }
	r.Holds = r.Holds && !slices.ContainsFunc(r.Verdicts, bad)
	r.OpenItems = 0
	for _, it := range r.Items {
		if open(it) {
			r.OpenItems++
		}
	}
	if !r.Holds || r.OpenItems > 0 {
		r.Confirmed = false
	}
}
