package assessment_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// A hose longer than the two models were compared on leaves the energy unknown,
// unless the ceiling decides.
func TestAHoseBeyondTheStudyIsUnknown(t *testing.T) {
	l := sample.Plain()
	l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("bore", 4e-3), Length: launcher.Exact("length", 4)}
	j := assessed.Energies(t, l, assessment.Options{Depth: worst.Quick, Strength: 0.02})
	require.Equal(t, finding.OnModel, j.Energy.Basis)
	assert.Contains(t, j.EnergyUnknown().String(), "longer than the 3 m")
	j.Energy.Basis = finding.OnCeiling
	assert.Empty(t, j.EnergyUnknown())
}
