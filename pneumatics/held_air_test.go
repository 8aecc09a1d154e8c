package pneumatics

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/flow"
)

// bouncer is an invented ball without friction in an upright barrel whose bleed lets it sink, on a dose behind a check valve.
func bouncer(over, cracking float64) (*Circuit, *Scenario) {
	area := discArea(0.041)
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature},
		Volumes: []Volume{{Name: "dose", Volume: 1e-3}},
		Barrel: Barrel{Present: true, Area: area, ExitArea: area, LeakCd: 0.6, DeadVolume: 4.5e-5, Travel: 0.063, SinPitch: 0.9, Mass: 4e-3,
			JetFactor: 1},
		Paths: []Path{
			{Name: "fire", From: 0, To: BarrelNode, Kind: Check, Flow: flow.SonicConductance(1e-7, 0.5), CrackingPressure: cracking},
			{Name: "bleed", From: BarrelNode, To: Atmosphere, Kind: Orifice, Flow: flow.Nozzle(7.9e-7, 0.75)}}}
	return c, &Scenario{From: Armed, To: Firing, Seat: 0.05, Until: 120,
		Volumes: []Condition{{standardAtmosphere + over, roomTemperature}}}
}

// TestAirBehindACheckValveEndsItsHops: what a check valve holds back never gets to a ball that its own air throws to and fro. Counted as
// what may still come, it had its bounces followed, and was taken for the shot's energy. Of air above the cracking pressure only what is
// above it counts, and the shot that it makes is the same.
func TestAirBehindACheckValveEndsItsHops(t *testing.T) {
	o := Options{Tolerance: 1e-5, NoPeak: true, OnlyLeaving: true, MaxSteps: 1000, Onward: 200000, Leap: true}
	for _, over := range []float64{29e3, 30e3} {
		c, sc := bouncer(over, 30e3)
		r := new(Sim).Run(c, sc, o)
		assert.True(t, r.Idle || r.Outcome == Stalled, "%v", r.Outcome)
		assert.LessOrEqual(t, r.Rests, 1)
		assert.Less(t, r.Freed, idleEnergy)
		assert.InEpsilon(t, standardAtmosphere+over, r.Volumes[0].Pressure, 1e-9, "it stays where it is")
	}
	c, sc := bouncer(33e3, 30e3) // eighty times what bears the ball
	r := new(Sim).Run(c, sc, o)
	whole := new(Sim).Run(c, sc, Options{Tolerance: 1e-5, NoPeak: true})
	assert.Equal(t, Left, r.Outcome)
	assert.InEpsilon(t, whole.FinalEnergy, r.FinalEnergy, 1e-9, "the same steps")

	// Who asks what a stuck ball may gain counts all of that air still: a check valve may leak while it waits.
	o.OnlyLeaving = false
	c.Barrel.Breakaway, c.Barrel.Sliding, sc.Volumes[0].Pressure = 5, 4, standardAtmosphere+29e3
	assert.Greater(t, new(Sim).Run(c, sc, o).Freed, 0.1)
}
