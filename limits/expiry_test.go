package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
	dated := &Launcher{Projectile: ProjectileSpec{RetireBy: "2026-05-30"}, Barrel: BarrelSpec{RetireBy: "2030-01-01"}}
	tested := &Launcher{Checklist: []Confirmation{{Item: "seal-guard", Date: "2025-05-30"}}}
	for name, c := range map[string]struct {
		l    *Launcher
		day  string
		want Status
		past float64
	}{
		"before":                      {dated, "2026-05-29", Pass, 0},
		"the day":                     {dated, "2026-05-30", Pass, 0},
		"the day after":               {dated, "2026-05-31", Fail, 1},
		"the month after":             {dated, "2026-06-01", Fail, 1},
		"both":                        {dated, "2030-01-02", Fail, 2},
		"no day":                      {dated, "", "", 0},
		"no dates":                    {&Launcher{}, "2026-06-01", "", 0},
		"a test of twelve months ago": {tested, "2026-05-30", Pass, 0},
		"a test of a day more":        {tested, "2026-05-31", Fail, 1},
		"a test that states till when": {&Launcher{Checklist: []Confirmation{{Item: "seal-guard", Date: "2025-05-30",
			ValidUntil: "2025-06-01"}}}, "2025-06-02", Fail, 1},
	} {
		v, there := datesPast(&Assessment{Stated: c.l, Day: c.day})
		assert.Equal(t, c.want != "", there, name)
		assert.Equal(t, c.want, v.Status, name)
		if c.want == Fail {
			assert.Contains(t, v.Why, "past on "+c.day, name)
			assert.Equal(t, c.past, *v.Value, name)
		}
	}
	v, _ := datesPast(&Assessment{Stated: dated, Day: "2026-05-30"})
	assert.Equal(t, "2 dates are stated, the next is 2026-05-30", v.Why)
}

// What has not happened yet shows nothing.
func TestDatesAhead(t *testing.T) {
	l := &Launcher{Volumes: []VolumeSpec{{Name: "tank", MadeOn: "2026-05-31", ProofTest: "15 bar, water, 2032-01-01, two initials"}},
		Barrel: BarrelSpec{MadeOn: "2025-01-01"}, Checklist: []Confirmation{{Item: ItemVentTest, Who: "two", Date: "2026-05-31"},
			{Item: ItemLeakDown, Who: "two", Date: "2026-05-30"}}}
	fine := fineItems()
	items := reopenedByDates(fine, l, "2026-05-30")
	require.Len(t, items, 4)
	assert.Equal(t, "Clear up a date that is still to come: volumes.tank.proof_test, 2032-01-01", items[0].Title)
	assert.Equal(t, AheadItem+"volumes.tank.made_on", items[1].ID)
	assert.Nil(t, items[2].Done)
	assert.Contains(t, items[2].Why, "its date, 2026-05-31, lies after 2026-05-30")
	assert.NotNil(t, items[3].Done, "the day itself counts")
	assert.NotNil(t, fine[0].Done, "the items given stay as they are")
	assert.Equal(t, items, reopenedByDates(items, l, "2026-05-30"), "asked twice is no worse")
	assert.Equal(t, fine, reopenedByDates(fine, l, "2033-01-01"))
	assert.Equal(t, fine, reopenedByDates(fine, l, "some day"))
	r := fineReport()
	r.TakeDates(l, "2026-05-30")
	assert.Equal(t, 3, r.OpenItems)
	assert.False(t, r.Confirmed)
	assert.True(t, r.Holds)
}
