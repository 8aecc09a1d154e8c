package worst_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/search"
	"puffproof/limits/worst"
)

// Without pressure nothing flies; at the nominal start the curve has the nominal shot's energy; and the curve of the worst
// launcher ends in the worst case where that lies at the highest start.
func TestEnergiesOverTheStartPressureMeetTheShots(t *testing.T) {
	l := sample.Plain()
	start := worst.NominalStart(l)
	curve, err := worst.NominalOverStart(t.Context(), l, start, 9)
	require.NoError(t, err)
	shot, err := worst.NominalShot(t.Context(), l, nil, 2)
	require.NoError(t, err)
	assert.Zero(t, curve[0].Energy)
	assert.InEpsilon(t, shot.Result.FinalEnergy, curve[8].Energy, 1e-3, "the integrator's tolerance: the curve's shots stop at the muzzle")
	high, known := l.SoakedHigh()
	require.True(t, known)
	ctx := search.WithStrength(t.Context(), 0.02)
	w, err := worst.Maximise(ctx, l, worst.EnergyQuestion(l, high), search.Options{})
	require.NoError(t, err)
	hard, err := w.OverStart(t.Context(), 41)
	require.NoError(t, err)
	assert.Equal(t, high, hard[40].Gauge)
	most := 0.0
	for _, s := range hard {
		most = math.Max(most, s.Energy)
	}
	assert.LessOrEqual(t, most, 1.05*w.Value, "the curve is computed at the search's accuracy")
	assert.Greater(t, most, 0.8*w.Value, "one of 41 pressures is near the worst one")
}
