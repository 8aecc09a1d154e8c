package checklist

import (
	"slices"
	"strings"
	"time"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// reopenedByDates looks for dates in a design that lie after a day, an ISO date: what
// has not happened yet shows nothing. An item that is confirmed with such a date is
// open again, and each other one is an open item of its own, so that nothing is
// confirmed before it is cleared up. A day that is no date changes nothing.
func reopenedByDates(items []finding.Item, l *launcher.Launcher, day string) []finding.Item {
	if _, err := time.Parse(time.DateOnly, day); err != nil {
		return items
	}
	for _, d := range l.DatesAfter(day) {
		if d.Item != "" {
			if i := finding.IndexOfItem(items, d.Item); i >= 0 && items[i].Done != nil {
				items[i].Reopen(finding.Say("its date, %s, lies after %s", d.Date, day))
			}
			continue
		}
		id := finding.AheadItem + d.Key
		if finding.IndexOfItem(items, id) >= 0 {
			continue
		}
		items = slices.Insert(items, 0, finding.Item{ID: id,
			Title: finding.Words("Clear up a date that is still to come: " + d.Key + ", " + d.Date), Verdict: d.Verdict,
			Why: finding.Say("It lies after %s, so it counts as not done.", day),
			How: finding.Words("Correct the design, or do it and write down the real date."), Source: ownRule})
	}
	return items
}

// alteredRecord puts a record that was altered before everything else: what was written into one proves nothing, and nothing more
// goes into it. No answer closes that.
func alteredRecord(items []finding.Item, l *launcher.Launcher) []finding.Item {
	if len(l.Altered) == 0 {
		return items
	}
	return slices.Insert(items, 0, finding.Item{ID: finding.RecordItem,
		Title: finding.Words("Clear up the record of the commissioning: it was altered"),
		Why:   finding.Say("It only grows, and each line is chained to the one before: %s.", strings.Join(l.Altered, "; ")),
		How: finding.Words("Put the file back as it was; or move it away and do every step anew: without the record none counts that came " +
			"from it."), Source: ownRule})
}
