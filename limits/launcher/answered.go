package launcher

import "puffproof/limits/finding"

// Answered enters the answers of a launcher's checklist into items, or why one does
// not close its item. day is that of the question, an ISO date; "" none: no date is
// judged.
func Answered(items []finding.Item, l *Launcher, day string) []finding.Item {
	for i := range items {
		it := &items[i]
		for k := range l.Checklist {
			c := &l.Checklist[k]
			if c.Item != it.ID || !c.Signed() {
				continue
			}
			if it.OpenWhy = finding.Refuses(it, c, day); len(it.OpenWhy) == 0 {
				it.Done = c
				break
			}
		}
	}
	return items
}

// Confirmed tells whether the launcher's checklist answers an item that needs no
// figure, on a day as of Answered.
func (l *Launcher) Confirmed(id, day string) bool {
	return l.ConfirmedAs(finding.Item{ID: id}, day)
}

// ConfirmedAs is Confirmed for an item that may ask for a figure.
func (l *Launcher) ConfirmedAs(it finding.Item, day string) bool {
	return Answered([]finding.Item{it}, l, day)[0].Done != nil
}
