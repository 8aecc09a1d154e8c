package argument

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/verdict"
)

// every verdict of the table in one state, every item answered or not.
func allSay(status finding.Status, done bool) (verdicts []finding.Verdict, items []finding.Item) {
	for _, q := range verdict.Table() {
		verdicts = append(verdicts, finding.Verdict{ID: q.ID, Title: q.Title, Status: status, Basis: finding.OnModel})
	}
	for _, id := range finding.ItemIDs() {
		it := finding.Item{ID: id, Title: finding.Words("Do " + id)}
		if done {
			it.Done = &finding.Confirmation{Item: id, Date: "2026-05-01", Recorded: true}
		}
		items = append(items, it)
	}
	return verdicts, items
}

// walk gives every element to look at, with the one above it.
func walk(e *Element, look func(e, above *Element)) {
	for i := range e.Below {
		look(&e.Below[i], e)
		walk(&e.Below[i], look)
	}
}

// GSN Community Standard, version 3, part 1 (2021; from memory): a goal is supported by goals, strategies or solutions, a
// strategy by goals (and here by the leaves themselves), a solution by nothing; identifiers are unique; every goal without support is
// undeveloped.
func TestTheTreeIsOne(t *testing.T) {
	for name, c := range map[string]struct {
		status finding.Status
		done   bool
		want   State
	}{
		"all shown": {finding.Pass, true, Shown}, "on conditions": {finding.Conditional, true, Kept},
		"nothing tested": {finding.Pass, false, Undeveloped}, "unknown": {finding.Unknown, true, Undeveloped},
		"failing": {finding.Fail, false, Refuted},
	} {
		t.Run(name, func(t *testing.T) {
			verdicts, items := allSay(c.status, c.done)
			top := Of(sample.Whale(), verdicts, items)
			assert.Equal(t, c.want, top.State)
			seen := map[string]bool{top.ID: true}
			walk(&top, func(e, above *Element) {
				assert.False(t, seen[e.ID], "%s twice", e.ID)
				seen[e.ID] = true
				assert.NotEqual(t, Solution, above.Kind, "nothing stands below %s", above.ID)
				assert.LessOrEqual(t, e.State, above.State, "%s is worse than what it supports", e.ID)
				assert.NotEmpty(t, e.Says, e.ID)
				if e.Kind == Goal && len(e.Below) == 0 {
					assert.Equal(t, Undeveloped, e.State, e.ID)
				}
				if e.Kind == Solution {
					assert.NotEqual(t, NoEvidence, e.Evidence, e.ID)
					assert.NotEqual(t, Undeveloped, e.State, e.ID)
				}
			})
		})
	}
}

// Every question that applies and every item is a leaf: none can be left out of the argument by an oversight in the hazard list.
func TestNothingIsLeftOut(t *testing.T) {
	verdicts, items := allSay(finding.Pass, true)
	verdicts[0].Status = finding.NotApplicable
	found := map[string]Evidence{}
	top := Of(sample.Whale(), verdicts, items)
	walk(&top, func(e, _ *Element) {
		if e.Of != "" {
			found[e.Of] = e.Evidence
		}
	})
	for _, v := range verdicts[1:] {
		assert.Equal(t, Verdict, found[v.ID], v.ID)
	}
	assert.NotContains(t, found, verdicts[0].ID, "what does not apply says nothing")
	for _, it := range items {
		assert.Contains(t, []Evidence{Test, Procedure}, found[it.ID], it.ID)
	}
}

// One missing answer keeps its goal, and all that rest on it, from being shown; the others stay as they are. A test has its date.
func TestOneMissingAnswer(t *testing.T) {
	verdicts, items := allSay(finding.Pass, true)
	i := finding.IndexOfItem(items, finding.ItemReliefTest)
	items[i].Done, items[i].Figure = nil, &finding.Expected{}
	top := Of(sample.Whale(), verdicts, items)
	assert.Equal(t, Undeveloped, top.State)
	shown := 0
	walk(&top, func(e, _ *Element) {
		switch {
		case e.Of == finding.ItemReliefTest:
			assert.Equal(t, Undeveloped, e.State)
			assert.Equal(t, Test, e.Evidence)
			assert.Equal(t, Goal, e.Kind, "what is missing is a claim, no solution")
		case e.Of == finding.ItemSwitchTest:
			assert.Contains(t, e.Says.String(), "(2026-05-01)")
		case e.Kind == Goal && e.State == Shown:
			shown++
		}
	})
	assert.Greater(t, shown, 20)
	assert.Contains(t, top.Says.String(), "No more than that was shown")
}

// The top claim says what was shown, never more.
func TestTheTopClaimSaysWhatWasShown(t *testing.T) {
	for _, status := range []finding.Status{finding.Pass, finding.Conditional, finding.Fail, finding.Unknown} {
		for _, done := range []bool{true, false} {
			verdicts, items := allSay(status, done)
			says := Of(sample.Whale(), verdicts, items).Says.String()
			for _, word := range []string{"safe", "complies", "certified", "harmless"} {
				assert.NotContains(t, strings.ToLower(says), word)
			}
			assert.Contains(t, says, "shown")
		}
	}
	verdicts, items := allSay(finding.Pass, true)
	require.Equal(t, finding.EnergyTotal, verdicts[0].ID)
	assert.Contains(t, Of(sample.Whale(), verdicts, items).Says.String(), "by calculation")
	verdicts[0].Basis = finding.OnMeasured
	assert.Contains(t, Of(sample.Whale(), verdicts, items).Says.String(), "on measured shots")
	verdicts[0].Status = finding.Fail
	assert.Contains(t, Of(sample.Whale(), verdicts, items).Says.String(), "NOT")
}
