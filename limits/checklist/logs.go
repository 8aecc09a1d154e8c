package checklist

import (
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
)

// answeredByLogs enters what logs show into the items that ask for them, as measured
// shots answer theirs. A bad log takes the answer off its item, whoever gave it. A good
// one closes it, a log of an emptying only where it has the two runs that the item asks
// for and is of the only vessel, since the item asks for every gauge.
func answeredByLogs(items []finding.Item, a *assessment.Assessment) {
	leak, empty := a.Logs.Leak, a.Logs.Vent
	if i := finding.IndexOfItem(items, finding.ItemLeakDown); i >= 0 && leak != nil {
		if leak.Status == vent.LeakTight {
			items[i].AnswerBy(leak.Name, leak.Says)
		} else {
			items[i].Reopen(finding.Say("the leak-down that was read: %s", leak.Says))
		}
	}
	if i := finding.IndexOfItem(items, finding.ItemVentTest); i >= 0 && empty != nil {
		switch {
		case empty.Status != stopwatch.Agrees:
			items[i].Reopen(finding.Say("the emptying that was read: %s", empty.Says))
		case LogCloses(empty, a.Launcher):
			items[i].AnswerBy(empty.Name, empty.Says)
		}
	}
}

// LogCloses tells whether a log of an emptying that agrees closes the item that asks for one: it has two runs, and is of the
// only vessel.
func LogCloses(log *stopwatch.Answer, l *launcher.Launcher) bool {
	return log.Runs >= 2 && len(l.Volumes) == 1
}
