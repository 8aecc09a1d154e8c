package pneumatics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fedBall is the sticky ball on a small tank at ambient pressure, fed at a constant
// rate [m3/s of free air] up to a dead head that is a share of the pressure it takes to
// move the ball, 20 N over its section.
func fedBall(free, share float64) (*Circuit, *Scenario) {
	c, sc := stickyBall(1.1, 20)
	c.Volumes[0].Volume = 0.3e-3
	dead := share * 20 / c.Barrel.Area
	c.Supply = &Supply{Feeds: 0, DeadHead: dead, FreeAir: free, Curve: []SupplyPoint{{0, free}, {dead, free}}}
	sc.Volumes = []Condition{{c.Ambient.Pressure, c.Ambient.Temperature}}
	sc.SupplyRuns = true
	return c, &sc
}

// TestASupplyThatCanMoveItIsWaitedFor: with a dead head of 2 % more than it takes the
// ball goes in the end, with 2 % less it never does.
func TestASupplyThatCanMoveItIsWaitedFor(t *testing.T) {
	c, sc := fedBall(12*litrePerMinute, 1.02)
	assert.Equal(t, Left, new(Sim).Run(c, sc, Options{}).Outcome)
	c, sc = fedBall(12*litrePerMinute, 0.98)
	assert.Equal(t, Stalled, new(Sim).Run(c, sc, Options{}).Outcome)
}

// TestASlowSupplyIsNoStall: at the end of its time a projectile at rest is stalled only
// where the pressures need more than a day for their own size (1e-5 per second). The
// supply changes them by its free air over the volume: 1e-3 and 1e-6 per second.
func TestASlowSupplyIsNoStall(t *testing.T) {
	for rate, want := range map[float64]Outcome{1e-3: TimeRanOut, 1e-6: Stalled} {
		c, sc := fedBall(rate*0.3e-3, 2)
		sc.Until = 1
		assert.Equal(t, want, new(Sim).Run(c, sc, Options{}).Outcome, "%g per second", rate)
	}
}

// TestFreedCountsASecondOfSupply: what a projectile that is cut off on its way may still
// get is the ceiling of its end state with one second of the supply's air, and the motion
// it has. One at rest waits for what the supply can push: (p - pa) A on its way and ten
// bores beyond.
func TestFreedCountsASecondOfSupply(t *testing.T) {
	c, sc := fedBall(12*litrePerMinute, 10)
	sc.Until = 0.01
	r := new(Sim).Run(c, sc, Options{})
	require.Equal(t, TimeRanOut, r.Outcome)
	require.Zero(t, r.Speed)
	b := &c.Barrel
	assert.InEpsilon(t, c.Supply.DeadHead*b.Area*(b.Travel+20*math.Sqrt(b.Area/math.Pi)), r.Freed, 1e-9)

	sc.Volumes[0].Pressure += 1.5 * 20 / b.Area
	r = new(Sim).Run(c, sc, Options{})
	require.Equal(t, TimeRanOut, r.Outcome)
	require.Positive(t, r.Speed)
	require.True(t, r.Fed)
	end := *sc
	end.Volumes, end.Barrel, end.Seat = r.Volumes, r.Barrel, r.Position
	second := 12 * litrePerMinute * c.Ambient.Pressure / (c.Gas.R * c.Ambient.Temperature)
	want := new(Sim).Ceiling(c, &end, second).Final
	assert.InEpsilon(t, want, r.Freed, 1e-3) // less the motion, which has only begun
	assert.Greater(t, r.Freed, 2*new(Sim).Ceiling(c, &end, 0).Final, "the supply counts")
}
