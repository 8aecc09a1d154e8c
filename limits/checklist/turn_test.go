package checklist

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
)

// An answer by hand closes its item in the order of doing only: behind one that is open, or on a day before that of one which goes
// before it, it counts as open, as items --done would have refused it. Readings of the record and files of readings stand as they
// are. The order of the list does not matter.
func TestAnswersByHandCountInTheirTurn(t *testing.T) {
	said := func(id, date string) finding.Item {
		return finding.Item{ID: id, Title: finding.Words(id), Done: &finding.Confirmation{Item: id, Who: "AB", Date: date, Value: "seen"}}
	}
	read := func(id, date string) finding.Item {
		it := said(id, date)
		it.Done.Recorded = true
		return it
	}
	file := finding.Item{ID: finding.ItemShots, Done: &finding.Confirmation{Who: "shots.csv", Shows: finding.Words("12 shots")}}
	open := func(id string) finding.Item { return finding.Item{ID: id, Title: finding.Words(id)} }
	const labels, fuses, drill, second = finding.ItemLabels, finding.ItemFuses, finding.ItemJamDrill, finding.ItemSecondLook
	for name, c := range map[string]struct {
		items []finding.Item
		opens map[string]string // and why
	}{
		"in order": {[]finding.Item{said(drill, "2026-05-02"), said(labels, "2026-05-01"), said(fuses, "2026-05-01")}, nil},
		"the first is open": {[]finding.Item{said(drill, "2026-05-02"), open(labels), said(fuses, "2026-05-01")}, map[string]string{
			drill: "said, out of order: label.ratings (label.ratings) goes before it and is open",
			fuses: "said, out of order: label.ratings"}},
		"one between is open": {[]finding.Item{said(labels, "2026-05-01"), open(fuses), said(drill, "2026-05-02")}, map[string]string{
			drill: "electric.fuses (electric.fuses) goes before it and is open"}},
		"an earlier one is done anew": {[]finding.Item{said(labels, "2026-05-09"), said(fuses, "2026-05-01"), said(drill, "2026-05-10")},
			map[string]string{fuses: "its answer of 2026-05-01 is said, out of order: label.ratings (label.ratings) goes before it and was done " +
				"on 2026-05-09", drill: "electric.fuses"}},
		"a file of shots waits": {[]finding.Item{file, open(labels)}, map[string]string{
			finding.ItemShots: "shots.csv does not count yet: label.ratings (label.ratings) goes before it and is open"}},
		"in the record":         {[]finding.Item{open(labels), read(drill, "2026-05-02")}, nil},
		"behind one of a file":  {[]finding.Item{file, said(second, "2026-05-02")}, nil},
		"behind a later record": {[]finding.Item{read(labels, "2026-05-09"), said(drill, "2026-05-02")}, map[string]string{drill: "was done on"}},
	} {
		got := InTurn(c.items)
		for i, it := range got {
			why, opened := c.opens[it.ID]
			assert.Equal(t, c.items[i].ID, it.ID, name)
			assert.Equal(t, c.items[i].Done != nil && !opened, it.Done != nil, "%s: %s", name, it.ID)
			assert.Contains(t, it.OpenWhy.String(), why, name)
			assert.Equal(t, opened, len(it.OpenWhy) != 0, name)
		}
	}
}

// A reading is due again where something that it rests on was done anew after it, for another build or after it had failed; not where
// that was only read again, nor where it does not rest on it. Whoever looked at all of it has seen nothing that was done anew later.
func TestWhatRestsOnAStepIsDueWithIt(t *testing.T) {
	read := func(id string, entry, since int) finding.Item {
		return finding.Item{ID: id, Title: finding.Words(id), Done: &finding.Confirmation{Item: id, Who: "AB", Date: "2026-05-01", Value: "seen",
			Recorded: true, Entry: entry, Since: since}}
	}
	for name, c := range map[string]struct {
		before, after finding.Item
		due           bool
	}{
		"as it was done":                {read(finding.ItemGaugeCompare, 1, 1), read(finding.ItemSwitchTest, 2, 2), false},
		"read again":                    {read(finding.ItemGaugeCompare, 3, 1), read(finding.ItemSwitchTest, 2, 2), false},
		"done anew":                     {read(finding.ItemGaugeCompare, 3, 3), read(finding.ItemSwitchTest, 2, 2), true},
		"done anew, and read after it":  {read(finding.ItemGaugeCompare, 3, 3), read(finding.ItemSwitchTest, 4, 4), false},
		"done anew, read again since":   {read(finding.ItemGaugeCompare, 3, 3), read(finding.ItemSwitchTest, 4, 2), false},
		"nothing of it rests on labels": {read(finding.ItemLabels, 3, 3), read(finding.ItemSwitchTest, 2, 2), false},
		"a second look at all of it":    {read(finding.ItemLabels, 3, 3), read(finding.ItemSecondLook, 2, 2), true},
		"at what was read again":        {read(finding.ItemVentTest, 3, 1), read(finding.ItemSecondLook, 2, 2), false},
		"weak shots after a correction": {read(finding.ItemShotsWeak, 3, 3), read(finding.ItemShots, 2, 2), true},
	} {
		got := InTurn([]finding.Item{c.after, c.before})
		assert.Equal(t, c.due, got[0].Done == nil, name)
		assert.NotNil(t, got[1].Done, name)
		if c.due {
			assert.Contains(t, got[0].OpenWhy.String(), "on which it rests and which was done anew on 2026-05-01", name)
		}
	}
}

// What rests on a step comes after it in the order of doing, and each of the steps is one.
func TestWhatRestsComesLater(t *testing.T) {
	place := func(id string) int { return stepOf(steps(), id) }
	any := false
	for _, id := range finding.ItemIDs() {
		for _, before := range finding.ItemIDs() {
			if rests(id, before) {
				any = true
				assert.Less(t, place(before), place(id), "%s rests on %s", id, before)
			}
		}
	}
	assert.True(t, any)
}
