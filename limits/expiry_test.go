package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Dates by the calendar: twelve months after 29 February is 1 March (as package
// time counts, which is the later day; ISO 8601 leaves it open).
func TestDueDatesEarliestFirst(t *testing.T) {
	l := &Launcher{
		Volumes:    []VolumeSpec{{Name: "tank", RetireBy: "2030-01-01"}},
		Barrel:     BarrelSpec{RetireBy: "2026-06-01"},
		Projectile: ProjectileSpec{RetireBy: "2026-12-31"},
		Checklist: []Confirmation{{Item: "seal-guard", Date: "2024-02-29"},
			{Item: "label.ratings", Date: "2026-01-01", ValidUntil: "2026-03-01"}},
	}
	var got []string
	for _, d := range l.DueDates("2026-05-31") {
		got = append(got, d.Date+" "+d.What)
	}
	assert.Equal(t, []string{
		"2025-03-01 checklist.seal-guard: confirm again",
		"2026-03-01 checklist.label.ratings: confirm again",
		"2026-06-01 barrel: retire by",
		"2026-12-31 projectile: retire by",
		"2027-05-31 yearly inspection of the whole launcher",
		"2030-01-01 volumes.tank: retire by",
	}, got)
	assert.Empty(t, (&Launcher{}).DueDates("no day"))
}

// A part past its date fails whatever else holds; the day itself still counts. A
// design without dates and a question without a day get no verdict.
func TestDatesAreJudged(t *testing.T) {
	dated := &Launcher{Projectile: ProjectileSpec{RetireBy: "2026-05-31"}, Barrel: BarrelSpec{RetireBy: "2030-01-01"}}
	for name, c := range map[string]struct {
		l    *Launcher
		day  string
		want Status
	}{
		"before":   {dated, "2026-05-30", Pass},
		"the day":  {dated, "2026-05-31", Pass},
		"after":    {dated, "2026-06-01", Fail},
		"no day":   {dated, "", ""},
		"no dates": {&Launcher{}, "2026-06-01", ""},
		"old test": {&Launcher{Checklist: []Confirmation{{Item: "seal-guard", Date: "2025-05-31"}}}, "2026-06-01", Fail},
	} {
		j := &judge{Assessment: &Assessment{Stated: c.l}}
		j.dates(c.day)
		j.report.close(false)
		if c.want == "" {
			assert.Empty(t, j.report.Verdicts, name)
			continue
		}
		assert.Len(t, j.report.Verdicts, 1, name)
		v := j.report.Verdicts[0]
		assert.Equal(t, c.want, v.Status, name)
		assert.Equal(t, c.want == Pass, j.report.Holds, name)
		if c.want == Fail {
			assert.Contains(t, v.Why, "past on 2026-06-01", name)
			assert.Equal(t, 1.0, *v.Value, name)
		}
	}
}
