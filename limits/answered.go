package limits

// answered enters the answers of a launcher's checklist into items, or why one does
// not close its item. day is that of the question, as in Assessment.
func answered(items []Item, l *Launcher, day string) []Item {
	for i := range items {
		it := &items[i]
		for k := range l.Checklist {
			c := &l.Checklist[k]
			if c.Item != it.ID || !c.signed() {
				continue
			}
			if it.OpenWhy = refuses(it, c, day); it.OpenWhy == "" {
				it.Done = c
				break
			}
		}
	}
	return items
}

// confirmed tells whether the launcher's checklist answers an item that needs no
// figure.
func (l *Launcher) confirmed(id, day string) bool {
	return answered([]Item{{ID: id}}, l, day)[0].Done != nil
}
