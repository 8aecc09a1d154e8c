package limits

import (
	"context"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
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
// open while the supply runs on, and the rest. An own limit of 0.03 J makes a fault bind.
func TestAnswerHoldsAtSingleFaults(t *testing.T) {
	stated := func(l *launcher.Launcher) {
		l.Switch.Differential = launcher.Exact("pressure_switch.differential", 0.02*sample.Bars)
		l.Limits.TotalEnergy = launcher.Exact("limits.total_energy", 0.03)
		sample.Friction(0, 0)(l)                                                // else one that sticks asks for less
		l.Ambient.Coldest = launcher.Exact("ambient.coldest", sample.Kelvin0+5) // else ice may hold it, and an item keeps that
	}
	ctx := sample.Lightly(t.Context(), 0.1) // of what sets and of what judges
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

// entered is a launcher with the settings of an answer entered.
func entered(l *launcher.Launcher, s *setpoint.Answer) *launcher.Launcher {
	w := l.Clone()
	w.Switch.CutOut, w.Switch.CutIn = setpoint.MovedBand(l.Switch.CutOut, *s.CutOut), setpoint.MovedBand(l.Switch.CutIn, *s.CutIn)
	if s.ReliefSet != nil {
		setpoint.MoveRelief(&w.Paths[w.ReliefOnSupply()], *s.ReliefSet)
	}
	return w
}

// failing are the identifiers of the verdicts of a whole check on energies and pressures
// that fail.
func failing(t *testing.T, ctx context.Context, l *launcher.Launcher) (ids []string) {
	t.Helper()
	r, err := Check(ctx, l, assessment.Options{Want: assessment.EnergyStage | assessment.StuckStage | assessment.ObjectStage |
		assessment.EmptyingStage | assessment.FaultStage}) // those verdicts hang on no other
	require.NoError(t, err)
	for _, v := range r.Verdicts {
		switch v.Unit {
		case finding.InJoule, finding.InJoulePerArea, finding.InPascalGauge:
			if v.Status == finding.Fail {
				ids = append(ids, v.ID)
			}
		}
	}
	return ids
}

// gentlyStuck is the float with dumps, with little friction and a narrow switch.
func gentlyStuck(changes ...func(*launcher.Launcher)) *launcher.Launcher {
	l := sample.Dumped()
	sample.Bled(l)
	l.Projectile.Breakaway, l.Projectile.Sliding = sample.Between("projectile.breakaway_force", 0, 0.5), launcher.Exact("s", 0)
	l.Switch.Differential = sample.Between("pressure_switch.differential", 0.02*sample.Bars, 0.03*sample.Bars)
	for _, change := range changes {
		change(l)
	}
	return l
}

// An answer passes the whole of check in energies and pressures once it is entered. Check
// is the source. Searched weakly, both ways alike; PUFFPROOF_LONG=1 asks a third launcher.
func TestAnswerEnteredPassesCheck(t *testing.T) {
	t.Parallel()
	binding := map[string]bool{}
	launchers := map[string]func(*launcher.Launcher){
		"as it is":      func(*launcher.Launcher) {},
		"longer barrel": func(l *launcher.Launcher) { l.Barrel.Travel = sample.Between("barrel.travel", 0.14, 0.147) },
	}
	if os.Getenv("PUFFPROOF_LONG") != "" {
		launchers["wide valve"] = func(l *launcher.Launcher) { l.Paths[0].Flow.Value = sample.Between("paths.fire.Cv", 1.5, 2.5) }
	}
	for name, change := range launchers {
		l, ctx := gentlyStuck(change), sample.Lightly(t.Context(), 0.05)
		if name == "as it is" { // a rung binds, whatever a search finds
			ctx = assessed.Glimpse()
		}
		s, err := setpoint.Find(ctx, l, setpoint.Options{})
		require.NoError(t, err)
		require.NotNil(t, s.CutOut, "%s: %s", name, s.Why.String())
		require.Empty(t, s.Unmet.String(), name)
		assert.Empty(t, failing(t, ctx, entered(l, &s)), name)
		binding[s.Binding] = true
	}
	assert.True(t, binding[finding.EnergyFault] && binding[finding.LadderOrder], "else the test shows little: %v", binding)
}
