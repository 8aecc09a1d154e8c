package worst

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// opensIn adds states to those in which the firing valve is open.
func opensIn(states ...pneumatics.State) func(*launcher.Launcher) {
	return func(l *launcher.Launcher) { l.Paths[0].OpenIn |= pneumatics.SetOf(states...) }
}

// standing are launchers whose supply stands still during a shot: then one that a change of state lets off is the very shot that is
// fired.
func standing(l *launcher.Launcher) { l.Supply.RunsIn = pneumatics.SetOf(pneumatics.Charging) }

// Source of the figure: by construction. Switched off or armed, the valve opens on the same air as when it is fired, so that
// the shot is the same to the last digits that two runs differ by.
func TestAChangeOfStateThatOpensTheFiringValveIsAShot(t *testing.T) {
	for _, s := range []pneumatics.State{pneumatics.Off, pneumatics.Armed, pneumatics.Loading} {
		e := stageOf(t, sample.Plain(sample.Weak, standing, opensIn(s)), limitsOf(0.08, 0.5)).Report
		require.Len(t, e.Entered, 1, s.String())
		one := e.HardestEntered()
		require.NotNil(t, one, s.String())
		assert.Equal(t, s, one.State)
		assert.Equal(t, []string{"fire"}, one.Valves)
		assert.InEpsilon(t, e.WorstEnergy, one.Energy, 1e-4, s.String())
		assert.InEpsilon(t, ModelFactor*one.Energy, one.Judged, sample.Rounding, s.String())
		assert.Empty(t, one.Unknown.String())
	}
	// While it charges its supply pushes as well: no less than fired.
	e := stageOf(t, sample.Plain(sample.Weak, standing, opensIn(pneumatics.Charging)), limitsOf(0.08, 0.5)).Report
	require.NotNil(t, e.HardestEntered())
	assert.GreaterOrEqual(t, e.HardestEntered().Energy, e.WorstEnergy*(1-1e-4))
}

// A launcher whose barrel is shut off but in a shot has none of these shots, and nothing is searched for.
func TestAShutBarrelIsNotShotByAChangeOfState(t *testing.T) {
	for name, l := range map[string]*launcher.Launcher{"plain": sample.Plain(), "branched": sample.Branched(), "dumped": sample.Dumped(),
		"bled": sample.Plain(sample.Bled)} {
		assert.Empty(t, stageOf(t, l, limitsOf(0.08, 0.5)).Report.Entered, name)
	}
}

// A second, wider valve into the barrel, open when it is off: its shot is that of a launcher that fires through it, and the judged
// energy counts it, though firing does far less.
func TestTheHardestChangeOfStateIsJudged(t *testing.T) {
	second := func(l *launcher.Launcher) {
		p := l.Paths[0]
		p.Name, p.Flow, p.OpenIn = "second", sample.Cv(1), pneumatics.SetOf(pneumatics.Off)
		l.Paths[0].Flow = sample.Cv(0.05)
		l.Paths = append(l.Paths, p)
	}
	l := sample.Plain(sample.Weak, standing, second)
	e := stageOf(t, l, limitsOf(0.08, 0.5)).Report
	fired := stageOf(t, sample.Plain(sample.Weak, standing), limitsOf(0.08, 0.5)).Report
	one := e.HardestEntered()
	require.NotNil(t, one)
	assert.Equal(t, []string{"second"}, one.Valves)
	assert.InEpsilon(t, fired.WorstEnergy, one.Energy, 1e-4)
	require.Greater(t, one.Judged, 1.5*e.Judged)
	e.CountEntered(&l.Projectile)
	assert.Equal(t, one.Judged, e.Judged)
	assert.InEpsilon(t, one.Judged/launcher.Circle(30*sample.Millimetres), e.AreaJudged, sample.Rounding)
	assert.Equal(t, one, e.DecidingEntered())
	fired.CountEntered(&l.Projectile)
	assert.Nil(t, fired.DecidingEntered())
}

// A chamber that only a shot fills, shut off from the barrel meanwhile, holds air afterwards: what opens it into the barrel on
// switching off shoots the next projectile.
func TestWhatAShotFillsIsShotLater(t *testing.T) {
	l := sample.TwoTanks(sample.ValveIn(pneumatics.Charging))
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "buffer", Volume: launcher.Exact("volumes.buffer.volume", 1e-3)})
	add := func(name, from, to string, in pneumatics.State) {
		p := sample.ValveIn(in)
		p.Name, p.From, p.To, p.Flow = name, from, to, sample.Cv(1)
		l.Paths = append(l.Paths, p)
	}
	add("fills", "tank", "buffer", pneumatics.Firing)
	require.Empty(t, stageOf(t, l, limitsOf(0.08, 0.5)).Report.Entered)
	add("opens", "buffer", "barrel", pneumatics.Off)
	one := stageOf(t, l, limitsOf(0.08, 0.5)).Report.HardestEntered()
	require.NotNil(t, one)
	assert.Equal(t, []string{"opens"}, one.Valves)
}

// An orifice from a volume to the barrel is open in every state; one without a supply that delivers a known amount is unknown
// where the supply runs.
func TestAnOpenWayIntoTheBarrelCountsInEveryState(t *testing.T) {
	open := func(l *launcher.Launcher) {
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "leak", From: "tank", To: "barrel", Kind: pneumatics.Orifice,
			Flow: sample.Orifice(3*sample.Millimetres, 0.75)})
	}
	e := stageOf(t, sample.Plain(open), limitsOf(0.08, 0.5)).Report
	require.Len(t, e.Entered, 4)
	for _, one := range e.Entered {
		assert.True(t, one.Shoots(), one.Does())
		assert.Empty(t, one.Valves)
	}
	l := sample.Plain(opensIn(pneumatics.Charging), func(l *launcher.Launcher) { l.Supply.FreeAir = launcher.Band{} })
	e = stageOf(t, l, limitsOf(0.08, 0.5)).Report
	require.Len(t, e.Entered, 1)
	assert.Contains(t, e.Entered[0].Unknown.String(), "supply.free_air is not stated")
	assert.True(t, e.Entered[0].Shoots(), "the air of the tank alone is enough to know")
}
