package verdict

import (
	"context"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Shots on the slow side leave the item open and the basis the model's; what does
// not agree is said.
func TestSlowShotsConfirmNothing(t *testing.T) {
	l := sample.Gentle()
	v, _ := measure.NewShotModel(l.Clone()).Shot(0.30*sample.Bars, 0)
	r, found := judgedWhole(t, l, shotsAt(0.30*sample.Bars, 2, 0.4*v, 0.41*v, 0.39*v, 0.405*v, 0.395*v))
	require.False(t, found.Fit.Credible)
	assert.Nil(t, found.Wrong)
	require.NotNil(t, r.Measured.Bound)
	assert.Equal(t, finding.OnModel, r.Energy.Basis)
	assert.Contains(t, r.Measured.Contradiction().String(), "slower than the nominal model")
	it := finding.Item{ID: finding.ItemShots}
	AnsweredByShots(&it, r.Measured)
	assert.Nil(t, it.Done)
}

// An emptying test that reads less flow than the design states does not lower the
// worst case, and no energy passes while the two differ.
func TestContradictingBenchTestDoesNotPass(t *testing.T) {
	l := sample.Gentle()
	e := &measure.Findings{Log: "b.csv"}
	e.UseBench(l, &measure.BenchValue{Kind: measure.Emptying, Lines: []int{2}, Band: measure.MeasuredBand("paths.fire.Cv", 0.5, 0.6, 0.7, "emptying")})
	require.Len(t, e.Clashes, 1)
	a, plainly := withEnergies(t, l, assessment.Options{Measured: e}), withEnergies(t, l, assessment.Options{})
	assert.GreaterOrEqual(t, a.Energy.WorstEnergy, plainly.Energy.WorstEnergy*(1-1e-3), "the search finds the same worst corner to 0.1 %")
	total := EnergyTotal(a)
	assert.Equal(t, finding.Unknown, total.Status)
	assert.Contains(t, total.Why.String(), "one of the two is wrong")
}

func judgedWhole(t *testing.T, l *launcher.Launcher, shots []measure.Shot) (*assessment.Assessment, *measure.Findings) {
	t.Helper()
	found, err := measure.Evaluate(context.Background(), l, &measure.ShotLog{Name: "s.csv", Shots: shots})
	require.NoError(t, err)
	return withEnergies(t, l, assessment.Options{Measured: found}), found
}
