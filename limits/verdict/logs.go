package verdict

import (
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/vent"
)

// emptyingRead and leakRead tell whether a log was read.
func emptyingRead(a *assessment.Assessment) bool { return a.Logs.Vent != nil }

func leakRead(a *assessment.Assessment) bool { return a.Logs.Leak != nil }

// measuredEmptying is a log of an emptying as a verdict. A log that shows too little is
// unknown; one that shows what must not be fails.
func measuredEmptying(a *assessment.Assessment, v *finding.Verdict) {
	log := a.Logs.Vent
	read(v, log.Name, string(log.Status), log.Says)
	switch log.Status {
	case vent.LogAgrees:
		v.Status = finding.Pass
	case vent.LogTooFew, vent.LogStopsEarly, vent.LogStartsLate, vent.LogInconsistent:
		v.Status, v.Advice = finding.Unknown, finding.Words("Read a new log, from the cut-out to the end.")
	default:
		v.Status, v.Advice = finding.Fail, finding.Words("Find out why before anybody fills it again; then read a new log.")
	}
}

// measuredLeak is a leak-down as a verdict, as measuredEmptying.
func measuredLeak(a *assessment.Assessment, v *finding.Verdict) {
	log := a.Logs.Leak
	read(v, log.Name, string(log.Status), log.Says)
	switch log.Status {
	case vent.LeakTight:
		v.Status = finding.Pass
	case vent.LeakCannotTell, vent.LeakInconsistent:
		v.Status, v.Advice = finding.Unknown, finding.Words("Read a new log, as long as the leak-down sheet asks for.")
	default:
		v.Status, v.Advice = finding.Fail, finding.Words("Find the leak with soapy water, mend it, read a new log.")
	}
}

// read starts a verdict on a log: it has no figure, it says what was seen, beginning
// with the status and a colon.
func read(v *finding.Verdict, file, status string, says finding.Text) {
	v.Basis, v.Why = finding.OnData, says.TrimEnd(". ")
	if !says.HasPrefix(status + ":") {
		v.Why = finding.Say("%s: %s", status, v.Why)
	}
	v.Source = "the readings of " + file + ", judged by a rule of this project"
}
