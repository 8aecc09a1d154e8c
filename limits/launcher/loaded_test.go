package launcher

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics"
)

// A ball of 4.4 g at most at 30 degrees below level is pulled with m g/2 = 0.02157 N;
// friction that may be less lets it go, level or uphill nothing does.
func TestABallRollsOutOfABarrelThatPointsDown(t *testing.T) {
	l := &Launcher{Projectile: ProjectileSpec{Mass: Band{Set: true, Nominal: 4e-3, Low: 4e-3, High: 4.4e-3},
		Breakaway: Band{Set: true, Nominal: 0.1, Low: 0.02, High: 0.2}}}
	for _, c := range []struct {
		degrees, hold, pull float64
		rolls               bool
	}{
		{-30, 0.02, 0.0215746, true},
		{-30, 0.03, 0.0215746, false},
		{0, 0, 0, false},
		{45, 0, -0.0305111, false},
	} {
		l.Mount.ElevationMin = Exact("", c.degrees*math.Pi/180)
		l.Projectile.Breakaway.Low = c.hold
		pull, hold, rolls := l.RollsOut()
		assert.InDelta(t, c.pull, pull, 1e-7, "as many digits as were computed by hand")
		assert.Equal(t, c.hold, hold)
		assert.Equal(t, c.rolls, rolls, "%g degrees", c.degrees)
	}
	// With a gap all round nothing holds it, whatever is stated; where the gap may be none, the force may be there.
	l.Mount.ElevationMin, l.Projectile.Breakaway.Low = Exact("", -0.1), 0.3
	_, _, rolls := l.RollsOut()
	assert.False(t, rolls)
	l.Barrel.Bore, l.Projectile.Diameter = Exact("", 41e-3), Band{Set: true, Nominal: 40e-3, Low: 39e-3, High: 41e-3}
	_, _, rolls = l.RollsOut()
	assert.False(t, rolls)
	l.Projectile.Diameter.High = 40.5e-3
	_, _, rolls = l.RollsOut()
	assert.True(t, rolls)
	l.Projectile.Clearance = Band{Set: true, High: 1e-3}
	assert.False(t, l.Loose(), "a stated clearance goes before the diameters")
}

// What leads air into the barrel: not a bleed out of it, not air that it draws in.
func TestPathsIntoTheBarrel(t *testing.T) {
	l := &Launcher{Paths: []PathSpec{
		{From: "tank", To: "barrel", Kind: pneumatics.Valve},
		{From: "barrel", To: "atmosphere", Kind: pneumatics.Orifice},
		{From: "atmosphere", To: "barrel", Kind: pneumatics.Check},
		{From: "barrel", To: "tank", Kind: pneumatics.Check},
		{From: "barrel", To: "tank", Kind: pneumatics.Hose},
		{From: "tank", To: "dose", Kind: pneumatics.Valve},
	}}
	assert.Equal(t, []int{0, 4}, l.IntoBarrel())
}
