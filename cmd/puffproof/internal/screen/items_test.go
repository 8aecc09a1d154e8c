package screen

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/export"
	"puffproof/limits"
	"puffproof/limits/checklist"
	"puffproof/limits/finding"
)

// itemsReport has one item of each stage open and one done; what it may burst by is as given.
func itemsReport(rating finding.Status) limits.Report {
	return limits.Report{Holds: rating == finding.Pass, OpenItems: 2,
		Verdicts: []finding.Verdict{{ID: finding.VesselRating, Title: "Every vessel is rated", Status: rating}},
		Items: []finding.Item{
			{ID: finding.ItemShots, Title: finding.Words("Measure shots"), Expect: finding.Words("about 4 m/s"),
				How: finding.Words("Nobody in front."), OpenWhy: finding.Words("its answer has no figure")},
			{ID: finding.ItemLabels, Title: finding.Words("Photograph labels"), Done: &finding.Confirmation{Who: "A. N.", Date: "2026-05-01",
				Value: "two photographs"}},
			{ID: finding.ItemJamDrill, Title: finding.Words("Practise the drill"), How: finding.Words("Everyone once."),
				Expect: finding.Words("no hand at the muzzle")},
		}}
}

func itemsShown(t *testing.T, r limits.Report, change func(*ItemsScreen)) string {
	s := &ItemsScreen{Frame: Frame{Style: Style{Width: 200}, Design: inventedID(), Detail: Everything}, Report: r,
		Steps: checklist.InOrder(r.Items), File: "whale.toml", Done: Counted}
	change(s)
	var b strings.Builder
	require.NoError(t, s.Write(&b))
	return b.String()
}

func TestItemsAreShownInTheOrderOfDoing(t *testing.T) {
	shown := itemsShown(t, itemsReport(finding.Pass), func(*ItemsScreen) {})
	assert.True(t, strings.HasPrefix(shown, "2 of 3 items open.\nHolds on the model. NOT yet confirmed"), shown)
	assert.Regexp(t, `(?s)Practise the drill \(drill\.jam\)\n    expect: no hand at the muzzle\n    write: [^\n]*\n    who: everyone`+
		` who loads.*Measure shots`, shown)
	assert.Contains(t, shown, "    still open: its answer has no figure\n")
	assert.Contains(t, shown, "First: Practise the drill (drill.jam)\n  Everyone once.\nnext: puffproof items whale.toml --done drill.jam ")
	assert.NotContains(t, shown, "Photograph")
	shown = itemsShown(t, itemsReport(finding.Pass), func(s *ItemsScreen) { s.Done = Listed })
	assert.Contains(t, shown, "[x] Photograph labels (label.ratings)\n    done: two photographs (A. N., 2026-05-01; said, not recorded)\n")
	shown = itemsShown(t, itemsReport(finding.Pass), func(s *ItemsScreen) { s.Wrote = finding.ItemLabels })
	assert.True(t, strings.HasPrefix(shown, "Wrote label.ratings into whale.toml. 2 of 3 items open.\n"), shown)
	assert.NotContains(t, shown, "[ ]")
}

// Where every item is done and some are only said those are listed, and what is to be done is one of them.
func TestItemsThatAreOnlySaid(t *testing.T) {
	r := itemsReport(finding.Pass)
	r.OpenItems, r.Said = 0, 1
	for i := range r.Items {
		if r.Items[i].Done == nil {
			r.Items[i].Done = &finding.Confirmation{Who: "A. N.", Date: "2026-05-01", Value: "done so", Recorded: true}
		}
	}
	shown := itemsShown(t, r, func(*ItemsScreen) {})
	assert.True(t, strings.HasPrefix(shown, "No item is open, but 1 of 3 items are said, not recorded.\n"), shown)
	assert.Contains(t, shown, "[x] Photograph labels (label.ratings)\n    done: two photographs (A. N., 2026-05-01; said, not recorded)\n")
	assert.NotContains(t, shown, "done so")
	assert.Contains(t, shown, "Again, so that the record has it: Photograph labels (label.ratings)\n")
	assert.Contains(t, shown, "next: puffproof items whale.toml --done label.ratings ")
	r.Said, r.Items[1].Done.Recorded = 0, true
	shown = itemsShown(t, r, func(*ItemsScreen) {})
	assert.True(t, strings.HasPrefix(shown, "No item is open.\n"), shown)
	assert.NotContains(t, shown, "next: ")
}

// Nobody is told to fill what may burst, or to shoot it.
func TestNoItemFillsWhatMayBurst(t *testing.T) {
	for status, says := range map[finding.Status]string{finding.Fail: "mended", finding.Unknown: "mended and known"} {
		shown := itemsShown(t, itemsReport(status), func(*ItemsScreen) {})
		assert.Contains(t, shown, "DOES NOT HOLD")
		assert.Contains(t, shown, "Measure shots (confirm.shots)\n    Not before this is "+says+": Every vessel is rated.\n", status)
		assert.NotContains(t, shown, "about 4 m/s")
		assert.Contains(t, shown, "no hand at the muzzle", "the drill needs no air")
		r := itemsReport(status)
		r.Items = r.Items[:1]
		assert.NotContains(t, itemsShown(t, r, func(*ItemsScreen) {}), "next: ")
	}
}

// Nobody is led to fill a launcher that shoots too hard, though nothing of it may burst.
func TestNobodyIsLedToChargeWhatFails(t *testing.T) {
	r := itemsReport(finding.Pass)
	r.Holds = false
	r.Verdicts = append(r.Verdicts, finding.Verdict{ID: finding.EnergyTotal, Title: "Energy of the projectile", Status: finding.Fail})
	shown := itemsShown(t, r, func(*ItemsScreen) {})
	assert.Contains(t, shown, "Measure shots (confirm.shots)\n    Not before this is mended: Energy of the projectile.\n")
	assert.Contains(t, shown, "no hand at the muzzle", "the drill needs no air")
	r.Items = r.Items[:1]
	assert.NotContains(t, itemsShown(t, r, func(*ItemsScreen) {}), "next: ")
}

func TestItemsJSON(t *testing.T) {
	r := itemsReport(finding.Pass)
	data, err := export.Items(inventedID(), r, checklist.InOrder(r.Items), "")
	require.NoError(t, err)
	var doc struct {
		Items []struct {
			ID, Title, Expect, Who string
			Done                   bool
		}
	}
	require.NoError(t, json.Unmarshal(data, &doc))
	require.Len(t, doc.Items, 3)
	assert.Equal(t, "A. N.", doc.Items[0].Who)
	assert.True(t, doc.Items[0].Done)
	assert.Equal(t, "confirm.shots Measure shots about 4 m/s", doc.Items[2].ID+" "+doc.Items[2].Title+" "+doc.Items[2].Expect)
	assert.False(t, doc.Items[2].Done)
}
