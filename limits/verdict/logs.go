package verdict

import (
	"slices"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
)

// emptyingRead and leakRead tell whether a log was read.
func emptyingRead(a *assessment.Assessment) bool { return a.Logs.Vent != nil }

func leakRead(a *assessment.Assessment) bool { return a.Logs.Leak != nil }

// measuredEmptying is a log of an emptying as a verdict.
func measuredEmptying(a *assessment.Assessment, v *finding.Verdict) {
	log := a.Logs.Vent
	read(v, log.Name, string(log.Status), log.Says)
	judgeLog(v, log.Status, stopwatch.Agrees,
		[]stopwatch.Status{stopwatch.TooFew, stopwatch.StopsEarly, stopwatch.StartsLate, stopwatch.Inconsistent},
		"Read a new log, from the cut-out to the end.", "Find out why before anybody fills it again; then read a new log.")
}

// measuredLeak is a leak-down as a verdict.
func measuredLeak(a *assessment.Assessment, v *finding.Verdict) {
	log := a.Logs.Leak
	read(v, log.Name, string(log.Status), log.Says)
	judgeLog(v, log.Status, vent.LeakTight, []vent.LeakStatus{vent.LeakCannotTell, vent.LeakInconsistent},
		"Read a new log, as long as the leak-down sheet asks for.", "Find the leak with soapy water, mend it, read a new log.")
}

// judgeLog ends a verdict on a log: one that shows too little is unknown, one that shows
// what must not be fails.
func judgeLog[S comparable](v *finding.Verdict, status, good S, tooLittle []S, again, mend string) {
	switch {
	case status == good:
		v.Status = finding.Pass
	case slices.Contains(tooLittle, status):
		v.Status, v.Advice = finding.Unknown, finding.Words(again)
	default:
		v.Status, v.Advice = finding.Fail, finding.Words(mend)
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
