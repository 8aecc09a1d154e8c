package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
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
// open while the supply runs on, and the rest. An own limit of 0.03 J makes a fault bind.
func TestAnswerHoldsAtSingleFaults(t *testing.T) {
	stated := func(l *launcher.Launcher) {
		l.Switch.Differential = launcher.Exact("pressure_switch.differential", 0.02*sample.Bars)
		l.Limits.TotalEnergy = launcher.Exact("limits.total_energy", 0.03)
	}
	ctx := search.WithStrength(t.Context(), 0.1) // of what sets and of what judges
	s, err := setpoint.Find(ctx, sample.Plain(sample.Weak, stated), setpoint.Options{})
	require.NoError(t, err)
	require.NotNil(t, s.CutOut, s.Why.String())
	require.Empty(t, s.Unknown.String())
	require.Empty(t, s.Unmet.String())
	require.Equal(t, finding.EnergyFault, s.Binding, "else the test shows little")
	w := sample.Plain(sample.Weak, stated)
	w.Switch.CutOut, w.Switch.CutIn = setpoint.MovedBand(w.Switch.CutOut, *s.CutOut), setpoint.MovedBand(w.Switch.CutIn, *s.CutIn)
	setpoint.MoveRelief(&w.Paths[w.ReliefOnSupply()], *s.ReliefSet)
	r, err := Faults(ctx, w, "", fault.LatentPairs)
	require.NoError(t, err)
	assert.Equal(t, finding.Pass, assessed.Verdict(t, r.Verdicts, finding.EnergyFault).Status)
}
