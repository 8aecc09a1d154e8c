package hazard

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
)

// Each row of the table names hazards and steps that there are: a row that names none would draw an event without barriers.
func TestTopEventsNameHazards(t *testing.T) {
	known := map[string]Hazard{}
	for _, h := range all() {
		known[h.ID] = h
	}
	for _, e := range events() {
		for _, p := range append(append([]part{}, e.before...), e.behind...) {
			h, ok := known[p.hazard]
			require.True(t, ok, "%s: no hazard %s", e.id, p.hazard)
			assert.NotEmpty(t, barriers([]Entry{entryOf(h, nil, nil)}, []part{p}), "%s: %s has no measure at these steps", e.id, p.hazard)
		}
		for _, id := range e.harms {
			assert.Contains(t, known, id, e.id)
		}
	}
}

// A fault stands before the event that it brings about, with the state of its item; an event without a fault has no bow-tie.
func TestTies(t *testing.T) {
	verdicts, items := allSay(finding.Pass, true)
	r := &fault.Report{Faults: []fault.Result{
		{ID: "a", Part: "pressure switch", Mode: fault.SwitchWelded, Effect: fault.ChangesShot},
		{ID: "b", Part: "relief", Mode: fault.ReliefStuckShut, Effect: fault.NoEffect, RevealedBy: finding.ItemReliefTest},
		{ID: "c", Part: "dump", Mode: fault.StuckShut, Effect: fault.NoEffect, RevealedBy: finding.ItemVentTest},
		{ID: "d", Part: "feed", Mode: fault.StuckShut, Effect: fault.NoEffect},
	}}
	found := map[string][]string{}
	for _, tie := range Ties(sample.Whale(), verdicts, items, r) {
		for _, th := range tie.Threats {
			found[tie.ID] = append(found[tie.ID], th.Fault.ID)
			assert.Equal(t, th.Fault.ID == "b" || th.Fault.ID == "c", th.Done, "%s: what its item says", th.Fault.ID)
		}
		assert.NotEmpty(t, tie.Before, tie.ID)
		assert.NotEmpty(t, tie.Behind, tie.ID)
		assert.NotEmpty(t, tie.Harms, tie.ID)
		for _, b := range tie.Behind {
			assert.Equal(t, InForce, b.State, "%s: %s", tie.ID, b.What)
		}
	}
	assert.Equal(t, map[string][]string{"harder": {"a"}, "pressure": {"a", "b"}, "trapped": {"c"}}, found,
		"nothing fires, jams or is loaded wrongly by these faults; a valve that stays shut alone does no harm")
	items[finding.IndexOfItem(items, finding.ItemReliefTest)].Done = nil
	for _, tie := range Ties(sample.Whale(), verdicts, items, r) {
		for _, th := range tie.Threats {
			assert.Equal(t, th.Fault.ID == "c", th.Done)
		}
		if tie.ID == "pressure" {
			assert.True(t, anyState(tie.Behind, Unproved), "the relief valve was not tried")
		}
	}
	assert.Empty(t, Ties(sample.Whale(), verdicts, items, nil))
}

func anyState(all []Barrier, s State) bool {
	for _, b := range all {
		if b.State == s {
			return true
		}
	}
	return false
}
