package measure

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// Bench tests against figures outside of this project.
func TestBenchTests(t *testing.T) {
	l := sample.Plain(sample.Measured)
	value := func(b BenchReading) BenchValue {
		v := BenchValues(l, []BenchReading{b})
		require.Empty(t, v[0].Trouble.String())
		return v[0]
	}
	// 98 mbar for a metre of water (from memory: 998 kg/m3 x 9.80665 m/s2 = 97.87),
	// on a bore of 41 mm: 1.3203e-3 m2.
	assert.InEpsilon(t, 0.1*9787*1.32025e-3, value(BenchReading{Kind: UTube, Height: 0.1}).Band.Nominal, 1e-3)
	// 1 N weighs 102 g: 98 g of coins and the 4 g projectile.
	assert.InEpsilon(t, 1.0, value(BenchReading{Kind: Coins, Mass: 0.098}).Band.Nominal, 1e-3)
	// A third of the weight on a slope of arcsin(1/3).
	assert.InEpsilon(t, 4e-3*9.80665/3, value(BenchReading{Kind: Slope, Angle: math.Asin(1.0 / 3)}).Band.Nominal, 1e-9)
	// Each holds its value, cut at zero.
	v := value(BenchReading{Kind: UTube, Height: 0.01})
	assert.Less(t, v.Band.Low, v.Band.Nominal)
	assert.GreaterOrEqual(t, v.Band.Low, 0.0)
}

// A 5 g ball in a 51 mm tube, breech corked, sinks at 0.03, 0.07 and 0.15 m/s
// with a gap of 0.1, 0.25 and 0.5 mm all round (computed outside of this project,
// given to one or two digits: 10 %).
func TestSinkTest(t *testing.T) {
	l := sample.Plain(sample.Measured)
	l.Barrel.Bore = launcher.Exact("barrel.bore", 51*sample.Millimetres)
	l.Projectile.Mass = launcher.Exact("projectile.mass", 5*sample.Grams)
	l.Projectile.Sliding = launcher.Exact(KeySliding, 0)
	for v, gap := range map[float64]float64{0.03: 0.1, 0.074: 0.25, 0.149: 0.5} {
		b := BenchValues(l, []BenchReading{{Kind: Sink, Distance: 0.3, Time: 0.3 / v}})
		require.Empty(t, b[0].Trouble.String())
		assert.InEpsilon(t, 2*gap*sample.Millimetres, b[0].Band.Nominal, 0.1)
	}
}

// The emptying test against the closed form of an adiabatic blow-down, choked:
// p/p0 = (1 + (gamma-1) t/(2 tau))^(-2 gamma/(gamma-1)). A short one from 5 bar
// absolute: the wall has no time to warm the gas, which moves the pressure by less
// than 2 % here.
func TestEmptyingTest(t *testing.T) {
	l := sample.Plain(sample.Measured)
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "dump", From: "tank", To: "atmosphere",
		Flow: sample.Orifice(3*sample.Millimetres, 0.75)})
	const cd = 0.84
	g := l.GasModel()
	tau := 2e-3 / (cd * launcher.Circle(3*sample.Millimetres) * g.NozzleConstant() * math.Sqrt(g.R*293.15))
	const p0, seconds = 5e5, 0.2
	p1 := p0 * math.Pow(1+0.2*seconds/tau, -7)
	require.Greater(t, p1, 2e5, "choked to the end")
	b := BenchValues(l, []BenchReading{{Kind: Emptying, Path: "dump", Gauge: p0 - 101325, GaugeEnd: p1 - 101325, Time: seconds}})
	require.Empty(t, b[0].Trouble.String())
	assert.InEpsilon(t, cd, b[0].Band.Nominal, 0.02)
}

// Click to pop comes back from the model's own exit time: the solver is held
// against the run it inverts; 0.1 ms is its last bisection.
func TestClickToPop(t *testing.T) {
	l := sample.Plain(sample.Measured)
	truth := l.Clone()
	truth.Paths[0].OpeningTime.Nominal = 22e-3
	_, exit := NewShotModel(truth).Shot(0.8*sample.Bars, 0)
	b := BenchValues(l, []BenchReading{{Kind: ClickToPop, Gauge: 0.8 * sample.Bars, Time: exit}})
	require.Empty(t, b[0].Trouble.String())
	assert.InDelta(t, 22e-3, b[0].Band.Nominal, 1e-4)
	assert.Equal(t, "paths.fire.opening_time", b[0].Band.Key)
}

// A test that tells less than the design already does changes nothing.
func TestPoorTestsDoNotWiden(t *testing.T) {
	l := sample.Plain(sample.Measured)
	l.Projectile.Breakaway = sample.Between(KeyBreakaway, 0.95, 1.05)
	found, err := Evaluate(context.Background(), l, &ShotLog{Bench: []BenchReading{{Kind: Coins, Mass: 0.098}}})
	require.NoError(t, err)
	assert.Empty(t, found.Narrowed)
	l.Projectile.Breakaway = sample.Between(KeyBreakaway, 0, 3)
	found, err = Evaluate(context.Background(), l, &ShotLog{Bench: []BenchReading{{Kind: Coins, Mass: 0.098}}})
	require.NoError(t, err)
	require.Len(t, found.Narrowed, 1)
	assert.InEpsilon(t, 1.0, found.Narrow(l).Projectile.Breakaway.Nominal, 1e-3)
	assert.InEpsilon(t, 1.5, l.Projectile.Breakaway.Nominal, 1e-12, "the design itself stays")
}

// The band of a weight by hand. Read once: two standard deviations of a reading of ± 0.2 g
// even, 30 % of the value, and half of the projectile's 0.2 g, which is the same every
// time. Read three times: t(0.975; 2) = 4.303 (any table) times s sqrt(1 + 1/3), and that
// half again.
func TestBandOfAWeight(t *testing.T) {
	l := sample.Plain(sample.Measured)
	const g = 9.80665
	band := func(masses ...float64) launcher.Band {
		var log []BenchReading
		for _, m := range masses {
			log = append(log, BenchReading{Kind: Coins, Mass: m})
		}
		return BenchValues(l, log)[0].Band
	}
	one := band(0.098)
	const mean = 0.102 * g
	assert.InEpsilon(t, mean+2*0.2e-3*g/math.Sqrt(3)+0.3*mean+0.1e-3*g, one.High, sample.Rounding)
	three := band(0.088, 0.098, 0.108)
	half := 4.303*0.01*g*math.Sqrt(1+1./3) + 0.1e-3*g
	assert.InEpsilon(t, mean+half, three.High, 0.0005/4.303) // t to three decimals
	assert.InDelta(t, math.Max(0, mean-half), three.Low, 0.0005/4.303*half)
}
