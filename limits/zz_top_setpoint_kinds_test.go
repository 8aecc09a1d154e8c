package limits

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The recommended settings pass energy.fault as check judges it: a valve that sticks
// open while the supply runs on, and the rest.
func TestAnswerHoldsAtSingleFaults(t *testing.T) {
	stated := func(l *Launcher) { l.Switch.Differential = Exact("pressure_switch.differential", 0.02*bars) }
	s := setpoint(t, plain(weak, stated))
	require.NotNil(t, s.CutOut, s.Why)
	require.Empty(t, s.Unknown)
	require.Empty(t, s.Unmet)
	w := plain(weak, stated)
	w.Switch.CutOut, w.Switch.CutIn = movedBand(w.Switch.CutOut, *s.CutOut), movedBand(w.Switch.CutIn, *s.CutIn)
	w.Paths[w.reliefOnSupply()].moveRelief(*s.ReliefSet)
	r, err := Faults(context.Background(), w, FaultOptions{})
	require.NoError(t, err)
	assert.NotEqual(t, Fail, verdictIn(t, r.Verdicts, "energy.fault").Status)
}
