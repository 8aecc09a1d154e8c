package limits

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
)

// Due is a date after which something no longer holds.
type Due struct {
	What string // in words, such as "volumes.tank: retire by"
	Date string // ISO date
	Kind DueKind
}

// DueKind says where a due date is from.
type DueKind uint8

// The kinds.
const (
	RetireBy   DueKind = iota // a part's own end of life, stated in the design
	Reconfirm                 // an item of the checklist that has to be done again
	YearlyFile                // the yearly inspection of the whole
)

// ItemValidMonths is how long a confirmed item holds where the design states no
// valid_until [months]: own rule of this project (common practice, no source).
const ItemValidMonths = 12

// DueDates lists what expires, the earliest first: parts to retire, confirmed
// items to do again, and the yearly inspection counted from the day of a report.
// day is an ISO date; one that is none leaves the inspection out.
func (l *Launcher) DueDates(day string) []Due {
	var out []Due
	add := func(what, date string, kind DueKind) {
		if date != "" {
			out = append(out, Due{what, date, kind})
		}
	}
	for i := range l.Volumes {
		add("volumes."+l.Volumes[i].Name+": retire by", l.Volumes[i].RetireBy, RetireBy)
	}
	add("barrel: retire by", l.Barrel.RetireBy, RetireBy)
	add("projectile: retire by", l.Projectile.RetireBy, RetireBy)
	for _, c := range l.Checklist {
		until := c.ValidUntil
		if until == "" {
			until = monthsAfter(c.Date, ItemValidMonths)
		}
		add("checklist."+c.Item+": confirm again", until, Reconfirm)
	}
	add("yearly inspection of the whole launcher", monthsAfter(day, ItemValidMonths), YearlyFile)
	slices.SortStableFunc(out, func(a, b Due) int { return cmp.Compare(a.Date, b.Date) })
	return out
}

// monthsAfter is the same day so many months later; "" for a text that is no date.
func monthsAfter(date string, months int) string {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return ""
	}
	return t.AddDate(0, months, 0).Format(time.DateOnly)
}

// datesPast judges the dates that the design itself states: of parts to retire and
// of confirmed items. Its value is how many are past on the day of the question; the
// day itself still counts. A design without dates and a question without a day get no
// verdict; the yearly inspection of a paper is judged by whoever reads the paper.
func datesPast(a *Assessment) (v Verdict, there bool) {
	var past []string
	next := ""
	dates := a.Stated.DueDates("")
	if a.Day == "" || len(dates) == 0 {
		return v, false
	}
	for _, d := range dates {
		switch {
		case d.Date < a.Day:
			past = append(past, d.What+", "+d.Date)
		case next == "":
			next = d.Date
		}
	}
	v = newVerdict(DatesPast, "Parts and tests past their date", InCount)
	v.Source = fmt.Sprintf("dates stated in the design; a confirmed item holds %d months: "+
		"own rule of this project (common practice, no source)",
		ItemValidMonths)
	v.Basis = OnData
	v.judge(float64(len(past)), 0)
	v.Why = fmt.Sprintf("%d dates are stated, the next is %s", len(dates), next)
	if len(past) > 0 {
		v.Why = "past on " + a.Day + ": " + strings.Join(past, "; ")
		v.Advice = "Replace the part, or do the test again and write its new date into the design."
	}
	return v, true
}
