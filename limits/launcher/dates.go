package launcher

import (
	"cmp"
	"slices"
	"strings"

	"puffproof/limits/finding"
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

// DatedPart is a part, by its table, with the dates that the design has of it, "" none.
type DatedPart struct{ Table, Made, Retire, Tested string }

// DatedParts are the vessels, the barrel and the projectile.
func (l *Launcher) DatedParts() (out []DatedPart) {
	for i := range l.Volumes {
		v := &l.Volumes[i]
		out = append(out, DatedPart{"volumes." + v.Name, v.MadeOn, v.RetireBy, v.ProofTest})
	}
	return append(out, DatedPart{"barrel", l.Barrel.MadeOn, l.Barrel.RetireBy, l.Barrel.ProofTest},
		DatedPart{"projectile", l.Projectile.MadeOn, l.Projectile.RetireBy, ""})
}

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
	for _, p := range l.DatedParts() {
		add(p.Table+": retire by", p.Retire, RetireBy)
	}
	for _, c := range l.Checklist {
		add("checklist."+c.Item+": confirm again", c.HoldsUntil(), Reconfirm)
	}
	add("yearly inspection of the whole launcher", finding.MonthsAfter(day, finding.ItemValidMonths), YearlyFile)
	slices.SortStableFunc(out, func(a, b Due) int { return cmp.Compare(a.Date, b.Date) })
	return out
}

// FirstPast is the first of the DueDates of a file's date that lies before a day; "" none.
func (l *Launcher) FirstPast(date, day string) string {
	if due := l.DueDates(date); len(due) > 0 && due[0].Date < day {
		return due[0].Date
	}
	return ""
}

// Dated is a date of a design that something rests on.
type Dated struct {
	Key, Date string
	Item      string // of the checklist; "" none
	Verdict   string
}

// DatesAfter lists the dates of what should have happened by a day and has not.
func (l *Launcher) DatesAfter(day string) (out []Dated) {
	add := func(key, text, verdict string) {
		if date := finding.Ahead(text, day); date != "" {
			out = append(out, Dated{Key: key, Date: date, Verdict: verdict})
		}
	}
	for i := range l.Volumes {
		v := &l.Volumes[i]
		add("volumes."+v.Name+".made_on", v.MadeOn, finding.VesselRating)
		add("volumes."+v.Name+".proof_test", v.ProofTest, finding.VesselRating)
	}
	add("barrel.made_on", l.Barrel.MadeOn, finding.BarrelBlocked)
	add("barrel.proof_test", l.Barrel.ProofTest, finding.BarrelBlocked)
	add("projectile.made_on", l.Projectile.MadeOn, finding.EnergyTotal)
	add("projectile.tip_proof", l.Projectile.TipProof, finding.EnergyArea)
	for _, c := range l.Checklist {
		if date := strings.TrimSpace(c.Date); date > day {
			out = append(out, Dated{Key: "checklist." + c.Item, Date: date, Item: c.Item})
		}
	}
	return out
}
