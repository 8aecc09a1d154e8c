package verdict

import (
	"context"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMisuseUnknownWithoutAStartPressure(t *testing.T) {
	v := MisuseObjects(objectsOf(t, sample.Plain(func(l *launcher.Launcher) { l.Switch, l.Supply = nil, nil })))
	assert.Equal(t, finding.Unknown, v.Status)
	assert.Nil(t, v.Value)
	assert.Contains(t, v.Why.String(), "dead_head")
}

// objectsOf is the assessment with the energies and the misuse alone.
func objectsOf(t *testing.T, l *launcher.Launcher) *assessment.Assessment {
	t.Helper()
	a := withEnergies(t, l, assessment.Options{})
	if a.EnergyUnknown() == "" && l.AnythingEnters() {
		var err error
		a.Misuse, err = worst.Misuse(l, context.Background(), a.Normal, a.Energy.StartHigh)
		require.NoError(t, err)
	}
	return a
}
