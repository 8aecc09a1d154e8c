package verdict

import (
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/vent"
	"slices"
	"strings"
)

// VentMeasured is a log of an emptying as a verdict; there is none where none was
// read. A log that shows too little is unknown; one that shows what must not be fails.
func VentMeasured(a *assessment.Assessment) (v finding.Verdict, there bool) {
	log := a.Logs.Vent
	if log == nil {
		return v, false
	}
	v = measuredBy(finding.MeasuredEmptying, "The measured emptying agrees", log.Name, string(log.Status), log.Says.String())
	switch log.Status {
	case vent.LogAgrees:
		v.Status = finding.Pass
	case vent.LogTooFew, vent.LogStopsEarly, vent.LogStartsLate, vent.LogInconsistent:
		v.Status, v.Advice = finding.Unknown, finding.Words("Read a new log, from the cut-out to the end.")
	default:
		v.Status, v.Advice = finding.Fail, finding.Words("Find out why before anybody fills it again; then read a new log.")
	}
	return v, true
}

// LeakMeasured is a leak-down as a verdict, as ventMeasured.
func LeakMeasured(a *assessment.Assessment) (v finding.Verdict, there bool) {
	log := a.Logs.Leak
	if log == nil {
		return v, false
	}
	v = measuredBy(finding.MeasuredLeak, "The measured leak-down is tight", log.Name, string(log.Status), log.Says.String())
	switch log.Status {
	case vent.LeakTight:
		v.Status = finding.Pass
	case vent.LeakCannotTell, vent.LeakInconsistent:
		v.Status, v.Advice = finding.Unknown, finding.Words("Read a new log, as long as the leak-down sheet asks for.")
	default:
		v.Status, v.Advice = finding.Fail, finding.Words("Find the leak with soapy water, mend it, read a new log.")
	}
	return v, true
}

// measuredBy starts a verdict on a log: it has no figure, it says what was seen.
func measuredBy(id, title, file, status, says string) finding.Verdict {
	v := finding.NewVerdict(id, title, finding.NoQuantity)
	v.Basis, v.Why = finding.OnData, finding.Words(saysFirst(status, says))
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

// WithLogs puts the verdicts on logs among the others, which are in their order. A
// log that is not good stands before everything else, a failure first: what was seen
// on the gauge counts more than what was computed. A good one goes to the end.
func WithLogs(verdicts []finding.Verdict, a *assessment.Assessment) []finding.Verdict {
	var failed, unknown, good []finding.Verdict
	for _, measured := range []func(*assessment.Assessment) (finding.Verdict, bool){VentMeasured, LeakMeasured} {
		switch v, there := measured(a); {
		case !there:
		case v.Status == finding.Pass:
			good = append(good, v)
		case v.Status == finding.Fail:
			failed = append(failed, v)
		default:
			unknown = append(unknown, v)
		}
	}
	return slices.Concat(failed, unknown, verdicts, good)
}
