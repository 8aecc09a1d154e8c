package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A hose longer than the two models were compared on leaves the energy unknown,
// unless the ceiling decides.
func TestAHoseBeyondTheStudyIsUnknown(t *testing.T) {
	l := plain()
	l.Paths[0].Hose = &HoseSpec{Bore: Exact("bore", 4e-3), Length: Exact("length", 4)}
	j := energiesOf(t, l, Quick)
	require.Equal(t, OnModel, j.Energy.Basis)
	assert.Contains(t, j.energyUnknown(), "longer than")
	j.Energy.Basis = OnCeiling
	assert.Empty(t, j.energyUnknown())
}

// energiesOf computes the energies of a check alone.
func energiesOf(t *testing.T, l *Launcher, d Depth) *Assessment {
	t.Helper()
	return withEnergies(t, l, Options{Depth: d})
}
