package checklist

import (
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a hand could free from behind a projectile that jams is no pass: its row is
// open until the drill is confirmed, on a day that has come, and the item names the
// figure.
func TestAJammedProjectileIsOpenUntilTheDrillIsConfirmed(t *testing.T) {
	l := sample.Dumped()
	jammed := func(day string) fault.Result {
		return faultsBy(t, l, day, func(id string) bool { return id == "projectile.jammed" })[0]
	}
	jam := jammed("")
	limits, err := launcher.LimitsOf(l.Limits, l.Projectile)
	require.NoError(t, err)
	assert.Greater(t, jam.Freed, limits.Total.Value)
	assert.Equal(t, finding.OpenItem, jam.Status)
	assert.Contains(t, jam.Reason.String(), "OPEN: jam drill")
	assert.Contains(t, jam.Consequence.String(), "barrel.stalled", "why the two figures differ")
	a := &assessment.Assessment{Launcher: l, Loading: vent.LoadingOf(l, 5000), Faults: &fault.Report{Faults: []fault.Result{jam}}}
	item := itemIn(t, FaultItems(a), finding.ItemJamDrill)
	assert.Contains(t, item.Expect.String(), finding.WorstJoule(jam.Freed))
	assert.Contains(t, item.Why.String(), jam.Consequence.String())
	require.Len(t, verdict.JamNotes(a), 1)
	assert.Contains(t, verdict.JamNotes(a)[0], finding.WorstJoule(jam.Freed))

	l.Checklist = []finding.Confirmation{{Item: finding.ItemJamDrill, Who: "A. N.", Date: "2026-05-01"}}
	for day, want := range map[string]finding.Status{"2026-05-01": finding.Pass, "2026-04-30": finding.OpenItem} {
		jam = jammed(day)
		assert.Equal(t, want, jam.Status, day)
		assert.Equal(t, finding.OnProcedure, jam.Basis)
	}
}
