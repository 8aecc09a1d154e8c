package launcher

import "puffproof/limits/finding"

// PartNames are the names that a design gives to its volumes, paths and parts of the wiring.
func (l *Launcher) PartNames() (names []string) {
	for _, v := range l.Volumes {
		names = append(names, v.Name)
	}
	for _, p := range l.Paths {
		names = append(names, p.Name)
	}
	if l.Control != nil {
		for _, p := range l.Control.Parts {
			names = append(names, p.Name)
		}
	}
	return names
}

// Answered enters the answers of a launcher's checklist into items, or why one does
// not close its item. day is that of the question, an ISO date; without one no answer
// counts, for each has a date.
func Answered(items []finding.Item, l *Launcher, day string) []finding.Item {
	names := l.PartNames()
	for i := range items {
		it := &items[i]
		it.NamedBy(names)
		it.Expect = it.Inward() // whoever asks for it has printed it
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

// AnswerOf is an item, which may ask for a figure, with the answer that the launcher's
// checklist gives on a day as of Answered, or why it does not count.
func (l *Launcher) AnswerOf(it finding.Item, day string) finding.Item {
	return Answered([]finding.Item{it}, l, day)[0]
}
