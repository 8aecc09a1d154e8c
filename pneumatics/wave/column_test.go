package wave

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/sound"
)

// The air ahead in a bore as plane waves with Levine and Schwinger's end (package sound)
// against gas dynamics with an end that loses nothing: the mass flow out of the muzzle, from which the sound
// of a compact source follows. 3 % of the highest speed: the mesh, the nonlinearity of 17 m/s against
// 343, and the sound that the one radiates in three journeys of a wave.
func TestTheColumnIsACompactSource(t *testing.T) {
	const bore, travel, mass, tank, until = 0.041, 0.4, 0.012, 2e-3, 0.011
	area := math.Pi * bore * bore / 4
	c := &pneumatics.Circuit{Gas: flow.Air(), Ambient: pneumatics.Ambient{Pressure: 101325, Temperature: 293.15},
		Volumes: []pneumatics.Volume{{Name: "tank", Volume: tank}},
		Barrel: pneumatics.Barrel{Present: true, Area: area, ExitArea: area, LeakCd: 0.6, DeadVolume: 40e-6, Travel: travel, Mass: mass,
			JetFactor: 1},
		Paths: []pneumatics.Path{{Name: "fire", From: 0, To: pneumatics.BarrelNode, Kind: pneumatics.Valve,
			Flow: flow.SonicConductance(1.5e-7, 0.35), OpenIn: pneumatics.SetOf(pneumatics.Firing), OpeningTime: 4e-3}}}
	sc := &pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing,
		Volumes: []pneumatics.Condition{{Pressure: 101325 + 0.6e5, Temperature: 293.15}}}
	var r runner
	require.NoError(t, r.build(c, sc, Options{Cells: 200}))
	require.True(t, r.conditions())
	m := sound.Motion{Time: []float64{0}, Position: []float64{0}, Speed: []float64{0}}
	flows := []float64{0}
	for r.time < until {
		r.adapt()
		require.True(t, r.step(r.nextStep()))
		a := r.shot.ahead
		m.Time, m.Position, m.Speed = append(m.Time, r.time), append(m.Position, r.shot.x), append(m.Speed, r.shot.v)
		flows = append(flows, a.rho[a.n-1]*a.u[a.n-1]*area) // in the last cell before the open end
	}
	rho := c.Gas.Density(101325, 293.15)
	air := sound.Air{Density: rho, Speed: c.Gas.SoundSpeed(293.15)}
	p := sound.Column{Air: air, Radius: bore / 2, Length: travel, Mouth: sound.Unflanged(), Motion: m}.Pulse()
	at, sum, most, worst := 0, 0.0, 0.0, 0.0
	for i, v := range p.Source {
		sum += v * p.Step
		for at < len(m.Time)-1 && m.Time[at] < float64(i)*p.Step {
			at++
		}
		most, worst = max(most, flows[at]), max(worst, math.Abs(sum-flows[at]))
	}
	assert.Greater(t, most, 1.1*rho*area*slices.Max(m.Speed), "the waves are there: it is no stiff column")
	assert.Less(t, worst, 0.03*most)

}
