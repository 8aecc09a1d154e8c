package limits

import (
	"slices"
	"strings"
)

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
