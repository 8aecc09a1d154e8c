package hazard

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
)

// of finds a hazard of a log.
func of(t *testing.T, log []Entry, id string) Entry {
	t.Helper()
	for _, e := range log {
		if e.ID == id {
			return e
		}
	}
	require.Failf(t, "missing", "no hazard %s", id)
	return Entry{}
}

// every verdict and item in one state.
func allSay(status finding.Status, done bool) (verdicts []finding.Verdict, items []finding.Item) {
	for _, q := range verdict.Table() {
		verdicts = append(verdicts, finding.Verdict{ID: q.ID, Status: status})
	}
	for _, id := range finding.ItemIDs() {
		it := finding.Item{ID: id}
		if done {
			it.Done = &finding.Confirmation{}
		}
		items = append(items, it)
	}
	return verdicts, items
}

// ISO 12100:2010, 6.1: risk is only reduced by measures that are there. What is not shown takes nothing off.
func TestOnlyWhatIsShownCounts(t *testing.T) {
	l := sample.Whale()
	for name, c := range map[string]struct {
		status  finding.Status
		done    bool
		reduced bool
		state   State
	}{
		"nothing tested": {finding.Pass, false, false, Unproved},
		"all fail":       {finding.Fail, true, false, Failing},
		"unknown":        {finding.Unknown, true, false, Unproved},
		"all shown":      {finding.Pass, true, true, InForce},
		"on conditions":  {finding.Conditional, true, true, InForce},
	} {
		t.Run(name, func(t *testing.T) {
			verdicts, items := allSay(c.status, c.done)
			e := of(t, Log(l, verdicts, items), "eye")
			assert.Equal(t, c.state, e.Held[0].State)
			if c.reduced {
				assert.Equal(t, Risk{Serious, Remote}, e.After, "three measures, three steps; the design leaves what it leaves")
			} else {
				assert.Equal(t, e.Before.Severity, e.After.Severity)
			}
			if c.status == finding.Fail {
				assert.Contains(t, e.Held[0].Fails, finding.EnergyTotal)
			}
		})
	}
}

// One open item keeps its measure from counting, and no other one.
func TestOneOpenItem(t *testing.T) {
	verdicts, items := allSay(finding.Pass, true)
	for i := range items {
		if items[i].ID == finding.ItemTip {
			items[i].Done = nil
		}
	}
	e := of(t, Log(sample.Whale(), verdicts, items), "eye")
	assert.Equal(t, []string{finding.ItemTip}, e.Held[0].Open)
	assert.Equal(t, Risk{Lasting, Unlikely}, e.After, "guard and information count, the design does not yet")
}

// What holds on a condition counts once the items of the condition are answered.
func TestAConditionIsShownByItsItems(t *testing.T) {
	jammed := []finding.Verdict{{ID: finding.BarrelJammed, Status: finding.Conditional, Items: []string{finding.ItemJamDrill}}}
	drill := finding.Item{ID: finding.ItemJamDrill}
	held := of(t, Log(sample.Whale(), jammed, []finding.Item{drill}), "jam").Held[0]
	assert.Equal(t, Unproved, held.State)
	assert.Equal(t, []string{finding.ItemJamDrill}, held.Open)
	drill.Done = &finding.Confirmation{}
	held = of(t, Log(sample.Whale(), jammed, []finding.Item{drill}), "jam").Held[0]
	assert.Equal(t, InForce, held.State)
	assert.Equal(t, []string{finding.BarrelJammed}, held.Conditions)
}

// A measure of which a launcher has neither verdict nor item is shown by nothing.
func TestNothingShowsAMeasure(t *testing.T) {
	e := of(t, Log(sample.Whale(), nil, nil), "burst")
	assert.Equal(t, e.Before, e.After)
	assert.Equal(t, Unproved, e.Held[0].State)
}

// A figure of the model is a calculation until shots confirm it, and a rating a declaration until its label was seen: a
// measure that names one of them counts only with that item, whichever hazard it is against.
func TestEnergiesAndRatingsCountOnceTheyAreSeen(t *testing.T) {
	seenBy := map[string]string{finding.EnergyTotal: finding.ItemShots, finding.EnergyArea: finding.ItemShots,
		finding.EnergyFault: finding.ItemShots, finding.VesselRating: finding.ItemLabels}
	found := 0
	for _, h := range all() {
		for _, m := range h.Measures {
			for _, v := range m.Verdicts {
				if item, ok := seenBy[v]; ok {
					found++
					assert.Contains(t, m.Items, item, "%s: %s", h.ID, m.What)
				}
			}
		}
	}
	assert.NotZero(t, found)
	verdicts, items := allSay(finding.Pass, false)
	for _, h := range all() {
		if h.ID == "overpressure" || h.ID == "altitude" || h.ID == "bottle" {
			assert.Equal(t, Unproved, holdingOf(h.Measures[0], verdicts, items).State, h.ID)
		}
	}
}

// The list knows real identifiers only, every hazard has a measure, and it asks for the parts that there are.
func TestTheList(t *testing.T) {
	known := map[string]bool{}
	for _, q := range verdict.Table() {
		known[q.ID] = true
	}
	seen := map[string]bool{}
	for _, h := range all() {
		assert.False(t, seen[h.ID], h.ID)
		seen[h.ID] = true
		assert.NotEmpty(t, h.Measures, h.ID)
		assert.LessOrEqual(t, h.Least, h.Before.Severity, h.ID)
		for i, m := range h.Measures {
			assert.NotEmpty(t, append(append([]string{}, m.Verdicts...), m.Items...), h.ID)
			for _, v := range m.Verdicts {
				assert.True(t, known[v], "%s: %s is no verdict", h.ID, v)
			}
			for _, it := range m.Items {
				assert.True(t, finding.IsItem(it), "%s: %s is no item", h.ID, it)
			}
			if i > 0 {
				assert.GreaterOrEqual(t, m.Step, h.Measures[i-1].Step, "%s: the steps in their order", h.ID)
			}
		}
	}
	hand := sample.Rocket()
	hand.Supply.Kind = launcher.HandPump
	for i := range hand.Paths {
		hand.Paths[i].Kind = 0
	}
	for _, e := range Log(hand, nil, nil) {
		assert.NotContains(t, []string{"mains", "fire", "fuel", "link", "bottle"}, e.ID, "a hand pump has no plug")
	}
	log := Log(sample.Whale(), nil, nil)
	for i, e := range log[1:] {
		assert.LessOrEqual(t, rank(e.Before), rank(log[i].Before), "the gravest first")
	}
}
