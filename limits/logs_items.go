package limits

import (
	"slices"
)

// answeredByLogs enters what logs show into the items that ask for them, as measured
// shots answer theirs. A bad log takes the answer off its item, whoever gave it. A good
// one closes it, a log of an emptying only where it has the two runs that the item asks
// for and is of the only vessel, since the item asks for every gauge.
func answeredByLogs(items []Item, a *Assessment) []Item {
	items = slices.Clone(items)
	leak, empty := a.Logs.Leak, a.Logs.Vent
	if i := indexOfItem(items, ItemLeakDown); i >= 0 && leak != nil {
		if leak.Status == LeakTight {
			items[i].answerBy(leak.Name, leak.Says)
		} else {
			items[i].reopen("the leak-down that was read: " + leak.Says)
		}
	}
	if i := indexOfItem(items, ItemVentTest); i >= 0 && empty != nil {
		switch {
		case empty.Status != LogAgrees:
			items[i].reopen("the emptying that was read: " + empty.Says)
		case empty.Runs >= 2 && len(a.Launcher.Volumes) == 1:
			items[i].answerBy(empty.Name, empty.Says)
		}
	}
	return items
}
