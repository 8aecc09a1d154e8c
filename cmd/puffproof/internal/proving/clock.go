package proving

import (
	"regexp"
	"strconv"
	"time"

	"puffproof/limits/commission"
	"puffproof/limits/finding"
	"puffproof/limits/vent"
)

// span is a time of the day to another one, as people write it: "from 14:05 to 14:20", "14:05-14:20".
var span = regexp.MustCompile(`\b([01]?\d|2[0-3]):([0-5]\d)\s*(?:to|until|till|-|–)\s*([01]?\d|2[0-3]):([0-5]\d)\b`)

// clock is when a reading says that its step began and ended, in minutes of the day; false: it does not.
func clock(reading string) (from, to int, told bool) {
	m := span.FindStringSubmatch(reading)
	if m == nil {
		return 0, 0, false
	}
	minutes := func(hour, minute string) int {
		h, _ := strconv.Atoi(hour)
		m, _ := strconv.Atoi(minute)
		return 60*h + m
	}
	return minutes(m[1], m[2]), minutes(m[3], m[4]), true
}

// within is a step that was read on a date and by its own times ended after others begin; those over midnight are passed over; ""
// there is none.
func (b *Book) within(date string, from, to int) string {
	for _, e := range b.log.Readings() {
		began, ended, told := clock(e.Reading)
		if told && e.Date == date && began < ended && from < to && from < ended {
			return e.Step
		}
	}
	return ""
}

// day is how many minutes one has.
const day = 24 * 60

// hurried weighs the time of a reading. Its own times have to leave room for its step, and must not be still to come: else why says so.
// Where it tells none, and the record had its last reading sooner before than the step takes, note says that; it proves nothing, for
// people write a day's notes down at once.
func (b *Book) hurried(step *commission.Step, r *Reading) (note, why finding.Text) {
	takes := time.Duration(step.Takes * float64(time.Second))
	from, to, told := clock(r.Value)
	now := b.host.Now()
	switch before := b.within(r.Date, from, to); {
	case told && before != "":
		why = finding.Say("its times begin before those of %s ended, and a launcher is in one test at a time", before)
	case takes <= 0 || r.Log != nil:
	case told && time.Duration((to-from+day)%day)*time.Minute <= takes-time.Minute: // told in whole minutes
		why = finding.Say("its times leave %s, less than the %s that it takes", vent.Minutes(float64(60*((to-from+day)%day))),
			vent.Minutes(step.Takes))
	case told && from < to && r.Date == b.host.Today && to > 60*now.Hour()+now.Minute()+1:
		why = finding.Words("its times are still to come")
	case told:
	default:
		readings := b.log.Readings()
		if len(readings) == 0 {
			return nil, nil
		}
		before, err := time.Parse(time.RFC3339, readings[len(readings)-1].At)
		if since := now.Sub(before); err == nil && since < takes {
			note = finding.Say("It was written down %s after the reading before, and takes %s at least: if it was read earlier, its times "+
				"belong to it, as \"from 14:05 to 14:20\"", finding.Second(max(0, since.Seconds())).With(2), vent.Minutes(step.Takes))
		}
	}
	return note, why
}
