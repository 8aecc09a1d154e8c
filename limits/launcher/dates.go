package launcher

import (
	"cmp"
	"regexp"
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

// isoDate finds dates in a text that also says what was done, aYear the year of a date
// that is written in any other way.
var (
	isoDate = regexp.MustCompile(`\b\d{4}-\d{2}-\d{2}\b`)
	aYear   = regexp.MustCompile(`\b(20\d\d)(?:\d{4})?\b`)
	inUnits = regexp.MustCompile(`\b\d+\s*(?:[hk]?Pa|m?bara?|psi|mL|mm|N)\b`)
)

// DoneBefore is the newest date in a text that says what was done, or the newest year where it has no date, that lies before a day;
// "" it is no earlier, or tells neither. What was done before a part was made was done to another one.
func DoneBefore(text, day string) string {
	newest := slices.Max(append(isoDate.FindAllString(text, -1), ""))
	if newest == "" {
		for _, m := range aYear.FindAllStringSubmatch(inUnits.ReplaceAllString(text, ""), -1) { // 2000 kPa is no year
			newest = max(newest, m[1])
		}
	}
	if newest >= day[:min(len(newest), len(day))] {
		return ""
	}
	return newest
}

// ahead gives the first date in a text that lies behind a day, or the first year; "" none.
// Without a day every date lies behind it.
func ahead(text, day string) string {
	for _, date := range isoDate.FindAllString(text, -1) {
		if date > day {
			return date
		}
	}
	for _, m := range aYear.FindAllStringSubmatch(text, -1) {
		if m[1] > day[:min(4, len(day))] {
			return m[1]
		}
	}
	return ""
}

// DatesAfter lists the dates of what should have happened by a day and has not.
func (l *Launcher) DatesAfter(day string) (out []Dated) {
	add := func(key, text, verdict string) {
		if date := ahead(text, day); date != "" {
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
