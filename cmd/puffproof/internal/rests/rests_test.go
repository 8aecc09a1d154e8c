package rests

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
)

// An answer is older than a part that it speaks of where that was made on a later day; on the same day it may have been of it. Any
// part that has a date is one, and an item that is not known to rest on some parts only rests on all.
func TestAnAnswerOlderThanItsPart(t *testing.T) {
	flat, err := Flatten("[volumes.tank]\nmade_on = \"2026-05-10\"\n[projectile]\nmade_on = 2026-05-20\n[barrel]\nmade_on = \"\"\n" +
		"[paths.feed.hose]\nmade_on = \"2026-05-30\"\n")
	require.NoError(t, err)
	for _, c := range []struct{ item, date, key, made string }{
		{finding.ItemLabels, "2026-05-09", "volumes.tank.made_on", "2026-05-10"},
		{finding.ItemLabels, "2026-05-10", "", ""},
		{finding.ItemTip, "2026-05-19", "projectile.made_on", "2026-05-20"},
		{finding.ItemTip, "2026-05-20", "", ""},
		{finding.ItemTip, " 2026-05-19 ", "projectile.made_on", "2026-05-20"},
		{finding.ItemShots, "2026-05-01", "paths.feed.hose.made_on", "2026-05-30"}, // the newest of those it rests on
		{finding.ItemAgeRetire, "2026-05-12", "projectile.made_on", "2026-05-20"},
		{finding.ItemElevation, "2026-05-01", "", ""},
		{"of.no-name", "2026-05-29", "paths.feed.hose.made_on", "2026-05-30"},
		{finding.ItemTip, "last week", "", ""}, // no answer at all: it is refused for that
		{finding.ItemTip, "", "", ""},
	} {
		assert.Equal(t, finding.NewerPart{Key: c.key, Made: c.made}, NewerPart(flat, c.item, c.date), "%s of %s", c.item, c.date)
	}
}
