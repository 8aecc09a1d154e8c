package pneumatics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// behindJam is a vessel of 1 L, a valve that opens at once, a line after it or none, and a
// barrel of so much dead volume whose projectile is jammed at the rear.
func behindJam(gauge, dead float64, pieces ...line.Piece) (*Circuit, *Scenario) {
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature}, Volumes: []Volume{{Volume: 1e-3}},
		Barrel: Barrel{Present: true, Area: discArea(0.03), ExitArea: discArea(0.03), DeadVolume: dead, Travel: 0.2, Mass: 5e-3, Breakaway: 0.1},
		Paths: []Path{{From: 0, To: BarrelNode, Kind: Valve, Flow: flow.Nozzle(discArea(0.025), 1), OpenIn: SetOf(Firing),
			After: pieces}}}
	return c, &Scenario{From: Armed, To: Firing, Jammed: true, Volumes: []Condition{{standardAtmosphere + gauge, roomTemperature}}}
}

// Without a line the pressure behind a jammed projectile rises to that of both volumes
// joined: internal energy is kept, so p = (p1 V1 + p2 V2)/(V1 + V2) (first law, ideal gas;
// settled is how near the run follows it).
func TestJamWithoutALine(t *testing.T) {
	for _, gauge := range []float64{2e3, 0.5e5, 5e5} {
		const dead = 2e-4
		c, sc := behindJam(gauge, dead)
		r := new(Sim).Run(c, sc, Options{})
		require.Empty(t, r.Withheld())
		assert.Equal(t, Stalled, r.Outcome)
		assert.Zero(t, r.Position)
		assert.InEpsilon(t, gauge*1e-3/(1e-3+dead), r.BarrelPeak-standardAtmosphere, 2*settled, "%g Pa", gauge)
	}
}

// A small step of pressure doubles at the closed end of a wide line, and no step more
// than doubles there (reflection of sound at a closed end, any text on acoustics). 15 % are
// allowed: the cells ring behind the edge of a front, friction and a valve's loss take
// some of it. A jammed projectile in a leaking barrel ends its run as well.
func TestJamBehindALine(t *testing.T) {
	peak := func(gauge, leak float64, l line.Piece) float64 {
		c, sc := behindJam(gauge, 1e-6, l)
		c.Barrel.LeakArea, c.Barrel.LeakCd = leak, 0.6
		r := new(Sim).Run(c, sc, Options{})
		require.Empty(t, r.Withheld())
		require.Equal(t, Stalled, r.Outcome, "after %g s", r.Time)
		return (r.BarrelPeak - standardAtmosphere) / gauge
	}
	assert.InDelta(t, 2, peak(1e3, 0, line.Piece{Bore: 8e-3, Length: 0.5}), 0.3)
	for _, gauge := range []float64{1e3, 0.2e5, 1e5, 4e5} {
		for _, length := range []float64{0.3, 1.2, 5} {
			tight, leaking := peak(gauge, 0, line.Piece{Bore: 8e-3, Length: length}), peak(gauge, 1e-6, line.Piece{Bore: 8e-3, Length: length})
			assert.LessOrEqual(t, tight, 2.3, "%g Pa, %g m", gauge, length)
			assert.Greater(t, tight, 1e-3/(1e-3+math.Pi/4*64e-6*length), "%g Pa, %g m: more than all of it joined", gauge, length)
			assert.Less(t, leaking, tight)
		}
	}
}

// What a stuck projectile can gain is told once the paths stand still: a feed that is open as it fires and shuts in 0.2 s
// passes 0.6 mL of a tank's air in that time (0.1 s of it open on the mean, C = 1e-11 m3/(s Pa) at 6 bar: ISO 6358-1), and
// the tank's pressure counts no more.
func TestStuckWhileAFeedShuts(t *testing.T) {
	freed := func(tank float64) float64 {
		c, sc := behindJam(1.5e5, 2e-4)
		c.Volumes = append(c.Volumes, Volume{Volume: 10e-3})
		c.Paths = append(c.Paths, Path{From: 1, To: 0, Kind: Valve, Flow: flow.SonicConductance(1e-11, 0.5), OpenIn: SetOf(Charging),
			ClosingTime: 0.2})
		c.Barrel.Breakaway, sc.Jammed, sc.From = 1e4, false, Charging
		sc.Volumes = append(sc.Volumes, Condition{tank, roomTemperature})
		r := new(Sim).Run(c, sc, Options{})
		require.Equal(t, Stalled, r.Outcome)
		return r.Freed
	}
	assert.InEpsilon(t, freed(2.5e5), freed(6e5), 1e-3, "0.6 mL of 3 L of free air")
}
