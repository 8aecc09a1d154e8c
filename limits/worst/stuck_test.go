package worst

import (
	"context"
	"math"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
	s, err := WorstStuck(context.Background(), l, EnergyQuestion(l, high))
	require.NoError(t, err)
	assert.InDelta(t, edge, s.Start, high/500, "bisected to 1/512 of the highest start")
	p0, pa := 101325+force/area, 101325.0
	available := (volume + dead) * (p0*math.Log(p0/pa) - (p0 - pa))
	assert.InEpsilon(t, available, s.Freed, 0.01, "the bisection's step is 0.4 % of this pressure, and the work goes with its square")
}

// Without a start pressure to search there is nothing stuck.
func TestNothingIsStuckWithoutPressure(t *testing.T) {
	l := sample.Plain()
	s, err := WorstStuck(context.Background(), l, EnergyQuestion(l, 0))
	require.NoError(t, err)
	assert.Zero(t, s)
}
