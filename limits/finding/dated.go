package finding

import (
	"regexp"
	"slices"
)

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

// Ahead is the first date in a text that lies behind a day, or the first year; "" none.
// Without a day every date lies behind it.
func Ahead(text, day string) string {
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
