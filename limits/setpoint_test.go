package limits

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
)

// A supply that stalls below the limit needs no switch.
func TestSetpointOfALimitedSource(t *testing.T) {
	l := sample.Plain(sample.Weak)
	l.Switch = nil
	l.Paths = l.Paths[:1]
	l.Supply.DeadHead = sample.Between("supply.dead_head", 0.08*sample.Bars, 0.10*sample.Bars)
	s := settingOf(t, l)
	assert.True(t, s.Works)
	assert.True(t, s.Source.Limited)
	assert.Equal(t, "source.limited", s.Binding)
	assert.Nil(t, s.CutOut)
	r := check(t, l)
	v := verdictOf(t, r, "source.limited")
	assert.Equal(t, finding.Pass, v.Status)
	for _, one := range r.Verdicts { // the first of the passes
		if one.Status == finding.Pass {
			assert.Equal(t, "source.limited", one.ID)
			break
		}
	}
}

// The recommended settings pass energy.fault as check judges it: a valve that sticks
// open while the supply runs on, and the rest.
func TestAnswerHoldsAtSingleFaults(t *testing.T) {
	stated := func(l *launcher.Launcher) {
		l.Switch.Differential = launcher.Exact("pressure_switch.differential", 0.02*sample.Bars)
	}
	s, err := setpoint.Find(context.Background(), sample.Plain(sample.Weak, stated), setpoint.Options{})
	require.NoError(t, err)
	require.NotNil(t, s.CutOut, s.Why.String())
	require.Empty(t, s.Unknown.String())
	require.Empty(t, s.Unmet.String())
	w := sample.Plain(sample.Weak, stated)
	w.Switch.CutOut, w.Switch.CutIn = setpoint.MovedBand(w.Switch.CutOut, *s.CutOut), setpoint.MovedBand(w.Switch.CutIn, *s.CutIn)
	setpoint.MoveRelief(&w.Paths[w.ReliefOnSupply()], *s.ReliefSet)
	r, err := Faults(context.Background(), w, FaultOptions{})
	require.NoError(t, err)
	assert.NotEqual(t, finding.Fail, assessed.Verdict(t, r.Verdicts, "energy.fault").Status)
}
