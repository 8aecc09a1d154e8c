package worst

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A projectile that needs F to break away stays where the air that has come to rest
// behind it pushes no harder: (F + pa A)(V + V0) = (p + pa) A V + pa A V0 with adiabatic
// filling of the dead volume V0 (first law, ideal gas), so the start is p = F/A (V + V0)/V.
// What it can gain when a hand frees it is bounded by the availability of that air,
// (V + V0)(p ln(p/pa) - (p - pa)) (Moran and Shapiro, Fundamentals of Engineering
// Thermodynamics, chapter 7, from memory).
func TestTheWorstStuckProjectileIsAtTheEdge(t *testing.T) {
	const force, volume, dead = 60.0, 2e-3, 40e-6
	l := sample.Plain(sample.PartsOff, sample.Friction(force, 0.6), func(l *launcher.Launcher) {
		l.Projectile.Restart = launcher.Exact("", force)
	})
	area := launcher.Circle(41 * sample.Millimetres)
	edge := force / area * (volume + dead) / volume
	const high = 0.95 * sample.Bars
	require.Less(t, edge, high)
	s, err := WorstStuck(context.Background(), l, EnergyQuestion(l, high), 0)
	require.NoError(t, err)
	assert.InDelta(t, edge, s.Start, high/500, "bisected to 1/512 of the highest start")
	p0, pa := 101325+force/area, 101325.0
	available := (volume + dead) * (p0*math.Log(p0/pa) - (p0 - pa))
	assert.InEpsilon(t, available, s.Freed, 0.01, "the bisection's step is 0.4 % of this pressure, and the work goes with its square")
}

// A pulse that leaves most of the air in its vessel makes a stuck projectile no safer: the timer may fail, and whoever sees nothing fly
// pulls again. What it could gain is that of the same launcher without a timer (first law, as above: the same air is joined).
func TestAPulseExcusesNoStuckProjectile(t *testing.T) {
	l := sample.Plain(sample.PartsOff, sample.Friction(60, 0.6))
	q := EnergyQuestion(l, 0.95*sample.Bars)
	open, err := WorstStuck(t.Context(), l, q, 0)
	require.NoError(t, err)
	assert.False(t, open.Unended)
	l.Paths[0].Pulse = launcher.Exact("", 5e-3)
	pulsed, err := WorstStuck(t.Context(), l, q, 0)
	require.NoError(t, err)
	assert.True(t, pulsed.Unended)
	assert.Equal(t, open.Freed, pulsed.Freed)
	alone, err := worstStuck(t.Context(), l, q, 0)
	require.NoError(t, err)
	assert.Less(t, alone.Freed, 0.5*open.Freed, "what a shot of the pulse alone leaves behind it")
}

// Without a start pressure to search there is nothing stuck.
func TestNothingIsStuckWithoutPressure(t *testing.T) {
	l := sample.Plain()
	s, err := WorstStuck(context.Background(), l, EnergyQuestion(l, 0), 0)
	require.NoError(t, err)
	assert.Zero(t, s)
}

// Air that goes on flowing frees no more than it can bring to bear: behind a regulator no
// more than its set pressure on the way to the muzzle and ten bores beyond, however much
// the tank before it holds.
func TestFlowingAirIsNotAllThatTheTankHolds(t *testing.T) {
	const set = 0.3 * sample.Bars
	l := sample.TwoTanks(sample.Regulator(set, 0))
	l.Volumes[0].Volume, l.Switch.CutOut = launcher.Exact("", 20e-3), launcher.Exact("", 8*sample.Bars)
	sample.Friction(60, 1)(l)
	s, err := WorstStuck(weakly(), l, EnergyQuestion(l, 8*sample.Bars), 0)
	require.NoError(t, err)
	b := circuitOf(l).Barrel
	assert.LessOrEqual(t, s.Freed, set*b.Area*(b.Travel+20*math.Sqrt(b.Area/math.Pi))*(1+1e-9))
	assert.Greater(t, s.Freed, 0.5*set*b.Area*b.Travel)
}

// A ball that nothing slows never sticks, though it is on its way for long: nothing is searched. One whose band of friction begins at
// none does, where there is some.
func TestNothingIsStuckThatNothingHolds(t *testing.T) {
	l := bouncing()
	s, err := WorstStuck(context.Background(), l, EnergyQuestion(l, 0.3*sample.Bars), 0)
	require.NoError(t, err)
	assert.Zero(t, s)
	l = sample.Plain(sample.PartsOff, sample.Friction(60, 0.6))
	l.Projectile.Breakaway.Low, l.Projectile.Sliding.Low = 0, 0
	s, err = WorstStuck(weakly(), l, EnergyQuestion(l, 0.95*sample.Bars), 0)
	require.NoError(t, err)
	assert.Greater(t, s.Freed, 0.1)
}

// bouncing is a heavy ball without friction on a tank that empties straight into a wide
// barrel, with a compressor feeding on.
func bouncing() *launcher.Launcher {
	return sample.Plain(sample.Friction(0, 0), sample.CutOut(0.3*sample.Bars), func(l *launcher.Launcher) {
		l.Barrel.Bore, l.Projectile.Diameter = launcher.Exact("", 0.05), launcher.Exact("", 0.05)
		l.Barrel.Travel, l.Barrel.FixedSeat = launcher.Exact("", 1), false
		l.Projectile.Mass = launcher.Exact("", 0.05)
		l.Paths[0].Flow = launcher.FlowSpec{Form: launcher.SonicConductance, Value: launcher.Exact("", 30e-8),
			CriticalRatio: launcher.Exact("", 0.35)}
		l.Supply.RunsInStated = false
	})
}

// Every shot of it is settled: a ball that bounces in front of a running compressor leaves
// in the end, after 12 s or so, whatever the start and the seat.
func TestABouncingBallIsFollowedUntilItLeaves(t *testing.T) {
	l := bouncing()
	b := NewBox(l, EnergyQuestion(l, 0.3*sample.Bars))
	e := b.Evaluator()
	for i := range 6 {
		for k := range 6 {
			u := []float64{float64(i) / 5, float64(k) / 5}
			v := e.Value(u)
			assert.False(t, math.IsNaN(v), u)
			assert.Equal(t, pneumatics.Left, e.Run(u).Outcome, u)
		}
	}
}
