package limits

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
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

// indexOfItem is where an item is in a list; -1: nowhere.
func indexOfItem(items []Item, id string) int {
	return slices.IndexFunc(items, func(it Item) bool { return it.ID == id })
}

// reopen takes the answer off an item that something newer speaks against.
func (it *Item) reopen(why string) {
	it.Done = nil
	it.Why += " Not done: " + strings.TrimRight(why, ". ") + "."
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
