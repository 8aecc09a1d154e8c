package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/commission"
	"puffproof/limits/doubt"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// There is no step for a launcher of which plan says that it must not be filled, and the reason is the same.
func TestNoStepForWhatMustNotBeFilled(t *testing.T) {
	l := sample.VentedTank()
	l.Volumes[0].Material = "PVC"
	c, err := Commission(assessed.Glance(), l, assessment.Options{Day: "2026-06-01"})
	require.NoError(t, err)
	assert.Contains(t, c.Run.Refused.String(), "must not be filled")
	assert.Contains(t, c.Run.Refused.String(), finding.VesselMaterial)
	assert.False(t, c.Run.Complete)
	for i := range c.Run.Steps {
		assert.Equal(t, commission.Locked, c.Run.Steps[i].Status)
	}
	plan, err := Plan(assessed.Glance(), l, "2026-06-01")
	require.NoError(t, err)
	assert.Equal(t, plan.Refused, c.Run.Refused)
}

// A test that is past its date is what the steps do again: it refuses none of them. A part that is past its date does.
func TestAnExpiredTestIsDoneAgain(t *testing.T) {
	l := sample.VentedTank()
	l.Checklist = []finding.Confirmation{{Item: finding.ItemFuses, Who: "AB", Date: "2025-01-01", Value: "2 A",
		Figures: []finding.Figure{{Value: 2, Unit: finding.InAmpere}}}}
	of := func() commission.Run {
		c, err := Commission(assessed.Glance(), l, assessment.Options{Day: "2026-06-01"})
		require.NoError(t, err)
		return c.Run
	}
	r := of()
	assert.NotContains(t, r.Refused.String(), finding.DatesPast)
	assert.NotEqual(t, commission.Done, r.Step(finding.ItemFuses).Status)
	l.Volumes[0].RetireBy = "2025-01-01"
	assert.Contains(t, of().Refused.String(), finding.DatesPast)
}

// An answer that changes no limit needs no second assessment, and both say the same.
func TestOneMoreAnswer(t *testing.T) {
	l := sample.VentedTank()
	before, err := Commission(assessed.Glance(), l, assessment.Options{Day: "2026-06-01"})
	require.NoError(t, err)
	answers := []finding.Confirmation{{Item: finding.ItemLabels, Who: "AB, CD", Date: "2026-05-31", Value: "10 bar for air",
		Figures: []finding.Figure{{Value: 10e5, Unit: finding.InPascalGauge}}}}
	after, ok := before.Answered(&launcher.Launcher{Checklist: answers})
	require.True(t, ok)
	again := *l
	again.Checklist = answers
	whole, err := Commission(assessed.Glance(), &again, assessment.Options{Day: "2026-06-01"})
	require.NoError(t, err)
	statuses := func(r commission.Run) (out []commission.Status) {
		for i := range r.Steps {
			out = append(out, r.Steps[i].Status)
		}
		return out
	}
	assert.Equal(t, statuses(whole.Run), statuses(after.Run))
	assert.Equal(t, whole.Report.OpenItems, after.Report.OpenItems)
	assert.Equal(t, before.Report.OpenItems-1, after.Report.OpenItems)
	assert.Equal(t, commission.Locked, before.Run.Steps[1].Status, "what was there stays as it is")
	l.Checklist = nil
	none := &launcher.Launcher{}
	back, ok := after.Answered(none)
	require.True(t, ok)
	none.Altered, none.RecordTrouble = []string{"line 2"}, "is a link"
	spoiled, ok := after.Answered(none)
	require.True(t, ok)
	assert.Equal(t, finding.RecordItem, spoiled.Run.Steps[0].ID, "what its record says goes along")
	assert.True(t, spoiled.Report.Altered)
	assert.Equal(t, "is a link", spoiled.Report.NoRecord)
	assert.Equal(t, statuses(before.Run), statuses(back.Run))
}

// An answer that a stage read is no answer alone: one that holds a fault, or settles a doubt, given or taken back, is assessed again.
func TestAnAnswerThatAStageReadIsAssessedAgain(t *testing.T) {
	const day = "2026-06-01"
	l := sample.VentedTank()
	before, err := Commission(assessed.Glance(), l, assessment.Options{Day: day})
	require.NoError(t, err)
	asked := before.Assessment.Faults.Asked
	require.NotEmpty(t, asked, "a fault that an item alone holds")
	given := []finding.Confirmation{{Item: asked[0], Who: "AB, CD", Date: "2026-05-31", Value: "done as it says"}}
	_, same := before.Answered(&launcher.Launcher{Checklist: given})
	assert.False(t, same, asked[0])

	wide := sample.VentedTank()
	wide.Barrel.DeadVolume = launcher.Exact("barrel.dead_volume", 2e-3) // two litres behind a ball: no barrel of this size leaves that
	doubt.DeadVolume(wide)
	items := doubt.Items(wide)
	require.NotEmpty(t, items)
	before, err = Commission(assessed.Glance(), wide, assessment.Options{Day: day})
	require.NoError(t, err)
	_, same = before.Answered(&launcher.Launcher{Checklist: []finding.Confirmation{{Item: items[0].ID, Who: "AB", Date: "2026-05-31"}}})
	assert.False(t, same, items[0].ID)
}
