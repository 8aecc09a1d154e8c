package sound

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// ramp is a motion of constant acceleration from a rest, over a way.
func ramp(acceleration, way float64) Motion {
	var m Motion
	end := math.Sqrt(2 * way / acceleration)
	for i := range 2001 {
		t := end * float64(i) / 2000
		m.Time, m.Position, m.Speed = append(m.Time, t), append(m.Position, acceleration*t*t/2), append(m.Speed, acceleration*t)
	}
	return m
}

// A column that begins to move at once with a constant acceleration, before it has shortened: a wave reaches the
// mouth at l/c, and from there on its mass flow rises twice as fast as a stiff column's, until the
// wave that the mouth sent back has been to the projectile: then not at all (open end -1,
// projectile +1). 4 %: what the mouth radiates, and that it follows within 0.6 a/c.
func TestTheColumnRisesTwiceAsFast(t *testing.T) {
	const length, acceleration = 1.0, 50.0
	c := Column{Air: still(), Radius: 0.01, Length: length, Mouth: Unflanged(), Motion: ramp(acceleration, 0.05)}
	flow := flows(c.Pulse())
	step := c.Pulse().Step
	at := func(journeys float64) float64 { return flow[int(journeys*length/343/step)] }
	stiff := Stiff(still(), math.Pi*1e-4, acceleration) * length / 343 // in one journey of the wave
	assert.InDelta(t, 0, at(0.98), 1e-12)
	assert.InDelta(t, 2*stiff*1.5, at(2.5)-at(1.0), 0.06*2*stiff)
	assert.InDelta(t, 0, at(4.9)-at(3.1), 0.10*2*stiff)
	assert.InDelta(t, 2*stiff*1.5, at(6.7)-at(5.2), 0.12*2*stiff)
}

// In the open nothing rings: rho A dv/dt.
func TestDisplaced(t *testing.T) {
	plain, _ := Displaced(still(), 3e-4, ramp(200, 0.1)).Peak()
	assert.InEpsilon(t, 1.2*3e-4*200, plain, 1e-6)
	assert.InDelta(t, 98.0, ShockDistance(still(), 1000), 0.1, "2 343^2/(2.4 1000), by hand")
}
