package setpoint

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
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
