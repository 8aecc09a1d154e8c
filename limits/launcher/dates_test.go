package launcher_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// Dates by the calendar: twelve months after 29 February is 1 March (as package
// time counts, which is the later day; ISO 8601 leaves it open).
func TestDueDatesEarliestFirst(t *testing.T) {
	l := &launcher.Launcher{
		Volumes:    []launcher.VolumeSpec{{Name: "tank", RetireBy: "2030-01-01"}},
		Barrel:     launcher.BarrelSpec{RetireBy: "2026-06-01"},
		Projectile: launcher.ProjectileSpec{RetireBy: "2026-12-31"},
		Checklist: []finding.Confirmation{{Item: "seal-guard", Date: "2024-02-29"},
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
	assert.Empty(t, (&launcher.Launcher{}).DueDates("no day"))
}
