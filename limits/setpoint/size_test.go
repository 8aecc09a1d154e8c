package setpoint

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/filling"
)

// By the ceiling 0.5 J allows 123, 47 and 13 mL at 0.3, 0.5 and 1.0 bar gauge
// (availability of the air, own arithmetic), whatever the projectile.
// The tolerance is the last digit printed. 4 g at the limit have 15.8 m/s: the root of
// 2 x 0.5 J/4 g, to its digits.
func TestSizeByTheCeiling(t *testing.T) {
	t.Parallel()
	s, err := FindSize(SizeQuestion{Limit: 0.5, Bore: 41e-3, Mass: 4e-3})
	require.NoError(t, err)
	assert.InDelta(t, 15.8, *s.Speed, 0.05)
	want := map[float64]float64{0.3e5: 123, 0.5e5: 47, 1e5: 13}
	found := 0
	for _, r := range s.Rows {
		if ml, ok := want[r.Gauge]; ok {
			found++
			assert.InDelta(t, ml, r.Ceiling*1e6, 0.5)
		}
	}
	assert.Equal(t, len(want), found)
}

// A plan of 0.3 bar and 10 mm of travel once allowed any dose: 2 L behind a wide
// valve then gave 0.377 J at the muzzle and 0.627 J after it, by the push of the
// jet. The closed form of the isothermal work to the muzzle, p V ln(1 + A x/V) -
// pa A x, leaves that push out: at a volume that the table allows it stays below
// the limit, and far below where the jet matters.
func TestSizeCountsThePushAfterTheMuzzle(t *testing.T) {
	q := SizeQuestion{Limit: 0.5, Bore: 40e-3, Mass: 4e-3, Ambient: 101325}
	v := volumeForTravel(q, 0.3e5, 0.01)
	assert.Less(t, v, 2e-3)
	assert.Greater(t, v, pneumatics.CeilingDose(q.Limit, 0.3e5, q.Ambient))
	swept := launcher.Circle(q.Bore) * 0.01
	assert.Less(t, (q.Ambient+0.3e5)*v*math.Log1p(swept/v)-q.Ambient*swept, q.Limit)
}

// Launchers drawn at random, with the volume, travel and pressure of the table but any
// valve, mass, seat, friction and dead volume, and the hardest of them with every mass
// and seat, keep the limit with the factor. Brute force is the source here.
func TestRealValvesStayBelowTheTable(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 3))
	var sim pneumatics.Sim
	type cell struct{ gauge, travel float64 }
	cells, launchers := []cell{{0.1e5, 0.02}, {0.3e5, 0.02}, {0.5e5, 0.1}, {1e5, 0.01}, {3e5, 0.01}}, 20
	if os.Getenv("PUFFPROOF_MORE") != "" {
		launchers = 60
	}
	if os.Getenv("PUFFPROOF_LONG") != "" {
		cells = append(cells, cell{0.2e5, 0.05}, cell{2e5, 0.05})
	}
	for _, cell := range cells {
		q := SizeQuestion{Limit: 0.5, Bore: 40e-3, Ambient: 101325}
		v := volumeForTravel(q, cell.gauge, cell.travel)
		bound := pneumatics.CeilingDose(q.Limit, cell.gauge, q.Ambient) >= v // then the ceiling holds, whatever the model says
		for i := range launchers {
			l := hardestLauncher(q, cell.travel)
			mass := 0.5e-3 * math.Pow(64, r.Float64())
			l.Volumes[0].Volume, l.Projectile.Mass = launcher.Exact("v", v), launcher.Exact("m", mass)
			l.Barrel.DeadVolume = launcher.Exact("d", v*math.Pow(1e-3, r.Float64()))
			if i%2 == 0 { // else the hardest there is
				l.Paths[0].Flow = sample.Cv(0.3 * math.Pow(200, r.Float64())) // to 60, wider than the bore
				l.Paths[0].OpeningTime = launcher.Exact("o", 0.03*r.Float64()*r.Float64())
				l.Projectile.Breakaway, l.Projectile.Sliding = launcher.Exact("b", 10*r.Float64()*r.Float64()), launcher.Exact("s", r.Float64())
			}
			c := new(pneumatics.Circuit)
			l.Fill(c)
			sc := pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing, Volumes: filling.GaugeConditions(c, []float64{cell.gauge}),
				Until: longestPlan}
			sc.Seat = r.Float64() * c.Barrel.Travel
			run := sim.Run(c, &sc, pneumatics.Options{MaxSteps: 40000, NoPeak: true})
			if run.Outcome != pneumatics.Left { // what is left in a bouncing one is bounded, not shot
				continue
			}
			energy := worst.JudgedEnergy(0)(c, run) * worst.ModelFactor
			assert.True(t, bound || energy <= 0.5, "%.4g J, %v, %.3g kg, seat %.3g, Cv %.3g", energy, cell, mass, sc.Seat/c.Barrel.Travel,
				l.Paths[0].Flow.Value.Nominal)
		}
	}
}

func TestSizeRefuses(t *testing.T) {
	for _, q := range []SizeQuestion{{}, {Limit: 0.5}, {Limit: -1, Bore: 1}, {Limit: math.NaN(), Bore: 1}, {Limit: 1, Bore: 1, Travel: -1},
		{Limit: math.Inf(1), Bore: 1}} {
		_, err := FindSize(q)
		assert.Error(t, err)
	}
}

// A longer barrel loaded less deep is a shorter one: its travel allows no more air than
// the shorter travel does. 4 %, the reserve of the table: the seats looked at are a row,
// 0.3 and 0.45 of the travel stand for a third.
func TestALongerTravelAllowsNoMore(t *testing.T) {
	for _, gauge := range []float64{0.05 * sample.Bars, 0.1 * sample.Bars} {
		q := SizeQuestion{Limit: 0.5, Bore: 40e-3, Mass: 4e-3, Ambient: 101325}
		assert.LessOrEqual(t, volumeForTravel(q, gauge, 0.15), (1+sizeReserve)*volumeForTravel(q, gauge, 0.05), "%v Pa", gauge)
	}
}
