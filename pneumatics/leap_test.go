package pneumatics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
)

// creeper is an invented ball on a small pump that comes out of its barrel in hundreds of hops.
func creeper() (*Circuit, *Scenario) {
	area := discArea(0.03)
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature},
		Volumes: []Volume{{Name: "hose", Volume: 2e-6}},
		Supply:  &Supply{Feeds: 0, FreeAir: 0.5 * litrePerMinute, DeadHead: 1e5},
		Paths: []Path{{Name: "fire", From: 0, To: BarrelNode, Kind: Valve, Flow: flow.SonicConductance(1e-8, 0.4),
			OpenIn: SetOf(Firing)}},
		Barrel: Barrel{Present: true, Area: area, ExitArea: area, DeadVolume: 30e-6, Travel: 2, Mass: 0.02,
			Breakaway: 4.6, Sliding: 4, JetFactor: 1}}
	return c, &Scenario{From: Armed, To: Firing, Volumes: []Condition{{standardAtmosphere, roomTemperature}}, SupplyRuns: true, Until: 3600}
}

// TestLeapsOverHops: a search leaps over hops of a ball that creeps. It counts as many of them as the run that makes them all, is
// there at the same time, and its balances close as well.
func TestLeapsOverHops(t *testing.T) {
	c, sc := creeper()
	o := Options{Tolerance: 1e-5, OnlyLeaving: true, NoPeak: true}
	every := new(Sim).Run(c, sc, o)
	require.Equal(t, Left, every.Outcome)
	require.Greater(t, every.Rests, 300, "else the test shows nothing")
	o.MaxSteps, o.Onward, o.Leap = 1000, 200000, true
	leaps := new(Sim).Run(c, sc, o)
	require.Equal(t, Left, leaps.Outcome)
	assert.Less(t, 2*leaps.Evaluations, every.Evaluations)
	assert.Equal(t, every.Rests, leaps.Rests)
	// A leap may add 3e-4 of a component's size; some twenty of them.
	assert.InEpsilon(t, every.ExitTime, leaps.ExitTime, 20*3e-4)
	assert.InEpsilon(t, every.SupplyMass, leaps.SupplyMass, 20*3e-4)
	assert.InEpsilon(t, every.Account.Friction, leaps.Account.Friction, 1e-6, "4 N over 2 m, all of it in the book")
	assert.Less(t, math.Abs(leaps.MassResidual), MaxMassResidual)
	// The balance of every hop has the tolerance's error, that of a leap no other.
	assert.Less(t, math.Abs(leaps.EnergyImbalance), 3*math.Abs(every.EnergyImbalance))
}

// TestNoLeapOverASwitch: while a ball creeps out, the supply brings a tank up to the cut-out. The run stops there, not some hops later,
// and goes on leaping behind it. An end that comes before the muzzle, and who watches a pressure, have every hop.
func TestNoLeapOverASwitch(t *testing.T) {
	c, sc := creeper()
	c.Volumes[0].Volume = 0.5e-3
	c.Paths[0].Flow = flow.SonicConductance(1e-11, 0.4)
	c.Supply.FreeAir = 0.3 * litrePerMinute
	c.Barrel.Travel = 0.5
	sc.Volumes[0].Pressure += 0.3e5
	sc.Switch = &SwitchLogic{Senses: 0, CutOut: 0.5e5, CutIn: 0.1e5}
	o := Options{Tolerance: 1e-5, OnlyLeaving: true, NoPeak: true}
	every := new(Sim).Run(c, sc, o)
	require.Equal(t, Left, every.Outcome)
	o.MaxSteps, o.Onward, o.Leap = 1000, 200000, true
	leaps := new(Sim).Run(c, sc, o).Clone()
	require.Less(t, leaps.Evaluations, every.Evaluations, "else the test shows nothing")
	// The cut-out is met to the integrator's tolerance, so the delivery is.
	assert.InEpsilon(t, every.SupplyMass, leaps.SupplyMass, 1e-3)

	o.Watch = []Watch{{Volume: 0, Pressure: standardAtmosphere + 100}}
	assert.Greater(t, new(Sim).Run(c, sc, o).Evaluations, leaps.Evaluations)
	o.Watch = nil
	sc.Until = leaps.ExitTime / 2
	half := new(Sim).Run(c, sc, o)
	assert.Equal(t, TimeRanOut, half.Outcome)
	assert.Equal(t, sc.Until, half.Time)
}

// TestLeapsOverBounces: without sliding friction a ball that creeps bounces on its air: it rests where it turns back, and again where it
// goes on. A search leaps over bounces as it does over hops; taken by every rest, to and fro, it did so hardly ever.
func TestLeapsOverBounces(t *testing.T) {
	for name, k := range map[string]struct {
		free, holds float64 // supply [L/min], breakaway force [N]
		saves       int
	}{
		"the rests run out": {0.05, 0, 10},
		"it leaves":         {0.5, 0.05, 2},
	} {
		c, sc := creeper()
		c.Supply.FreeAir = k.free * litrePerMinute
		c.Barrel.Breakaway, c.Barrel.Sliding, c.Barrel.SinPitch, c.Barrel.Travel, sc.Seat = k.holds, 0, 1, 0.6, 0.1
		o := Options{Tolerance: 1e-5, OnlyLeaving: true, NoPeak: true}
		every := new(Sim).Run(c, sc, o)
		require.Greater(t, every.Rests, 300, "else the test shows nothing")
		o.MaxSteps, o.Onward, o.Leap = 1000, 200000, true
		leaps := new(Sim).Run(c, sc, o)
		assert.Equal(t, every.Outcome, leaps.Outcome, name)
		assert.Less(t, k.saves*leaps.Evaluations, every.Evaluations, name)
		// A leap may add 3e-4 of a component's size; some twenty of them.
		assert.InEpsilon(t, every.Rests, leaps.Rests, 20*3e-4, name)
		assert.InEpsilon(t, every.Time, leaps.Time, 20*3e-4, name)
		assert.InEpsilon(t, every.Position, leaps.Position, 20*3e-4, name)
		assert.Less(t, math.Abs(leaps.MassResidual), MaxMassResidual, name)
	}
}

// TestAResidualIsMendedTenfold: a ball that bounces out of its barrel, a hundred and forty times, leaves an energy balance that does not
// close. It is computed again ten times as finely, which closes it, for little more than half the steps of a hundred times.
func TestAResidualIsMendedTenfold(t *testing.T) {
	c, sc := creeper()
	c.Supply.FreeAir = 0.2 * litrePerMinute
	c.Barrel.Breakaway, c.Barrel.Sliding, c.Barrel.SinPitch, c.Barrel.Travel, sc.Seat = 0.5, 0, 1, 0.6, 0.1
	o := Options{OnlyLeaving: true, NoPeak: true}
	r := new(Sim).Run(c, sc, o)
	at := func(tolerance float64) *Result {
		o.Tolerance = tolerance
		return new(Sim).Run(c, sc, o)
	}
	require.NotEmpty(t, at(DefaultTolerance).Withheld(), "else the test shows nothing")
	assert.Empty(t, r.Withheld())
	assert.Equal(t, at(DefaultTolerance/10).Evaluations, r.Evaluations)
	assert.Less(t, 1.5*float64(r.Evaluations), float64(at(DefaultTolerance/100).Evaluations))
}
