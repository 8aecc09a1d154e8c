package limits

import (
	"puffproof/limits/checklist"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What has not happened yet shows nothing.
func TestDatesAhead(t *testing.T) {
	l := &launcher.Launcher{Volumes: []launcher.VolumeSpec{{Name: "tank", MadeOn: "2026-05-31", ProofTest: "15 bar, water, 2032-01-01, two initials"}},
		Barrel: launcher.BarrelSpec{MadeOn: "2025-01-01"}, Checklist: []finding.Confirmation{{Item: finding.ItemVentTest, Who: "two", Date: "2026-05-31"},
			{Item: finding.ItemLeakDown, Who: "two", Date: "2026-05-30"}}}
	fine := fineItems()
	items := checklist.ReopenedByDates(fine, l, "2026-05-30")
	require.Len(t, items, 4)
	assert.Equal(t, "Clear up a date that is still to come: volumes.tank.proof_test, 2032-01-01", items[0].Title)
	assert.Equal(t, finding.AheadItem+"volumes.tank.made_on", items[1].ID)
	assert.Nil(t, items[2].Done)
	assert.Contains(t, items[2].Why.String(), "its date, 2026-05-31, lies after 2026-05-30")
	assert.NotNil(t, items[3].Done, "the day itself counts")
	assert.NotNil(t, fine[0].Done, "the items given stay as they are")
	assert.Equal(t, items, checklist.ReopenedByDates(items, l, "2026-05-30"), "asked twice is no worse")
	assert.Equal(t, fine, checklist.ReopenedByDates(fine, l, "2033-01-01"))
	assert.Equal(t, fine, checklist.ReopenedByDates(fine, l, "some day"))
	r := fineReport()
	r.TakeDates(l, "2026-05-30")
	assert.Equal(t, 3, r.OpenItems)
	assert.False(t, r.Confirmed)
	assert.True(t, r.Holds)
}
