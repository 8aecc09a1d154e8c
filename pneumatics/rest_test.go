package pneumatics

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/flow"
)

// A small volume and a barrel, joined by a wide bore, at the pressure of the air around them: they stay at it, whatever a pinhole lets
// through. A step far too long for how quickly the two level throws them off by rounding, and the next finds them back: an hour of it took
// 115,000 steps of hundredths of a second and was not finished. The figures are invented.
func TestWhatStandsLevelTakesFewSteps(t *testing.T) {
	const pa, ta = 98300, 283.15
	c := &Circuit{
		Gas:     flow.Air(),
		Ambient: Ambient{Pressure: pa, Temperature: ta},
		Volumes: []Volume{{Name: "tank", Volume: 2.04e-3, InnerDiameter: 0.0947}, {Name: "mid", Volume: 22e-6, InnerDiameter: 0.0204}},
		Barrel: Barrel{Present: true, Area: 1.3074e-3, ExitArea: 1.3074e-3, DeadVolume: 40e-6, Travel: 0.06, SinPitch: 0.956, Mass: 0.004,
			Breakaway: 1e9, Sliding: 0.2, JetFactor: 1},
		Paths: []Path{
			{Name: "elbow", From: 1, To: BarrelNode, Flow: flow.Nozzle(6.56e-5, 1)},
			{Name: "pin", From: 1, To: Atmosphere, Flow: flow.Nozzle(1.527e-8, 1)},
			{Name: "bleed", From: BarrelNode, To: Atmosphere, Flow: flow.Nozzle(3.817e-7, 1)},
		},
	}
	for _, coefficient := range []float64{8, 16} {
		sc := &Scenario{From: Armed, To: Loading, Volumes: []Condition{{203300, ta}, {pa, ta}}, Heat: Transfer, Coefficient: coefficient,
			Until: 3600}
		r := new(Sim).Run(c, sc, Options{Tolerance: 1e-6, Settle: true})
		assert.Equal(t, Ended, r.Outcome)
		assert.Less(t, r.Steps, 1000)
		assert.InDelta(t, pa, r.Volumes[1].Pressure, 1, "rounding alone moves it")
	}
}

// Without friction a ball that does not leave bounces on until the gas has nothing left, and never stays: who asks what stays has his
// answer where it first stops. With friction the same run goes on to its rest.
func TestTheFirstTurn(t *testing.T) {
	run := func(friction float64, first bool) (outcome Outcome, rests, work int) {
		c := &Circuit{
			Gas:     flow.Air(),
			Ambient: Ambient{Pressure: 101325, Temperature: 293.15},
			Volumes: []Volume{{Name: "dose", Volume: 0.1e-3, InnerDiameter: 0.05}},
			Barrel: Barrel{Present: true, Area: 1.3e-3, ExitArea: 1.3e-3, DeadVolume: 40e-6, Travel: 0.6, SinPitch: 0.1, Mass: 0.02,
				Breakaway: friction, Sliding: friction, JetFactor: 1},
			Paths: []Path{{Name: "fire", From: 0, To: BarrelNode, Kind: Valve, Flow: flow.Nozzle(5e-5, 1), OpenIn: SetOf(Firing),
				OpeningTime: 0.02}},
		}
		sc := &Scenario{From: Armed, To: Firing, Volumes: []Condition{{121325, 293.15}}, Until: 120}
		r := new(Sim).Run(c, sc, Options{Tolerance: 1e-5, NoPeak: true, FirstTurn: first})
		return r.Outcome, r.Rests, r.Evaluations
	}
	outcome, rests, all := run(0, false)
	assert.Equal(t, TimeRanOut, outcome)
	assert.Greater(t, rests, 5)
	outcome, rests, some := run(0, true)
	assert.Equal(t, TimeRanOut, outcome)
	assert.Zero(t, rests)
	assert.Less(t, some, all/5)

	for _, first := range []bool{false, true} {
		outcome, _, work := run(2, first)
		assert.Equal(t, Stalled, outcome)
		_, _, same := run(2, false)
		assert.Equal(t, same, work)
	}
}

// A hundred bounces without friction exchange a hundred times what a shot does, and the balance is out by that much more. The result is
// the bound on what may still come: against that the balance closes in the first run, and no finer one tells another bound (they agree to
// 1e-5; each takes five times the steps).
func TestABoundIsNotComputedAgain(t *testing.T) {
	c := &Circuit{
		Gas:     flow.Air(),
		Ambient: Ambient{Pressure: 101325, Temperature: 293.15},
		Volumes: []Volume{{Name: "dose", Volume: 0.06e-3, InnerDiameter: 0.04}},
		Barrel: Barrel{Present: true, Area: 1.14e-3, ExitArea: 1.14e-3, LeakArea: 1e-7, LeakCd: 0.6, DeadVolume: 20e-6,
			Travel: 0.3, Mass: 0.004, JetFactor: 1},
		Paths: []Path{{Name: "fire", From: 0, To: BarrelNode, Kind: Valve, Flow: flow.Nozzle(4e-4, 1), OpenIn: SetOf(Firing),
			OpeningTime: 0.01}},
	}
	sc := &Scenario{From: Armed, To: Firing, Volumes: []Condition{{301325, 293.15}}, Until: 120}
	bound := func(tolerance float64) (freed float64, steps int) {
		r := new(Sim).Run(c, sc, Options{Tolerance: tolerance, NoPeak: true, OnlyLeaving: true})
		assert.Equal(t, TimeRanOut, r.Outcome)
		return r.Freed, r.Steps
	}
	finest, _ := bound(1e-9)
	first, _ := bound(DefaultTolerance)
	own, steps := bound(0)
	_, once := bound(DefaultTolerance)
	assert.InEpsilon(t, finest, first, 1e-5)
	assert.Equal(t, first, own)
	assert.Equal(t, once, steps)
	assert.Greater(t, first, 0.1)
}
