package app

import (
	"fmt"
	"puffproof/limits/launcher"
)

// dueNotes says what of a design's own dates is past on a day, and which comes
// next. The yearly inspection counts from the day of a safety file, so it is
// left to that. Days are ISO dates.
func dueNotes(l *launcher.Launcher, day string) []string {
	var out []string
	for _, d := range l.DueDates(day) {
		switch {
		case d.Kind == launcher.YearlyFile:
		case d.Date < day:
			out = append(out, fmt.Sprintf("EXPIRED on %s: %s. Not to be used until that is done.", d.Date, d.What))
		default:
			return append(out, fmt.Sprintf("Next date: %s, %s.", d.Date, d.What))
		}
	}
	return out
}
