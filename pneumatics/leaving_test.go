package pneumatics

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"puffproof/pneumatics/flow"
)

// corked is a launcher of one vessel behind a wide valve and a ball that seals, whose air
// at ambient pressure would fill so much of the barrel.
func corked(share, sliding float64) (*Circuit, *Scenario) {
	const area, travel, dead, volume = 1e-3, 1.0, 20e-6, 0.2e-3
	pa := standardAtmosphere
	// p V^gamma: the air of the vessel, of no flow resistance, at ambient after expansion.
	after := dead + volume + share*area*travel
	gas := flow.Air()
	p := pa * math.Pow((after-dead)/volume, gas.Gamma)
	c := &Circuit{Gas: gas, Ambient: Ambient{pa, 293.15}, Volumes: []Volume{{Volume: volume}},
		Paths: []Path{{From: 0, To: BarrelNode, Kind: Valve, Flow: flow.SonicConductance(3e-7, 0.3), OpenIn: SetOf(Firing)}},
		Barrel: Barrel{Present: true, Area: area, ExitArea: area, DeadVolume: dead, Travel: travel, Mass: 0.05, Sliding: sliding,
			Breakaway: sliding, JetFactor: 1}}
	return c, &Scenario{From: Armed, To: Firing, Volumes: []Condition{{p, 293.15}}, Until: 120}
}

// A ball whose air would fill a hundredth of the barrel never leaves: the run that asks
// only for leaving says so at once, where the other follows it through its bounces. One
// whose air would fill it leaves, and the two agree.
func TestOnlyLeavingEndsWhereNothingCanLeave(t *testing.T) {
	var s Sim
	c, sc := corked(0.01, 0)
	long := s.Run(c, sc, Options{}).Clone()
	short := s.Run(c, sc, Options{OnlyLeaving: true}).Clone()
	assert.NotEqual(t, Left, long.Outcome)
	assert.True(t, short.Idle)
	assert.Less(t, 10*short.Steps, long.Steps)
	assert.Less(t, short.Freed, idleEnergy)

	c, sc = corked(1.5, 0)
	long = s.Run(c, sc, Options{}).Clone()
	require.Equal(t, Left, long.Outcome)
	short = s.Run(c, sc, Options{OnlyLeaving: true})
	assert.Equal(t, long.FinalEnergy, short.FinalEnergy)
}

// What a gap or a check valve takes in from the air fills the barrel behind the ball: the
// thin air then holds nothing back.
func TestWhatTakesAirInIsNotSealed(t *testing.T) {
	sealed := func(change func(c *Circuit)) bool {
		c, sc := corked(1, 0)
		change(c)
		var s Sim
		s.e.compile(c, sc, Options{})
		s.e.connect(0)
		return s.e.sealed
	}
	outside := func(p Path) func(*Circuit) {
		return func(c *Circuit) { p.Flow = flow.SonicConductance(1e-8, 0.3); c.Paths = append(c.Paths, p) }
	}
	assert.True(t, sealed(func(*Circuit) {}))
	assert.False(t, sealed(func(c *Circuit) { c.Barrel.LeakArea, c.Barrel.LeakCd = 1e-6, 0.6 }))
	assert.False(t, sealed(outside(Path{From: Atmosphere, To: BarrelNode, Kind: Check})))
	assert.False(t, sealed(outside(Path{From: 0, To: Atmosphere, Kind: Orifice})))
	assert.True(t, sealed(outside(Path{From: 0, To: Atmosphere, Kind: Check})), "one way out")
	assert.True(t, sealed(outside(Path{From: 0, To: Atmosphere, Kind: Valve, OpenIn: SetOf(Off)})), "shut")
}

// The bound holds for every launcher: no shot of a random circuit without a supply leaves
// with more than it says at the start, and asking only for leaving changes no shot that
// leaves with more than the least energy worth waiting for.
func TestTheBoundOnLeavingHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, sc := randomCircuit(rapidDice{t})
		sc.SupplyRuns, sc.Heat, sc.MuzzleClosed = false, Adiabatic, false
		if !c.Barrel.Present || sc.NoProjectile {
			return
		}
		var s Sim
		long := s.Run(c, sc, Options{MaxSteps: 20000}).Clone()
		s.e.compile(c, sc, Options{OnlyLeaving: true})
		s.e.connect(0)
		s.e.conditions(s.e.state)
		bound := s.e.left(s.e.state)
		if long.Outcome != Left || long.Withheld() != "" {
			return
		}
		slack := idleEnergy + math.Abs(long.EnergyImbalance)
		if long.FinalEnergy > bound+slack {
			t.Fatalf("left with %g J, the bound is %g J", long.FinalEnergy, bound)
		}
		// What is apart from the barrel is left out: the same shot without it, to the last bit, unless a
		// valve that shuts later sets more apart. Then the steps differ: 1e-3, for a shot that all but rests.
		bare := *c
		bare.Paths = slices.Clone(c.Paths)
		for i := range bare.Paths {
			if p := &bare.Paths[i]; s.e.apart(p.From) && s.e.apart(p.To) {
				p.Flow = flow.Restriction{}
			}
		}
		before := slices.Clone(s.e.joined)
		long = s.Run(&bare, sc, Options{MaxSteps: 20000}).Clone()
		short := s.Run(c, sc, Options{MaxSteps: 20000, OnlyLeaving: true})
		room := 0.0
		if !slices.Equal(before, s.e.joined) {
			room = 1e-3 * long.FinalEnergy
		}
		if long.FinalEnergy > 10*slack && !(math.Abs(short.FinalEnergy-long.FinalEnergy) <= room) {
			t.Fatalf("%v, %g J where it leaves with %g J", short.Outcome, short.FinalEnergy, long.FinalEnergy)
		}
	})
}

// A ball that nothing slows floats on its air for good: on what is trapped behind it, with
// a pump joined that cannot push as high. It has stalled, and its run comes to an end.
func TestABallThatFloatsHasStalled(t *testing.T) {
	const area, mass = 1e-3, 0.1
	weight := mass * 9.80665 / area // [Pa]
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, 293.15}, Volumes: []Volume{{Volume: 1e-3}},
		Paths:  []Path{{From: 0, To: BarrelNode, Kind: Valve, Flow: flow.SonicConductance(1e-8, 0.3), OpenIn: SetOf(Firing)}},
		Barrel: Barrel{Present: true, Area: area, ExitArea: area, DeadVolume: 20e-6, Travel: 1, Mass: mass, SinPitch: 1, JetFactor: 1},
		Supply: &Supply{Feeds: 0, FreeAir: 1e-4, DeadHead: 0.5 * weight}}
	sc := &Scenario{From: Armed, To: Firing, Volumes: []Condition{{standardAtmosphere + 1.5*weight, 293.15}}, SupplyRuns: true, Until: 120}
	var s Sim
	r := s.Run(c, sc, Options{MaxSteps: 20000})
	assert.Equal(t, Stalled, r.Outcome)
	assert.InDelta(t, weight, r.Barrel.Pressure-standardAtmosphere, 1e-3*weight)
	assert.Greater(t, r.Position, 0.0)
	assert.Less(t, r.Position, 1.0)

	sc.Volumes[0].Pressure = standardAtmosphere
	c.Barrel.SinPitch, c.Supply = 0, nil
	r = s.Run(c, sc, Options{})
	assert.Equal(t, Stalled, r.Outcome, "level, and no air that could move it")
	assert.Zero(t, r.Steps)
}

// A supply counts as long as its air can still reach the barrel: for as long as is asked,
// or until the valve between has shut. Q pa/(R Ta) t.
func TestSupplyMassCountsWhileItReachesTheBarrel(t *testing.T) {
	c, sc := corked(1, 0)
	c.Volumes = append(c.Volumes, Volume{Volume: 1e-3})
	sc.Volumes = append(sc.Volumes, Condition{standardAtmosphere, 293.15})
	c.Paths = append(c.Paths, Path{From: 1, To: 0, Kind: Valve, Flow: flow.SonicConductance(1e-8, 0.3), OpenIn: SetOf(Armed),
		ClosingTime: 0.04})
	c.Supply = &Supply{Feeds: 1, FreeAir: 2e-4, DeadHead: 1e5}
	sc.SupplyRuns = true
	rate := 2e-4 * standardAtmosphere / (c.Gas.R * 293.15)
	var s Sim
	assert.InEpsilon(t, 0.04*rate, s.SupplyMass(c, sc, 100), 1e-12)
	assert.InEpsilon(t, 0.01*rate, s.SupplyMass(c, sc, 0.01), 1e-12)
	c.Paths[1].OpenIn |= SetOf(Firing)
	assert.InEpsilon(t, 100*rate, s.SupplyMass(c, sc, 100), 1e-12)
	c.Supply.Curve = []SupplyPoint{{0, 1e-4}, {0.5e5, 3e-4}, {1e5, 0}}
	assert.InEpsilon(t, 150*rate, s.SupplyMass(c, sc, 100), 1e-12, "the most of a curve that rises")
	sc.SupplyRuns = false
	assert.Zero(t, s.SupplyMass(c, sc, 100))
}

// What is pushed from rest by no more than a pressure leaves with no more than that
// pressure's work: over random circuits, regulators and supplies among them.
func TestNoShotFromRestExceedsThePush(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, sc := randomCircuit(rapidDice{t})
		sc.Heat, sc.MuzzleClosed = Adiabatic, false
		if !c.Barrel.Present || sc.NoProjectile {
			return
		}
		var s Sim
		r := s.Run(c, sc, Options{MaxSteps: 20000}).Clone()
		if r.Outcome != Left || r.Rests > 0 || !math.IsNaN(r.FirstRestTime) || r.Withheld() != "" {
			return
		}
		s.e.compile(c, sc, Options{})
		s.e.connect(0)
		s.e.conditions(s.e.state)
		bound := s.e.pushed(s.e.state, s.e.highestReach())
		if r.FinalEnergy > bound+math.Abs(r.EnergyImbalance) {
			t.Fatalf("left with %g J, the bound is %g J", r.FinalEnergy, bound)
		}
	})
}

// A regulator between lets no more through than it is set to: a ball that the tank's
// pressure would move stalls behind it, and a hand that frees it lets the set pressure
// loose, not the tank: (p - pa) A on the way to the muzzle and ten bores beyond.
func TestARegulatorCapsWhatGetsToTheBarrel(t *testing.T) {
	c, sc := corked(1, 40)
	const set = 0.3e5
	c.Volumes = append(c.Volumes, Volume{Volume: 20e-3})
	c.Paths = append(c.Paths, Path{From: 1, To: 0, Kind: Regulator, Flow: flow.SonicConductance(1e-8, 0.3), SetPressure: set, Droop: 0.03e5})
	sc.Volumes = []Condition{{standardAtmosphere + set, 293.15}, {standardAtmosphere + 8e5, 293.15}}
	var s Sim
	r := s.Run(c, sc, Options{})
	assert.Equal(t, Stalled, r.Outcome)
	assert.Zero(t, r.Steps, "known at once")
	b := &c.Barrel
	assert.InEpsilon(t, set*b.Area*(b.Travel+10*2*math.Sqrt(b.Area/math.Pi)), r.Freed, 1e-9)
	sc.Stuck = []Stuck{{Path: 1, Opening: 1}}
	assert.Equal(t, Left, s.Run(c, sc, Options{}).Outcome, "not where it is stuck open")
}

// TestOnlyLeavingLeavesOutWhatIsApart: a tank behind a shut feed stays as it is, its supply and its
// relief valve with it, and the projectile leaves as it does with them. 1e-6: the steps differ, with the
// errors of DefaultTolerance at bends. A tank that feeds the dose, or whose pressure moves a diaphragm
// between dose and barrel, is followed.
func TestOnlyLeavingLeavesOutWhatIsApart(t *testing.T) {
	c, sc := whale()
	sc.SupplyRuns = true
	start := sc.Volumes[0].Pressure
	var s Sim
	full := s.Run(c, sc, Options{}).Clone()
	require.Equal(t, Left, full.Outcome)
	require.Greater(t, full.Volumes[0].Pressure, start+1)
	short := s.Run(c, sc, Options{OnlyLeaving: true}).Clone()
	assert.InEpsilon(t, start, short.Volumes[0].Pressure, 1e-12)
	assert.Zero(t, short.SupplyMass)
	assert.Empty(t, short.Withheld())
	assert.InEpsilon(t, full.FinalSpeed, short.FinalSpeed, 1e-6)
	assert.InEpsilon(t, full.ExitTime, short.ExitTime, 1e-6)

	fire := &c.Paths[1]
	fire.Balance = Balance{SeatShare: 0.5, Span: 1000, Pilot: 0}
	s.Run(c, sc, Options{OnlyLeaving: true})
	assert.True(t, s.e.joined.At(0), "the pilot")
	fire.Balance = Balance{}
	c.Paths[0].OpenIn = SetOf(Charging, Firing)
	assert.NotEqual(t, start, s.Run(c, sc, Options{OnlyLeaving: true}).Volumes[0].Pressure, "it feeds the dose")
}
