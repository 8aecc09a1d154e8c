package setpoint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/worst"
)

// An assessment that was given is taken where it is the very same as the one that would be
// made, and nowhere else. That it was taken shows by a figure that no search finds.
func TestAGivenAssessmentIsTakenWhereItIsTheSame(t *testing.T) {
	const day, mark = "2026-06-01", 77.0
	l := sample.Plain()
	given, err := assessment.Make(assessed.Glance(), l, assessment.Options{Day: day, Want: assessment.EnergyStage})
	require.NoError(t, err)
	energy := func(o Options, ask func(s *solver) (judgement, error)) float64 {
		s, err := newSolver(assessed.Glance(), l, o)
		require.NoError(t, err)
		j, err := ask(s)
		require.NoError(t, err)
		return *assessed.Verdict(t, j.verdicts, finding.EnergyTotal).Value
	}
	own := func(s *solver) (judgement, error) { return s.judgeStages(s.l, assessment.EnergyStage, nil) }
	fresh := energy(Options{Day: day}, own)
	assert.Equal(t, fresh, energy(Options{Day: day, Assessed: given}, own), "the same figure, computed once")
	given.Energy.Judged = mark
	assert.Equal(t, mark, energy(Options{Day: day, Assessed: given}, own))
	assert.Equal(t, fresh, energy(Options{Day: "2026-06-02", Assessed: given}, own), "another day")
	assert.NotEqual(t, mark, energy(Options{Day: day, Assessed: given}, func(s *solver) (judgement, error) {
		return s.judgeStages(s.l.Clone(), assessment.EnergyStage, nil)
	}), "another launcher")
	assert.NotEqual(t, mark, energy(Options{Day: day, Assessed: given}, func(s *solver) (judgement, error) {
		return s.judgeStages(s.l, assessment.EnergyStage, []worst.StartSeed{{}})
	}), "seeds")
	assert.NotEqual(t, mark, energy(Options{Day: day, Assessed: given}, func(s *solver) (judgement, error) {
		return s.judgeStages(s.l, assessment.EnergyStage|assessment.StuckStage, nil)
	}), "a stage more")
}

// Settings are closed in on with the faults that can still fail: those near the limit, those that are not known, and where a shot that
// nobody asks for is in question those that fire.
func TestTheFaultsThatCanStillFailArePicked(t *testing.T) {
	fails := judgement{faults: &fault.Report{Limit: 0.5, Faults: []fault.Result{
		{ID: "near", Effect: fault.ChangesShot, Judged: 0.49},
		{ID: "far", Effect: fault.ChangesShot, Judged: 0.2},
		{ID: "unknown", Effect: fault.ChangesShot, Judged: math.NaN(), Status: finding.Unknown},
		{ID: "of no effect", Effect: fault.NoEffect, Judged: 0.6},
		{ID: "fires", Effect: fault.FiresUnasked, Judged: 0.1},
	}}}
	picked := func(p picks) (ids []string) {
		for i := range fails.faults.Faults {
			if id := fails.faults.Faults[i].ID; p(id) {
				ids = append(ids, id)
			}
		}
		return ids
	}
	assert.Equal(t, []string{"near", "unknown"}, picked(fails.beyond(almost, false)))
	assert.Equal(t, []string{"near", "unknown", "fires"}, picked(fails.beyond(almost, true)))
	assert.Equal(t, []string{"near", "unknown"}, picked(fails.hardest()))
	assert.Nil(t, judgement{}.beyond(almost, false), "not computed: all of them count")
	assert.Nil(t, judgement{}.hardest())
}
