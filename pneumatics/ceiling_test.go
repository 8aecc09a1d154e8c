package pneumatics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/internal/reference"
)

// TestReferenceCeiling compares the bound with ceiling.csv: availability of
// closed compartments, golden section in 30-digit arithmetic (tool and command in
// the file). The barrel is the last compartment here, the others volumes joined
// to it. 1e-9 of the availability of each compartment: logarithms of pressure
// ratios near 1 lose digits.
func TestReferenceCeiling(t *testing.T) {
	rows := reference.Table(t, "../testdata/reference/ceiling.csv")
	require.GreaterOrEqual(t, len(rows), 12)
	for _, row := range rows {
		gas := flow.Air()
		gas.R, gas.Gamma = row.F("R_J_kgK"), row.F("gamma")
		c := &Circuit{Gas: gas, Ambient: Ambient{row.F("pa_Pa"), row.F("Tw_K")},
			Barrel: Barrel{Present: true, Area: row.F("area_m2"), Travel: row.F("travel_m"), Mass: 1e-2}}
		sc := &Scenario{From: Armed, To: Firing}
		n := int(row.F("n"))
		for i := range n {
			digit := string(rune('1' + i))
			cond := Condition{row.F("p" + digit + "_Pa"), row.F("T" + digit + "_K")}
			if i == n-1 {
				c.Barrel.DeadVolume, sc.Barrel = row.F("V"+digit+"_m3"), cond
				continue
			}
			c.Volumes = append(c.Volumes, Volume{Volume: row.F("V" + digit + "_m3")})
			sc.Volumes = append(sc.Volumes, cond)
			c.Paths = append(c.Paths, Path{From: Node(i), To: BarrelNode, Kind: Valve, Flow: flow.SonicConductance(1e-8, 0.3),
				OpenIn: SetOf(Firing)})
		}
		b := new(Sim).Ceiling(c, sc, 0)
		assert.InEpsilon(t, row.F("ceiling_J"), b.Final, 1e-9, "case %s", row["case"])
		assert.InEpsilon(t, row.F("muzzle_ceiling_J"), b.Muzzle, 1e-9, "case %s", row["case"])
	}
}

// TestCeilingDose: 0.5 J allows 123, 47, 13 mL at 0.3, 0.5, 1.0 bar gauge: V =
// E/(p ln(p/pa) - (p - pa)) with 101325 Pa, the availability of the gas, by hand: 0.5
// J/(131325 Pa 0.25934 - 30000 Pa) = 123.2 mL. Digits.
func TestCeilingDose(t *testing.T) {
	for gauge, ml := range map[float64]float64{0.3e5: 123, 0.5e5: 47, 1.0e5: 13} {
		assert.InDelta(t, ml, CeilingDose(0.5, gauge, standardAtmosphere)*1e6, 0.5)
	}
	assert.True(t, math.IsInf(CeilingDose(0.5, 0, standardAtmosphere), 1))
}

// TestCeilingCountsWhatCanReachTheBarrel: a volume behind a valve that stays shut
// does not count, one behind a valve that opens does, and the supply's air adds m
// R Tw ln(p/pa).
func TestCeilingCountsWhatCanReachTheBarrel(t *testing.T) {
	c, sc := whale()
	var s Sim
	dose := s.Ceiling(c, sc, 0)
	c.Paths[0].OpenIn = SetOf(Firing)
	both := s.Ceiling(c, sc, 0)
	assert.Greater(t, both.Final, 3*dose.Final)
	assert.InEpsilon(t, dose.Mass+sc.Volumes[0].Pressure*2.5e-3/(c.Gas.R*291.15), both.Mass, 1e-12)
	more := s.Ceiling(c, sc, 1e-3)
	assert.InEpsilon(t, 1e-3*c.Gas.R*291.15*math.Log(1+4e5/c.Ambient.Pressure), more.Final-both.Final, 1e-9)
	sc.To = Armed
	assert.InDelta(t, 0, s.Ceiling(c, sc, 0).Final, 1e-9)
	stuck := &Scenario{From: Armed, To: Armed, Volumes: sc.Volumes, Stuck: []Stuck{{Path: 1, Opening: 0.3}}}
	assert.Equal(t, dose.Final, s.Ceiling(c, stuck, 0).Final, "a fire valve that leaks joins its volume")
	// Downwards, the fall counts: m g L at the muzzle.
	c.Barrel.SinPitch = -1
	assert.InEpsilon(t, c.Barrel.Mass*9.80665*c.Barrel.Travel,
		s.Ceiling(c, &Scenario{From: Armed, To: Armed, Volumes: sc.Volumes}, 0).Muzzle, 1e-9)
}

// TestCeilingLeavesOutWhatCannotFlowBack: a side volume that a check valve, a relief
// valve or a regulator fills from the tank gives nothing back; stuck open, or the other
// way round, it counts.
func TestCeilingLeavesOutWhatCannotFlowBack(t *testing.T) {
	for _, kind := range []PathKind{Check, Relief, Regulator} {
		t.Run(kind.String(), func(t *testing.T) {
			c, sc := referenceShots()[0].circuit()
			var s Sim
			alone := s.Ceiling(c, sc, 0)
			c.Volumes = append(c.Volumes, Volume{Name: "side", Volume: 1e-3})
			sc.Volumes = append(sc.Volumes, Condition{5e5, roomTemperature})
			c.Paths = append(c.Paths, Path{Name: "side", From: 0, To: 1, Kind: kind, Flow: flow.SonicConductance(1e-8, 0.3), SetPressure: 1e5})
			assert.Equal(t, alone, s.Ceiling(c, sc, 0))
			more := alone.Mass + 5e5*1e-3/(c.Gas.R*roomTemperature)
			stuck := *sc
			stuck.Stuck = []Stuck{{Path: 1, Opening: 0.5}}
			assert.InEpsilon(t, more, s.Ceiling(c, &stuck, 0).Mass, 1e-12)
			c.Paths[1].From, c.Paths[1].To = 1, 0
			assert.InEpsilon(t, more, s.Ceiling(c, sc, 0).Mass, 1e-12)
			c.Paths[1].Flow = flow.Restriction{}
			assert.Equal(t, alone, s.Ceiling(c, sc, 0), "nothing passes it")
		})
	}
}

// TestCeilingTakesTheHotterSurroundings: walls colder than the ambient air do not lower
// the bound, hotter ones raise it. One volume at Tw: p V ln(p/pa) - (p - pa) V (closed
// form); a gas colder than Tw by hand from the availability in Ceiling.
func TestCeilingTakesTheHotterSurroundings(t *testing.T) {
	c, sc := referenceShots()[0].circuit()
	sc.Heat, sc.WallTemperature = Convection, 263
	p, v := sc.Volumes[0].Pressure, c.Volumes[0].Volume
	pa := standardAtmosphere
	want := p*v*math.Log(p/pa) - (p-pa)*v
	assert.InEpsilon(t, want, new(Sim).Ceiling(c, sc, 0).Final, 1e-9)
	// Against walls of 323.15 K: m [cv (T - Tw - Tw ln(T/Tw)) + R Tw ln(p Tw/(pa T))] -
	// pa (m R Tw/pa - V), for the tank, and for the air in the barrel.
	const tw = 323.15
	sc.WallTemperature = tw
	r, cv, ratio := c.Gas.R, c.Gas.R/(c.Gas.Gamma-1), roomTemperature/tw
	dead := c.Barrel.DeadVolume
	m, mb := p*v/(r*roomTemperature), pa*dead/(r*roomTemperature)
	warm := cv * (roomTemperature - tw - tw*math.Log(ratio))
	want = m*(warm+r*tw*math.Log(p/(pa*ratio))) + mb*(warm+r*tw*math.Log(1/ratio)) - ((m+mb)*r*tw - pa*(v+dead))
	assert.InEpsilon(t, want, new(Sim).Ceiling(c, sc, 0).Final, 1e-9)
}

// TestCeilingHardCases runs the cases that broke an earlier ceiling: supply
// during the run from zero gauge (here) and gas colder than the walls
// (TestWarmingGasFreesTheProjectile). None may exceed the bound by more than its own imbalance.
func TestCeilingHardCases(t *testing.T) {
	c, sc := stickyBall(1.1, 20)
	c.Volumes[0].Volume = 0.3e-3
	c.Supply = &Supply{Feeds: 0, FreeAir: 12 * litrePerMinute, DeadHead: 4e5}
	sc.SupplyRuns, sc.Parts = true, Parts{}
	r := shotAt(c, sc, 0, Options{})
	require.Equal(t, Left, r.Outcome)
	sc.Volumes = []Condition{{c.Ambient.Pressure, c.Ambient.Temperature}}
	b := new(Sim).Ceiling(c, &sc, r.SupplyMass)
	assert.LessOrEqual(t, r.FinalEnergy, b.Final+math.Abs(r.EnergyImbalance))
	assert.Greater(t, r.SupplyMass, 0.0)
	assert.InDelta(t, 0, new(Sim).Ceiling(c, &sc, 0).Final, 1e-9, "without its supply the start holds nothing")
}

// TestMostPush: without a jet's thrust the bound is twice the start's gauge pressure times
// the projectile's section, on the travel and ten bores beyond, A = pi D^2/4; behind a
// supply that runs on, with its dead head. An hour of that supply's air could do a
// thousand times as much.
func TestMostPush(t *testing.T) {
	c, sc := stickyBall(1.1, 20)
	c.Barrel.ExitArea = 0
	var s Sim
	bore := math.Sqrt(4 * c.Barrel.Area / math.Pi)
	way := c.Barrel.Area * (c.Barrel.Travel + 10*bore)
	sc.Volumes = []Condition{{c.Ambient.Pressure + 0.5e5, c.Ambient.Temperature}}
	assert.InEpsilon(t, 2*0.5e5*way, s.MostPush(c, &sc), 1e-9)
	c.Supply = &Supply{Feeds: 0, FreeAir: 12 * litrePerMinute, DeadHead: 4e5}
	assert.InEpsilon(t, 2*0.5e5*way, s.MostPush(c, &sc), 1e-9, "it stands still")
	sc.SupplyRuns = true
	assert.InEpsilon(t, 2*4e5*way, s.MostPush(c, &sc), 1e-9)
	assert.Greater(t, s.Ceiling(c, &sc, s.SupplyMass(c, &sc, 3600)).Final, 100*s.MostPush(c, &sc))
}
