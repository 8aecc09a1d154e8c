package limits

import (
	"fmt"
	"slices"
	"time"
)

// reopenedByDates looks for dates in a design that lie after a day, an ISO date: what
// has not happened yet shows nothing. An item that is confirmed with such a date is
// open again, and each other one is an open item of its own, so that nothing is
// confirmed before it is cleared up. A day that is no date changes nothing.
func reopenedByDates(items []Item, l *Launcher, day string) []Item {
	items = slices.Clone(items)
	if _, err := time.Parse(time.DateOnly, day); err != nil {
		return items
	}
	for _, d := range l.datesAfter(day) {
		if d.item != "" {
			if i := indexOfItem(items, d.item); i >= 0 && items[i].Done != nil {
				items[i].reopen(fmt.Sprintf("its date, %s, lies after %s", d.date, day))
			}
			continue
		}
		id := AheadItem + d.key
		if indexOfItem(items, id) >= 0 {
			continue
		}
		items = slices.Insert(items, 0, Item{ID: id, Title: "Clear up a date that is still to come: " + d.key + ", " + d.date, Verdict: d.verdict,
			Why: fmt.Sprintf("It lies after %s, so it counts as not done.", day),
			How: "Correct the design, or do it and write down the real date.", Source: ownRule})
	}
	return items
}
