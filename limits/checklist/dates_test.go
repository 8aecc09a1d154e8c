package checklist

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// What has not happened yet shows nothing.
func TestDatesAhead(t *testing.T) {
	l := &launcher.Launcher{Volumes: []launcher.VolumeSpec{{Name: "tank", MadeOn: "2026-05-31",
		ProofTest: "15 bar, water, 2032-01-01, two initials"}},
		Barrel: launcher.BarrelSpec{MadeOn: "2025-01-01", ProofTest: "9 bar, water, 2026-06-01"},
		Checklist: []finding.Confirmation{{Item: finding.ItemVentTest, Who: "two", Date: "2026-05-31"},
			{Item: finding.ItemLeakDown, Who: "two", Date: "2026-05-30"}}}
	items := reopenedByDates(fineItems(), l, "2026-05-30")
	require.Len(t, items, 5)
	assert.Equal(t, "Clear up a date that is still to come: barrel.proof_test, 2026-06-01", items[0].Title.String())
	assert.Equal(t, finding.BarrelBlocked, items[0].Verdict)
	items = items[1:]
	assert.Equal(t, "Clear up a date that is still to come: volumes.tank.proof_test, 2032-01-01", items[0].Title.String())
	assert.Equal(t, finding.AheadItem+"volumes.tank.made_on", items[1].ID)
	assert.Nil(t, items[2].Done)
	assert.Contains(t, items[2].Why.String(), "its date, 2026-05-31, lies after 2026-05-30")
	assert.NotNil(t, items[3].Done, "the day itself counts")
	again := reopenedByDates(slices.Clone(items), l, "2026-05-30")
	assert.Len(t, reopenedByDates(slices.Clone(again), l, "2026-05-30"), len(again), "asked twice is no worse")
	assert.Equal(t, fineItems(), reopenedByDates(fineItems(), l, "2033-01-01"))
	assert.Equal(t, fineItems(), reopenedByDates(fineItems(), l, "some day"))
}
