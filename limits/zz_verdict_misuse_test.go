package limits

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMisuseUnknownWithoutAStartPressure(t *testing.T) {
	v := misuseObjects(objectsOf(t, plain(func(l *Launcher) { l.Switch, l.Supply = nil, nil })))
	assert.Equal(t, Unknown, v.Status)
	assert.Nil(t, v.Value)
	assert.Contains(t, v.Why, "dead_head")
}

// objectsOf is the assessment with the energies and the misuse alone.
func objectsOf(t *testing.T, l *Launcher) *Assessment {
	t.Helper()
	a := withEnergies(t, l, Options{})
	if a.energyUnknown() == "" && l.anythingEnters() {
		var err error
		a.Misuse, err = l.misuse(context.Background(), a.Normal, a.Energy.StartHigh)
		require.NoError(t, err)
	}
	return a
}
