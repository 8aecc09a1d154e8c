package assessment

import (
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A hose longer than the two models were compared on leaves the energy unknown,
// unless the ceiling decides.
func TestAHoseBeyondTheStudyIsUnknown(t *testing.T) {
	l := sample.Plain()
	l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("bore", 4e-3), Length: launcher.Exact("length", 4)}
	j := energiesOf(t, l, worst.Quick)
	require.Equal(t, finding.OnModel, j.Energy.Basis)
	assert.Contains(t, j.EnergyUnknown(), "longer than")
	j.Energy.Basis = finding.OnCeiling
	assert.Empty(t, j.EnergyUnknown())
}

// energiesOf computes the energies of a check alone.
func energiesOf(t *testing.T, l *launcher.Launcher, d worst.Depth) *Assessment {
	t.Helper()
	return withEnergies(t, l, Options{Depth: d})
}
