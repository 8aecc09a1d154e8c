package vent

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// nozzleTime is the time constant V/(Cd A psi sqrt(R T)) of the exact tank [s].
func nozzleTime(volume, bore, cd float64) float64 {
	psi := math.Sqrt(1.4) * math.Pow(2/2.4, 3)
	return volume / (cd * launcher.Circle(bore) * psi * math.Sqrt(287.05*293.15))
}

// The longest time of a vessel whose walls give heat at any constant rate, over the time
// constant, from a gauge pressure to 5000 Pa (testdata/reference/wall_heat.csv, set
// slowest, n = k = 0). The rates that are tried miss less than 0.2 % of it; the flow laws'
// laminar ends are worth 3e-4.
func TestTheSlowEndTakesTheSlowestHeat(t *testing.T) {
	const fits, misses = 3e-4, 2e-3
	tau := nozzleTime(2e-3, 1.2e-3, 0.75)
	for gauge, want := range map[float64]float64{1e5: 0.7628570928, 3e5: 1.4892008728, 7e5: 2.2725244021, 10e5: 2.6571930176} {
		near := func(seconds float64, what string) {
			assert.Less(t, seconds, (1+fits)*want*tau, "%s from %g Pa", what, gauge)
			assert.Greater(t, seconds, (1-misses)*want*tau, "%s from %g Pa", what, gauge)
		}
		near(caseOf(t, exactTank(), gauge, 5000, SlowEndOnly).Slowest, "the slow end")

		l := exactTank()
		l.Supply.DeadHead = launcher.Exact("", gauge)
		l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
		near(LoadingOf(l, 5000).Wait, "the wait while loading")

		s := sizer{l: l, path: 1, e: Emptier{Start: []float64{gauge}, Target: 5000}, within: 60}
		seconds, err := s.time(1.2e-3)
		require.NoError(t, err)
		drilled := nozzleTime(2e-3, 1.2e-3-boreError, narrowCd) / tau
		near(seconds/drilled, "the size of a vent")

		l.Venting.Within = launcher.Exact("", (1-misses)*want*tau)
		c := caseOf(t, l, gauge, 5000, FullSheets)
		assert.GreaterOrEqual(t, c.AfterWithin, 5000.0, "what is left when the time is up, from %g Pa", gauge)
		assert.Equal(t, Slow, c.Status)
		assert.LessOrEqual(t, c.Expected, c.Slowest)
	}
}

// 2 L through 1.2 mm from 7 bar: natural convection takes 3 % longer than constant
// temperature, by the correlation that a measured discharge confirms
// (TestMeasuredTankDischarge), and its course lies in the band of the readings.
func TestTheExpectedCourseLiesInTheBand(t *testing.T) {
	c := caseOf(t, exactTank(), 7e5, 5000, FullSheets)
	require.Greater(t, c.Expected, 1.03*max(c.Isothermal, c.Adiabatic), "else the test shows nothing")
	assert.LessOrEqual(t, c.Expected, c.Slowest)
	for _, r := range c.Sheet {
		assert.LessOrEqual(t, r.Low, r.Gauge)
		assert.LessOrEqual(t, r.Gauge, r.High)
	}
}

// No natural convection, in a vessel of any shape, takes longer than constant coefficients
// and the ends do: through one hole, or where a check valve lets the most out and a hole
// the rest.
func TestConstantCoefficientsBoundNaturalConvection(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	between := func(low, high float64) float64 { return low * math.Pow(high/low, random.Float64()) }
	var bounds []Walls
	for _, w := range slowWalls() {
		if w != StillAir {
			bounds = append(bounds, w)
		}
	}
	beyond := 0 // beyond both ends
	for range 120 {
		l := exactTank()
		l.Volumes[0].Volume = launcher.Exact("", between(1e-4, 2e-2))
		l.Volumes[0].InnerDiameter = launcher.Exact("", between(0.01, 0.5)) // from a hose to a flat box
		l.Paths[1].Flow = sample.Orifice(between(3e-4, 6e-3), 0.75)
		if random.IntN(2) == 0 {
			l.Paths = append(l.Paths, launcher.PathSpec{Name: "dump", From: "tank", To: "atmosphere", Kind: pneumatics.Check,
				Flow: sample.Orifice(between(2e-3, 8e-3), 0.75), CrackingPressure: launcher.Exact("", between(5000, 3e4))})
		}
		e := Emptier{Start: []float64{between(5e4, 1e6)}, Target: 3000}
		setup := e.Setup(l, Scenario{Shutdown, pneumatics.Armed}, SlowEnd)
		natural, err := e.Run(setup, StillAir, 3600, 0)
		require.NoError(t, err)
		runs, err := e.runs(setup, bounds, 3600, 0)
		require.NoError(t, err)
		slowest, ends := 0.0, max(OrInf(runs[0].WatchTimes[0]), OrInf(runs[1].WatchTimes[0]))
		for _, r := range runs {
			slowest = max(slowest, OrInf(r.WatchTimes[0]))
		}
		took := OrInf(natural.WatchTimes[0])
		if took > 1.1*ends {
			beyond++
		}
		assert.LessOrEqual(t, took, slowest*(1+2e-3), "%g m3, %g m, %+v from %g Pa", l.Volumes[0].Volume.Nominal,
			l.Volumes[0].InnerDiameter.Nominal, l.Paths[1:], e.Start[0])
	}
	assert.Greater(t, beyond, 5, "else the test shows nothing")
}
