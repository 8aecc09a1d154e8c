package pneumatics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// TestPushAfterMuzzleKeepsTheBook: with the push after the muzzle on, the final
// energy is at least the muzzle's, the account still closes (1e-9 J of it at a
// tight tolerance), and what the jet gave is in it.
func TestPushAfterMuzzleKeepsTheBook(t *testing.T) {
	for _, fit := range []Fit{InBore, OverTube} {
		for _, factor := range []float64{1, 2} {
			for _, k := range referenceShots() {
				c, sc := k.circuit()
				sc.Parts = Parts{}
				c.Barrel.Fit, c.Barrel.JetFactor = fit, factor
				if fit == OverTube {
					c.Barrel.ExitArea = 0.66 * c.Barrel.Area
				}
				r := new(Sim).Run(c, sc, Options{Tolerance: 1e-11})
				require.Equal(t, Left, r.Outcome)
				require.Empty(t, r.Withheld())
				assert.GreaterOrEqual(t, r.FinalEnergy, r.MuzzleEnergy)
				assert.Less(t, math.Abs(r.EnergyImbalance), 1e-9*contents(c, sc))
				assert.GreaterOrEqual(t, r.Account.JetWork, 0.0)
				d := 2 * math.Sqrt(c.Barrel.Area/math.Pi)
				assert.LessOrEqual(t, r.Position, c.Barrel.Travel+10*d*(1+1e-12), "the push ends 10 diameters out at the latest")
			}
		}
	}
}

// TestCupTakesMoreThanAFlat: rocket 8 g, inside 16 mm, tube bore 13 mm, 150 mm,
// 0.3 bar, Cv 2.5: 0.789169 J at the end of the tube (testdata/reference/objects.csv,
// rocket: SciPy). A cup turns the jet back and takes more of it. How much the jet
// gives has no published source: the bounds on it are found by running.
func TestCupTakesMoreThanAFlat(t *testing.T) {
	gain := func(factor float64) (muzzle, gained float64) {
		c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature},
			Volumes: []Volume{{Volume: 2e-3}},
			Paths: []Path{{From: 0, To: BarrelNode, Kind: Valve, OpenIn: SetOf(Firing), OpeningTime: 0.015,
				Flow: flow.SonicConductance(2.5*3.89e-8, 0.35)}},
			Barrel: Barrel{Present: true, Fit: OverTube, Area: discArea(16e-3), ExitArea: discArea(13e-3),
				DeadVolume: 40e-6, Travel: 0.15, Mass: 8e-3, JetFactor: factor}}
		sc := &Scenario{From: Armed, To: Firing, Volumes: []Condition{{standardAtmosphere + 0.3e5, roomTemperature}}}
		r := new(Sim).Run(c, sc, Options{})
		require.Equal(t, Left, r.Outcome)
		return r.MuzzleEnergy, r.FinalEnergy - r.MuzzleEnergy
	}
	muzzle, flat := gain(1)
	_, cup := gain(2)
	t.Logf("muzzle %.3f J, gain flat %.3f J, cup %.3f J", muzzle, flat, cup)
	assert.InEpsilon(t, 0.789169306778, muzzle, 1e-6) // ten times the default tolerance of a run
	assert.Greater(t, cup, 1.1*flat)
	assert.Greater(t, flat, 0.02)
	assert.Less(t, cup, 0.25)
}

// TestEscapePastTheMuzzle: behind a projectile that is an eighth of a diameter out the
// air escapes through pi d d/8 with a discharge coefficient of 0.6 (from memory), one
// that is far out lets it through the whole bore; below ambient it comes in.
func TestEscapePastTheMuzzle(t *testing.T) {
	c, sc := referenceShots()[0].circuit()
	sc.Parts = Parts{}
	var e engine
	e.compile(c, sc, Options{})
	const d = 0.05
	escape := func(p, out float64) float64 {
		e.p[e.bar], e.temp[e.bar], e.w[e.bar] = p, 280, p/math.Sqrt(280)
		return e.escapeFlow(c.Barrel.Travel + out)
	}
	ring, bore := flow.Nozzle(discArea(d)/2, 0.6), flow.Nozzle(discArea(d), 0.6)
	pa, ta := c.Ambient.Pressure, c.Ambient.Temperature
	assert.InEpsilon(t, ring.MassFlow(c.Gas, 2e5, 280, pa, ta), escape(2e5, d/8), 1e-12)
	assert.InEpsilon(t, bore.MassFlow(c.Gas, 1.2e5, 280, pa, ta), escape(1.2e5, d), 1e-12)
	assert.InEpsilon(t, -ring.MassFlow(c.Gas, pa, ta, 0.8e5, 280), escape(0.8e5, d/8), 1e-12)
	assert.Zero(t, escape(2e5, 0), "no gap, nothing open yet")
}

// TestNoProjectileIsAnOpenBarrel: with nothing loaded the fire valve vents the
// tank to the atmosphere as an outlet of the same flow would. Same equations.
func TestNoProjectileIsAnOpenBarrel(t *testing.T) {
	c, sc := referenceShots()[0].circuit()
	sc.NoProjectile, sc.Until = true, 0.02
	open := new(Sim).Run(c, sc, Options{}).Clone()
	c.Paths[0].To = Atmosphere
	direct := new(Sim).Run(c, sc, Options{})
	require.Equal(t, Ended, open.Outcome)
	assert.Equal(t, direct.Volumes, open.Volumes)
}

// TestSettlingGoesOnAfterTheShot: with Settle the run goes on, the barrel is open
// and the tank empties through it; the shot's own figures stay.
func TestSettlingGoesOnAfterTheShot(t *testing.T) {
	c, sc := referenceShots()[1].circuit()
	sc.Parts = Parts{}
	shot := new(Sim).Run(c, sc, Options{}).Clone()
	sc.Until = 30
	r := new(Sim).Run(c, sc, Options{Settle: true, Watch: []Watch{{0, 1.1 * standardAtmosphere}}})
	require.Equal(t, Left, r.Outcome)
	require.Empty(t, r.Withheld())
	assert.Equal(t, shot.MuzzleEnergy, r.MuzzleEnergy)
	assert.Equal(t, shot.FinalEnergy, r.FinalEnergy)
	assert.Greater(t, r.WatchTimes[0], shot.Time)
	assert.InEpsilon(t, standardAtmosphere, r.Volumes[0].Pressure, 1e-6)
}

// TestLagrangeInertia: the account names the gas's share G v^2/6 at the muzzle,
// and behind a tank that keeps its pressure the shot with it is slower, the more
// so the lighter the projectile. (Behind a narrow valve it may shoot harder: the
// slower start lets more air in.)
func TestLagrangeInertia(t *testing.T) {
	last := 0.0
	for _, mass := range []float64{0.2, 0.05, 0.01} {
		c, sc := referenceShots()[0].circuit()
		c.Volumes[0].Volume, c.Paths[0].Flow, c.Barrel.Mass = 1, flow.SonicConductance(1e-5, 0.3), mass
		bare := new(Sim).Run(c, sc, Options{}).MuzzleEnergy
		sc.Parts.NoGasInertia = false
		r := new(Sim).Run(c, sc, Options{})
		loss := 1 - r.MuzzleEnergy/bare
		assert.Greater(t, loss, last)
		last = loss
		gas := r.BarrelExit * (c.Barrel.DeadVolume + c.Barrel.Area*c.Barrel.Travel) / (c.Gas.R * r.Barrel.Temperature)
		assert.InEpsilon(t, gas*r.MuzzleSpeed*r.MuzzleSpeed/6, r.Account.GasMotion, 1e-9)
	}
}

// TestAPushComesAgain: a ball that leaves while its valve is still opening outruns the air behind it for a while, and is caught up by what
// follows. The push lasts for ten diameters beyond the muzzle and does not end where it first ceases: that left out two thirds of the
// energy of the first launcher here and half the gain of the second's, and made a matter of the tolerance of the third's. No published
// case; random_shots.csv has the same rule, and the ceiling counts the jet over the whole of that way.
func TestAPushComesAgain(t *testing.T) {
	bore := discArea(40e-3)
	for _, k := range []struct{ breakaway, gauge, hose, mass, gain float64 }{
		{10, 5e5, 1.5, 3.6e-3, 2},
		{2, 5e5, 0.3, 3.6e-3, 1.4},
		{10, 1.5e5, 1.5, 10e-3, 1.9},
	} {
		c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature},
			Volumes: []Volume{{Name: "tank", Volume: 4e-3}},
			Paths: []Path{{Name: "fire", From: 0, To: BarrelNode, Kind: Valve, Flow: flow.FromCv(0.5, 0.7, 0.35), OpenIn: SetOf(Firing),
				OpeningTime: 0.05, After: []line.Piece{{Bore: 12e-3, Length: k.hose}}}},
			Barrel: Barrel{Present: true, Fit: InBore, Area: bore, ExitArea: bore, DeadVolume: 4e-5, Travel: 0.052, Mass: k.mass,
				JetFactor: 1, Breakaway: k.breakaway}}
		sc := &Scenario{From: Armed, To: Firing, Volumes: []Condition{{standardAtmosphere + k.gauge, roomTemperature}}}
		fine := new(Sim).Run(c, sc, Options{Tolerance: 1e-10})
		require.Equal(t, Left, fine.Outcome)
		assert.InEpsilon(t, c.Barrel.Travel+10*40e-3, fine.Position, 1e-9)
		assert.Greater(t, fine.FinalEnergy, k.gain*fine.MuzzleEnergy)
		for _, tolerance := range []float64{1e-5, 1e-6, 1e-7, 1e-8} {
			// A search's tolerance, ten times as loose after the muzzle, finds the energy within a hundredth.
			r := new(Sim).Run(c, sc, Options{Tolerance: tolerance, Coarse: tolerance > 1e-6})
			assert.InEpsilon(t, fine.FinalEnergy, r.FinalEnergy, max(0.01*tolerance/1e-5, 1e-4), "%g: %+v", tolerance, k)
		}
	}
}
