package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What was done before a part was made was done to another one. The newest date counts, a year where there is none; what is in a unit is
// no year.
func TestDoneBefore(t *testing.T) {
	for text, want := range map[string]string{
		"15 bar, water, 2025-04-08, two initials": "2025-04-08", "15 bar, water, 2025-04-09": "", "15 bar, water, 2026-01-01": "",
		"2019-05-01, repeated 2026-05-01": "", "2019-05-01, repeated 2024-05-01": "2024-05-01", "15 bar, water, spring 2024": "2024",
		"15 bar, water, 2025": "", "15 bar, water, 01.03.2024": "2024", "15 bar, water, 20240301": "2024",
		"2000 kPa, water": "", "2000kPa, water, 2024": "2024", "water, two initials": "", "": "",
	} {
		assert.Equal(t, want, DoneBefore(text, "2025-04-09"), text)
	}
	assert.Empty(t, DoneBefore("2024-05-01", ""), "without a day nothing is earlier")
}

// Of some parts the newest counts that was made after the day, for shots, bench tests and answers alike; on a day that is none nobody can
// tell.
func TestTheNewestPartAfterADay(t *testing.T) {
	parts := []NewerPart{{"barrel.made_on", "2026-05-10"}, {"projectile.made_on", "2026-05-20"}, {"volumes.tank.made_on", ""}}
	for date, want := range map[string]NewerPart{"2026-05-09": parts[1], "2026-05-19": parts[1], " 2026-05-19 ": parts[1], "2026-05-20": {},
		"": {}, "last week": {}} {
		assert.Equal(t, want, NewestAfter(date, parts), date)
	}
}
