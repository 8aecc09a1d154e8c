package pneumatics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
)

// supplied is a vessel with a relief valve, fed by a supply of constant free air.
func supplied(free float64) (*Circuit, *Scenario) {
	c := vessel(2e-3, flow.Nozzle(discArea(5e-3), 0.62))
	c.Paths[0].Kind, c.Paths[0].Name = Relief, "relief"
	c.Paths[0].SetPressure, c.Paths[0].FullFlowPressure, c.Paths[0].ReseatPressure = 0.8e5, 0.9e5, 0.68e5
	c.Supply = &Supply{Feeds: 0, DeadHead: 8e5, FreeAir: free, Curve: []SupplyPoint{{0, free}, {7e5, free}}}
	return c, &Scenario{From: Charging, To: Charging, SupplyRuns: true, Until: 200,
		Volumes: []Condition{{standardAtmosphere, roomTemperature}}, Heat: Isothermal}
}

// reliefCapacity is the mass flow of the relief valve, fully open [kg/s].
func reliefCapacity(c *Circuit, gauge float64) float64 {
	p := &c.Paths[0]
	return p.Flow.MassFlow(c.Gas, c.Ambient.Pressure+gauge, roomTemperature, c.Ambient.Pressure, roomTemperature)
}

// TestReliefBalancesTheSupply: the pressure ends where the lift that the rising
// line gives passes what the supply brings, and never goes above it. The balance
// is computed by hand from the opening law of the relief valve (this project's,
// linear from set to full flow).
func TestReliefBalancesTheSupply(t *testing.T) {
	for _, share := range []float64{0.02, 0.2, 0.6, 0.95} {
		c, sc := supplied(1)
		q := share * reliefCapacity(c, 0.9e5)
		free := q * c.Gas.R * c.Ambient.Temperature / c.Ambient.Pressure
		c.Supply.FreeAir = free
		c.Supply.Curve = []SupplyPoint{{0, free}, {7e5, free}}
		low, high := 0.8e5, 0.9e5
		for range 100 {
			mid := (low + high) / 2
			if (mid-0.8e5)/0.1e5*reliefCapacity(c, mid) < q {
				low = mid
			} else {
				high = mid
			}
		}
		sc.Until = 60 + 3*2e-3/free
		r := new(Sim).Run(c, sc, Options{Samples: 2000})
		require.Empty(t, r.Withheld())
		assert.InDelta(t, low, r.Volumes[0].Pressure-c.Ambient.Pressure, 1, "share %g", share) // 1 Pa: the approach is exponential
		for _, p := range r.Trace.Volumes[0] {
			assert.LessOrEqual(t, p-c.Ambient.Pressure, low+1)
		}
	}
}

// TestReliefReseats: once lifted, a relief valve closes along the lower line: a
// tank above full flow that is shut off vents down to the reseat pressure and
// stays there; one just below the set pressure does not lift at all.
func TestReliefReseats(t *testing.T) {
	c, sc := supplied(1)
	sc.SupplyRuns = false
	sc.Until = 2000
	sc.Volumes[0].Pressure = c.Ambient.Pressure + 0.95e5
	r := new(Sim).Run(c, sc, Options{})
	// The last of the way is slow: the lift falls with the excess, so that the
	// pressure nears reseat as 1/t at first; 0.5 kPa after 2000 s is this tank's.
	assert.InDelta(t, 0.68e5, r.Volumes[0].Pressure-c.Ambient.Pressure, 500)
	assert.GreaterOrEqual(t, r.Volumes[0].Pressure-c.Ambient.Pressure, 0.68e5-1e-6*1e5)
	sc.Volumes[0].Pressure = c.Ambient.Pressure + 0.79e5
	r = new(Sim).Run(c, sc, Options{})
	assert.InDelta(t, 0.79e5, r.Volumes[0].Pressure-c.Ambient.Pressure, 1e-3)
}

// TestReliefClosesAlongItsLowerLine: from set to reseat the lift falls linearly, so the
// time of the fall is V/(R T) times the integral of dp/(lift q), here by Simpson's rule
// over 200 steps (1e-6; the run is good to 1e-8).
func TestReliefClosesAlongItsLowerLine(t *testing.T) {
	c, sc := supplied(1)
	sc.SupplyRuns, sc.Until = false, 20
	sc.Volumes[0].Pressure = c.Ambient.Pressure + 0.95e5
	const from, to, steps = 0.78e5, 0.72e5, 200
	slowness := func(gauge float64) float64 { return 0.12e5 / (gauge - 0.68e5) / reliefCapacity(c, gauge) }
	sum := slowness(from) + slowness(to)
	for i := 1; i < steps; i++ {
		sum += float64(2+2*(i%2)) * slowness(to+(from-to)*float64(i)/steps)
	}
	want := 2e-3 / (c.Gas.R * roomTemperature) * sum * (from - to) / steps / 3
	r := new(Sim).Run(c, sc, Options{Watch: []Watch{{0, c.Ambient.Pressure + from}, {0, c.Ambient.Pressure + to}}})
	assert.InEpsilon(t, want, r.WatchTimes[1]-r.WatchTimes[0], 1e-6)
}

// TestReliefForgetsBetweenRuns: the lift of one run must not reach the next.
func TestReliefForgetsBetweenRuns(t *testing.T) {
	c, sc := supplied(1)
	sc.SupplyRuns, sc.Until = false, 1
	var s Sim
	sc.Volumes[0].Pressure = c.Ambient.Pressure + 0.95e5
	s.Run(c, sc, Options{})
	sc.Volumes[0].Pressure = c.Ambient.Pressure + 0.75e5
	r := s.Run(c, sc, Options{})
	assert.InDelta(t, 0.75e5, r.Volumes[0].Pressure-c.Ambient.Pressure, 1e-3)
}

// TestReliefKeepsItsLiftWhenAValveMoves: a valve earlier in the list that opens
// meanwhile must not make the relief valve forget that it has lifted. The two
// orders of the paths agree to the integrator.
func TestReliefKeepsItsLiftWhenAValveMoves(t *testing.T) {
	run := func(first bool) float64 {
		c, sc := supplied(1)
		sc.SupplyRuns, sc.From, sc.To, sc.Until = false, Off, Firing, 0.2
		sc.Volumes[0].Pressure = c.Ambient.Pressure + 0.95e5
		c.Volumes = append(c.Volumes, Volume{Name: "side", Volume: 1e-5})
		sc.Volumes = append(sc.Volumes, Condition{c.Ambient.Pressure, roomTemperature})
		// From firing to off: shut until the relief has come down between its lines.
		side := Path{Name: "side", From: 0, To: 1, Kind: Valve, Flow: flow.Nozzle(1e-6, 0.6), OpenIn: SetOf(Firing), OpeningTime: 0.1}
		side.Pulse, side.ClosingTime = 0.1, 0.02
		if first {
			c.Paths = []Path{side, c.Paths[0]}
		} else {
			c.Paths = append(c.Paths, side)
		}
		return new(Sim).Run(c, sc, Options{Tolerance: 1e-10}).Volumes[0].Pressure
	}
	assert.InDelta(t, run(false), run(true), 0.01)
}

// TestCheckValve: nothing passes below the cracking pressure or backwards; above
// it the flow leaves just the cracking pressure behind.
func TestCheckValve(t *testing.T) {
	c := vessel(1e-3, flow.Nozzle(1e-5, 0.6))
	c.Volumes = append(c.Volumes, Volume{Name: "second", Volume: 1e-3})
	c.Paths[0] = Path{Name: "check", From: 0, To: 1, Kind: Check, Flow: flow.Nozzle(1e-5, 0.6), CrackingPressure: 5e3}
	run := func(p0, p1 float64) (a, b float64) {
		sc := &Scenario{Volumes: []Condition{{p0, roomTemperature}, {p1, roomTemperature}}, Heat: Isothermal, Until: 600}
		r := new(Sim).Run(c, sc, Options{})
		return r.Volumes[0].Pressure, r.Volumes[1].Pressure
	}
	a, b := run(2e5, 3e5)
	assert.InDelta(t, 2e5, a, 1e-3)
	assert.InDelta(t, 3e5, b, 1e-3)
	a, b = run(2.04e5, 2e5)
	assert.InDelta(t, 0.04e5, a-b, 1e-3)
	a, b = run(3e5, 2e5)
	assert.InDelta(t, 5e3, a-b, 5) // 5 Pa: the disc closes as slowly as the excess goes
	assert.InDelta(t, 5e5, a+b, 0.01)
}

// TestSpringsOpenLinearly: how far a part is open, by hand from this project's opening
// laws (common practice, no source): a check valve from its cracking pressure to a tenth
// of it above, at least 1 kPa; a regulator from its set pressure to its droop below, a
// twentieth of the set pressure where none is stated.
func TestSpringsOpenLinearly(t *testing.T) {
	e := &engine{pa: standardAtmosphere}
	check, regulator := Path{CrackingPressure: 20e3}, Path{SetPressure: 1e5, Droop: 8e3}
	light, plain := Path{CrackingPressure: 4e3}, Path{SetPressure: 1e5}
	for _, k := range []struct {
		kind         PathKind
		part         *Path
		over, behind float64 // pressure difference, gauge pressure behind the part [Pa]
		open         float64
	}{
		{Check, &check, 20e3, 0, 0}, {Check, &check, 20.5e3, 0, 0.25}, {Check, &check, 22e3, 0, 1}, {Check, &check, 30e3, 0, 1},
		{Check, &light, 4.5e3, 1e5, 0.5}, {Check, &light, 5e3, 1e5, 1},
		{Regulator, &regulator, 1e5, 1e5, 0}, {Regulator, &regulator, 1e5, 98e3, 0.25}, {Regulator, &regulator, 1e5, 92e3, 1},
		{Regulator, &plain, 1e5, 99e3, 0.2}, {Regulator, &plain, 1e5, 95e3, 1}, {Regulator, &plain, 1e5, 0, 1},
	} {
		p2 := standardAtmosphere + k.behind
		got := e.springOpening(&activePath{kind: k.kind, src: k.part}, p2+k.over, p2)
		assert.InDelta(t, k.open, got, 1e-12, "%v, %g Pa over, %g Pa behind", k.kind, k.over, k.behind) // rounding
	}
}

// TestRegulator: the outlet rises to the set pressure and no further; full flow
// at the droop below it; nothing flows back.
func TestRegulator(t *testing.T) {
	c := vessel(10e-3, flow.Nozzle(1e-5, 0.6))
	c.Volumes = append(c.Volumes, Volume{Name: "dose", Volume: 1e-3})
	c.Paths[0] = Path{Name: "regulator", From: 0, To: 1, Kind: Regulator, Flow: flow.Nozzle(1e-5, 0.6), SetPressure: 0.5e5, Droop: 0.05e5}
	sc := &Scenario{Volumes: []Condition{{6e5, roomTemperature}, {standardAtmosphere, roomTemperature}}, Heat: Isothermal, Until: 60}
	r := new(Sim).Run(c, sc, Options{Samples: 500})
	assert.InDelta(t, 0.5e5, r.Volumes[1].Pressure-standardAtmosphere, 1)
	for _, p := range r.Trace.Volumes[1] {
		assert.LessOrEqual(t, p, standardAtmosphere+0.5e5+1e-3)
	}
	sc.Volumes = []Condition{{standardAtmosphere, roomTemperature}, {standardAtmosphere + 0.3e5, roomTemperature}}
	r = new(Sim).Run(c, sc, Options{})
	assert.InDelta(t, standardAtmosphere+0.3e5, r.Volumes[1].Pressure, 1e-3)
	// Below the droop the flow is that of the open part: first instant, by hand.
	sc.Volumes = []Condition{{6e5, roomTemperature}, {standardAtmosphere, roomTemperature}}
	sc.Until = 1e-4
	r = new(Sim).Run(c, sc, Options{})
	q := c.Paths[0].Flow.MassFlow(c.Gas, 6e5, roomTemperature, standardAtmosphere, roomTemperature)
	assert.InEpsilon(t, q*1e-4*c.Gas.R*roomTemperature/1e-3, r.Volumes[1].Pressure-standardAtmosphere, 1e-4)
	// Creep, a fault: stuck open it goes to the inlet pressure.
	sc.Until, sc.Stuck = 60, []Stuck{{Path: 0, Opening: 0.1}}
	r = new(Sim).Run(c, sc, Options{})
	assert.InDelta(t, r.Volumes[0].Pressure, r.Volumes[1].Pressure, 1)
}

// TestSwitchStopsAndStartsTheSupply: the pressure stays between cut-in and
// cut-out (no event is missed: 1 Pa) while a leak takes air.
func TestSwitchStopsAndStartsTheSupply(t *testing.T) {
	c := vessel(2e-3, flow.Nozzle(discArea(0.8e-3), 0.6))
	c.Supply = &Supply{Feeds: 0, DeadHead: 4e5, FreeAir: 20 * litrePerMinute}
	sc := &Scenario{From: Charging, To: Charging, SupplyRuns: true, Heat: Isothermal, Until: 120,
		Switch:  &SwitchLogic{Senses: 0, CutOut: 0.4e5, CutIn: 0.3e5},
		Volumes: []Condition{{standardAtmosphere, roomTemperature}}}
	r := new(Sim).Run(c, sc, Options{Samples: 4000})
	require.Empty(t, r.Withheld())
	high, low, reached, turns, rising := 0.0, math.Inf(1), false, 0, true
	for i, p := range r.Trace.Volumes[0] {
		gauge := p - standardAtmosphere
		high = max(high, gauge)
		if reached = reached || gauge > 0.39e5; reached {
			low = min(low, gauge)
		}
		if i > 0 && (p > r.Trace.Volumes[0][i-1]) != rising {
			rising, turns = !rising, turns+1
		}
	}
	assert.Greater(t, turns, 4)
	assert.LessOrEqual(t, high, 0.4e5+1)
	assert.GreaterOrEqual(t, low, 0.3e5-1)
	// Stopped at the start and above cut-in: nothing is delivered.
	sc.Switch.Stopped = true
	sc.Volumes[0].Pressure, sc.Until = standardAtmosphere+0.38e5, 0.2
	assert.Zero(t, new(Sim).Run(c, sc, Options{}).SupplyMass)
}

// TestSupplyCurve: linear to the dead head without a curve, linear between the
// points with one, nothing at or above the dead head, no more than at zero gauge
// below ambient.
func TestSupplyCurve(t *testing.T) {
	s := &Supply{DeadHead: 4e5, FreeAir: 2}
	for gauge, want := range map[float64]float64{-1e4: 2, 0: 2, 1e5: 1.5, 4e5: 0, 5e5: 0} {
		assert.InDelta(t, want, s.Delivery(gauge), 1e-12)
	}
	s = &Supply{DeadHead: 4e5, Curve: []SupplyPoint{{0, 2}, {1e5, 1.8}, {3e5, 1}}}
	for gauge, want := range map[float64]float64{-1e4: 2, 0: 2, 0.5e5: 1.9, 2e5: 1.4, 3.5e5: 0.5, 4e5: 0} {
		assert.InDelta(t, want, s.Delivery(gauge), 1e-12)
	}
	s.Curve = []SupplyPoint{{1e5, 1.8}, {3e5, 1}}
	assert.InDelta(t, 1.8, s.Delivery(0), 1e-12)
	assert.Zero(t, (&Supply{FreeAir: 2}).Delivery(0), "no dead head, no delivery")
	assert.False(t, math.IsNaN((&Supply{FreeAir: 2}).Delivery(-1e3)))
}

// TestASupplyInFullFlowHoldsItsDeadHead: a supply whose curve does not fall, as that of a regulator that has failed open, holds what it
// feeds at its dead head, within the ten-thousandth over which it shuts. With a step there this took 200,000 steps to
// and fro.
func TestASupplyInFullFlowHoldsItsDeadHead(t *testing.T) {
	const dead, free = 2e5, 5e-3
	s := &Supply{DeadHead: dead, Curve: []SupplyPoint{{0, free}, {dead, free}}}
	for gauge, want := range map[float64]float64{0: free, 0.9998 * dead: free, 0.99995 * dead: free / 2, dead: 0} {
		assert.InDelta(t, want, s.Delivery(gauge), 1e-9*free, "%g", gauge)
	}
	c := vessel(2e-4, flow.Nozzle(discArea(2e-3), 0.7)) // passes some 1.6 L/s of free air
	c.Supply = s
	sc := &Scenario{From: Charging, To: Charging, SupplyRuns: true, Until: 20, Volumes: []Condition{{standardAtmosphere, roomTemperature}}}
	r := new(Sim).Run(c, sc, Options{Samples: 2})
	require.Empty(t, r.Withheld())
	assert.InDelta(t, dead, r.Volumes[0].Pressure-standardAtmosphere, 1e-4*dead)
	assert.Less(t, r.Steps+r.Rejected, 2000)
}

// TestIsothermalStartsAtTheWall: isothermal gas is at the walls' temperature from
// the start, whatever the condition says; its pressure is the one given. (Gas left
// at another temperature once ran out of mass before it ran out of pressure.)
func TestIsothermalStartsAtTheWall(t *testing.T) {
	c := vessel(1e-3, flow.Nozzle(1e-6, 0.6))
	sc := &Scenario{Heat: Isothermal, WallTemperature: 263, Until: 600, Volumes: []Condition{{8e5, 330}}}
	r := new(Sim).Run(c, sc, Options{Samples: 3})
	require.Empty(t, r.Withheld())
	assert.InEpsilon(t, 8e5, r.Trace.Volumes[0][0], 1e-12)
	assert.InEpsilon(t, 263, r.Trace.Temperatures[0][0], 1e-12)
	assert.InEpsilon(t, standardAtmosphere, r.Volumes[0].Pressure, 1e-6)
	assert.InEpsilon(t, 263, r.Volumes[0].Temperature, 1e-9)
}
