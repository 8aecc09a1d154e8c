package checklist

import (
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// Unneeded says which answers of the design close nothing, because it has no such item
// (any more); nil: all have theirs.
func Unneeded(l *launcher.Launcher, items []finding.Item) finding.Text {
	var idle []string
	for _, c := range l.Checklist {
		if finding.IndexOfItem(items, c.Item) < 0 {
			idle = append(idle, c.Item)
		}
	}
	if idle == nil {
		return nil
	}
	return finding.Words("The checklist of the design answers what this design does not ask: " + strings.Join(idle, ", ") +
		". It closes nothing; take it out, or look what became of what it was about.")
}
