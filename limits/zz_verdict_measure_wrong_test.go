package limits

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Shots on the slow side leave the item open and the basis the model's; what does
// not agree is said.
func TestSlowShotsConfirmNothing(t *testing.T) {
	l := gentle()
	v, _ := newShotModel(l.Clone()).shot(0.30*bars, 0)
	r, found := judgedWhole(t, l, shotsAt(0.30*bars, 2, 0.4*v, 0.41*v, 0.39*v, 0.405*v, 0.395*v))
	require.False(t, found.Fit.Credible)
	assert.Nil(t, found.Wrong)
	require.NotNil(t, r.Measured.Bound)
	assert.Equal(t, OnModel, r.Energy.Basis)
	assert.Contains(t, r.Measured.Contradiction(), "slower than the nominal model")
	it := Item{ID: ItemShots}
	answeredByShots(&it, r.Measured)
	assert.Nil(t, it.Done)
}

// An emptying test that reads less flow than the design states does not lower the
// worst case, and no energy passes while the two differ.
func TestContradictingBenchTestDoesNotPass(t *testing.T) {
	l := gentle()
	e := &Findings{Log: "b.csv"}
	e.takeBench(l, &BenchValue{Kind: Emptying, Lines: []int{2}, Band: measuredBand("paths.fire.Cv", 0.5, 0.6, 0.7, "emptying")})
	require.Len(t, e.Clashes, 1)
	a, plainly := withEnergies(t, l, Options{Measured: e}), withEnergies(t, l, Options{})
	assert.GreaterOrEqual(t, a.Energy.WorstEnergy, plainly.Energy.WorstEnergy*(1-1e-3), "the search finds the same worst corner to 0.1 %")
	total := energyTotal(a)
	assert.Equal(t, Unknown, total.Status)
	assert.Contains(t, total.Why, "one of the two is wrong")
}

func judgedWhole(t *testing.T, l *Launcher, shots []Shot) (*Assessment, *Findings) {
	t.Helper()
	found, err := Measure(context.Background(), l, &ShotLog{Name: "s.csv", Shots: shots})
	require.NoError(t, err)
	return withEnergies(t, l, Options{Measured: found}), found
}
