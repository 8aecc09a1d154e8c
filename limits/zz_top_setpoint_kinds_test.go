package limits

import (
	"context"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The recommended settings pass energy.fault as check judges it: a valve that sticks
// open while the supply runs on, and the rest.
func TestAnswerHoldsAtSingleFaults(t *testing.T) {
	stated := func(l *launcher.Launcher) {
		l.Switch.Differential = launcher.Exact("pressure_switch.differential", 0.02*sample.Bars)
	}
	s := settingOf(t, sample.Plain(sample.Weak, stated))
	require.NotNil(t, s.CutOut, s.Why.String())
	require.Empty(t, s.Unknown.String())
	require.Empty(t, s.Unmet.String())
	w := sample.Plain(sample.Weak, stated)
	w.Switch.CutOut, w.Switch.CutIn = setpoint.MovedBand(w.Switch.CutOut, *s.CutOut), setpoint.MovedBand(w.Switch.CutIn, *s.CutIn)
	setpoint.MoveRelief(&w.Paths[w.ReliefOnSupply()], *s.ReliefSet)
	r, err := Faults(context.Background(), w, FaultOptions{})
	require.NoError(t, err)
	assert.NotEqual(t, finding.Fail, verdictIn(t, r.Verdicts, "energy.fault").Status)
}
