package vent

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/catalogue"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// pushing is the vented tank with a firing valve that opens without power.
func pushing(changes ...func(l *launcher.Launcher)) *launcher.Launcher {
	l := sample.VentedTank()
	l.Paths[0].Unpowered = pneumatics.Open
	for _, change := range changes {
		change(l)
	}
	return l
}

// pushOf is what a power cut while armed pushes out of the barrel, from 1 bar.
func pushOf(t *testing.T, l *launcher.Launcher) BarrelPush {
	t.Helper()
	e := &Report{}
	require.NoError(t, newVenter(Input{Launcher: l}, 1e5, 5000).push(e, Scenario{PowerLost, pneumatics.Armed}))
	require.Len(t, e.Pushes, 1)
	return e.Pushes[0]
}

// heldBy bounds the hold of the projectile [N].
func heldBy(low, high float64) func(l *launcher.Launcher) {
	return func(l *launcher.Launcher) {
		l.Projectile.Breakaway, l.Projectile.Restart = sample.Between("", low, high), sample.Between("", low, high)
	}
}

// The harder of the loosest and the firmest hold counts, of what opens into the barrel
// and of an outlet that may blow into it: held firmly the projectile of a slow valve goes
// from more pressure.
func TestTheFirmestHoldIsPushedToo(t *testing.T) {
	aimed := func(l *launcher.Launcher) BarrelPush {
		e := &Report{}
		require.NoError(t, newVenter(Input{Launcher: l}, 1e5, 5000).aimed(e))
		require.Len(t, e.Aimed, 2)
		assert.Equal(t, pneumatics.Loading, e.Aimed[0].From, "with hands at the muzzle first")
		assert.Equal(t, "unknown", e.Aimed[1].Points)
		return e.Aimed[1]
	}
	for name, energy := range map[string]func(low, high float64) float64{
		"opens into the barrel": func(low, high float64) float64 { return pushOf(t, pushing(heldBy(low, high))).Energy },
		"blows into it":         func(low, high float64) float64 { return aimed(pushing(heldBy(low, high))).Energy },
	} {
		loose, firm := energy(0, 0), energy(20, 20)
		assert.Greater(t, math.Abs(firm-loose), 0.1*min(loose, firm), name)
		assert.InEpsilon(t, max(loose, firm), energy(0, 20), 1e-9, name+": the same run")
	}
}

// A push is that of the harder end of each band that bears on it: a wide way into the
// barrel, thin air.
func TestAPushTakesTheHarderEndOfABand(t *testing.T) {
	for name, c := range map[string]struct {
		band      func(l *launcher.Launcher) *launcher.Band
		low, high float64
		hard      float64
	}{
		"way into the barrel": {func(l *launcher.Launcher) *launcher.Band { return &l.Paths[0].Flow.Value }, 1e-8, 3e-8, 3e-8},
		"barometer":           {func(l *launcher.Launcher) *launcher.Band { return &l.Ambient.Pressure }, 9e4, 1.1e5, 9e4},
	} {
		energy := func(low, high float64) float64 {
			return pushOf(t, pushing(func(l *launcher.Launcher) { *c.band(l) = sample.Between("", low, high) })).Energy
		}
		low, high := energy(c.low, c.low), energy(c.high, c.high)
		assert.Equal(t, c.hard == c.high, high > low, name)
		assert.InEpsilon(t, max(low, high), energy(c.low, c.high), 1e-9, name+": the same run")
	}
}

// What is judged is the energy of the model times its factor; the speed is that of the
// energy.
func TestAPushIsJudgedWithTheModelFactor(t *testing.T) {
	p := pushOf(t, pushing())
	assert.Equal(t, "left", p.Outcome)
	assert.Equal(t, worst.ModelFactor*p.Energy, p.Judged)
	assert.InEpsilon(t, 0.5*4e-3*p.Speed*p.Speed, p.Energy, 1e-9, "4 g, but for rounding")
}

// A projectile that neither leaves nor rests for good in two minutes, behind a way so
// narrow that the air has hardly begun to pass it, counts with a bound on what that air
// can do: its availability, V (p ln(p/pa) - (p - pa)) (for instance Moran and Shapiro,
// Fundamentals of Engineering Thermodynamics, chapter 7, from memory), less what has passed
// in the two minutes: under a hundredth.
func TestAPushThatIsNotOverCountsWithItsBound(t *testing.T) {
	p := pushOf(t, pushing(heldBy(100, 100), func(l *launcher.Launcher) {
		for _, b := range catalogue.Machine(l) {
			b.Low, b.High = b.Nominal, b.Nominal
		}
		l.Paths[0].Flow.Value = launcher.Exact("", 5e-13)
		l.Paths[1].Unpowered = pneumatics.Closed
	}))
	const pa, top = 101325.0, 101325.0 + 1e5
	assert.True(t, p.Bound)
	available := 2e-3 * (top*math.Log(top/pa) - 1e5)
	assert.Greater(t, p.Energy, 0.99*available)
	assert.Less(t, p.Energy, available)
	assert.Equal(t, worst.ModelFactor*p.Energy, p.Judged)
	assert.InEpsilon(t, 0.5*4e-3*p.Speed*p.Speed, p.Energy, 1e-9, "4 g, but for rounding")
}

// A push begins with what the volumes hold: all of it, or while loading what the vents
// of that state have left.
func TestAPushBeginsWithWhatLoadingLeft(t *testing.T) {
	l := sample.VentedTank()
	start := func(from pneumatics.State, air *Loading) float64 {
		v := newVenter(Input{Launcher: l, Loading: air}, 1e5, 5000)
		one := v.pushSetup(v.ends[FastEnd][0], Scenario{Shutdown, from}, 0)
		return one.scenario.Volumes[0].Pressure - one.Circuit.Ambient.Pressure
	}
	vented := &Loading{Rest: []float64{3000}, Empty: []bool{true}}
	for _, c := range []struct {
		from pneumatics.State
		air  *Loading
		want float64
	}{
		{pneumatics.Armed, vented, 1e5},
		{pneumatics.Loading, vented, 3000},
		{pneumatics.Loading, &Loading{Rest: []float64{3000}, Empty: []bool{false}}, 1e5},
		{pneumatics.Loading, &Loading{Rest: []float64{2e5}, Empty: []bool{true}}, 1e5},
		{pneumatics.Loading, nil, 1e5},
	} {
		assert.InDelta(t, c.want, start(c.from, c.air), 1e-6, "%s %+v", c.from, c.air)
	}
}

// What pushes a projectile out is a shot: a hose on its way is a line, and the air that is
// left in hoses counts where the target is what all the air may still do.
func TestAPushGoesThroughLines(t *testing.T) {
	l := pushing(func(l *launcher.Launcher) {
		l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 20e-3), Length: launcher.Exact("", 5), Side: launcher.HoseAfter}
	})
	v := newVenter(Input{Launcher: l}, 1e5, 5000)
	one := v.pushSetup(v.ends[FastEnd][0], Scenario{PowerLost, pneumatics.Armed}, 0)
	assert.Len(t, one.Circuit.Paths[0].After, 1)

	const limit = 0.005
	l.Venting = nil
	target, _ := Target(l, limit)
	volume := l.Barrel.DeadVolume.High + l.Volumes[0].Volume.High + math.Pi/4*20e-3*20e-3*5
	assert.InEpsilon(t, volume, pneumatics.CeilingDose(limit, target, l.Ambient.Pressure.Low), 1e-6, "the closed form; bisection")
}

// A ball that nothing holds rolls out of a barrel that points down, whatever is vented: its weight takes it, and no air pushes it. From a
// valve that opens without power it is pushed all the same.
func TestWhatRollsOutIsNotPushed(t *testing.T) {
	down := func(l *launcher.Launcher) {
		l.Mount.ElevationMin, l.Mount.ElevationMax = sample.Between("", -0.5, -0.5), sample.Between("", 0, 0)
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "bleed", From: "barrel", To: "atmosphere", Kind: pneumatics.Orifice,
			Flow: launcher.FlowSpec{Form: launcher.OrificeBore, Value: launcher.Exact("", 12e-3), DischargeCoefficient: launcher.Exact("", 0.65)}})
	}
	shut := func(l *launcher.Launcher) { l.Paths[0].Unpowered = pneumatics.Closed }
	rolls := pushOf(t, pushing(heldBy(0, 0), down, shut))
	assert.Zero(t, rolls.Energy)
	assert.Greater(t, pushOf(t, pushing(heldBy(0, 0), down)).Energy, 0.01)
}
