package measure

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/benchmark"
	"puffproof/limits/internal/sample"
)

// shotsAt makes shots of one pressure whose chronograph stands at the muzzle.
func shotsAt(gauge float64, balls int, speeds ...float64) []Shot {
	var out []Shot
	for i, v := range speeds {
		out = append(out, Shot{Line: i + 2, Gauge: gauge, Method: Chronograph, Speed: v, Temperature: 293.15,
			Projectile: string(rune('A' + i%balls)), Mass: 4 * sample.Grams})
	}
	return out
}

// Coverage: 20000 synthetic experiments of n shots with a normal scatter of
// speed. With 95 % confidence at least 99 % of all shots stay below the bound, so
// it must lie above the 99 % quantile in 95 % of the experiments. Four standard
// deviations of the count, sqrt(0.95 0.05/20000) = 0.154 %, are allowed.
func TestBoundHoldsInSpeed(t *testing.T) {
	const experiments = 20000
	allowed := 4 * math.Sqrt(0.95*0.05/experiments)
	for _, c := range []struct {
		n       int
		scatter float64
	}{{5, 0.03}, {10, 0.10}, {30, 0.20}} {
		r := rand.New(rand.NewPCG(7, uint64(c.n)))
		const mean, z99 = 10.0, 2.326347874040841 // the 99 % quantile of the normal distribution
		true99 := mean * (1 + z99*c.scatter)
		k, err := benchmark.ToleranceFactor(c.n, benchmark.BoundConfidence, benchmark.BoundCoverage)
		require.NoError(t, err)
		holds := 0
		g := SpeedGroup{Shots: c.n, MassHigh: 4e-3}
		for range experiments {
			var sum, squares float64
			for range c.n {
				v := mean * (1 + c.scatter*r.NormFloat64())
				sum += v
				squares += v * v
			}
			g.Mean = sum / float64(c.n)
			g.SD = math.Sqrt((squares - sum*sum/float64(c.n)) / float64(c.n-1))
			g.K = k
			g.upper()
			if g.UpperEnergy >= 0.5*4e-3*true99*true99 {
				holds++
			}
		}
		assert.InDelta(t, 0.95, float64(holds)/experiments, allowed, "n %d, scatter %g", c.n, c.scatter)
	}
}

// What a bound on speed asks of shots (own rule of this project), each broken alone.
func TestAdmissibleShots(t *testing.T) {
	l := sample.Plain(sample.Measured)
	ok := func() []Shot { return shotsAt(0.9*sample.Bars, 2, 8.0, 8.1, 7.9, 8.2, 8.05, 7.95) }
	groups := func(shots []Shot) []SpeedGroup {
		ev, err := Evaluate(context.Background(), l, &ShotLog{Shots: shots})
		require.NoError(t, err)
		return ev.Groups
	}
	require.True(t, groups(ok())[0].Admissible())
	for _, c := range []struct {
		name   string
		change func(s []Shot) []Shot
		says   string
	}{
		{"four shots", func(s []Shot) []Shot { return s[:4] }, "at least 5"},
		{"one ball", func(s []Shot) []Shot { return shotsAt(0.9*sample.Bars, 1, 8.0, 8.1, 7.9, 8.2, 8.05) }, "one projectile only"},
		{"ball not said", func(s []Shot) []Shot { s[3].Projectile = ""; return s }, "which projectile flew is not said of 1 shot"},
		{"no temperature", func(s []Shot) []Shot { s[0].Temperature = 0; return s }, "temperature"},
		{"too coarse", func(s []Shot) []Shot { return shotsAt(0.9*sample.Bars, 2, 8, 8, 8, 8, 8) }, "too coarse"},
		{"misfires do not count", func(s []Shot) []Shot { s[0].Misfire, s[1].Misfire = true, true; return s }, "4 shots"},
	} {
		g := groups(c.change(ok()))[0]
		require.False(t, g.Admissible(), c.name)
		assert.Contains(t, g.Faults[0].String(), c.says, c.name)
	}
	// Two readings one mark of the gauge apart are one pressure, two marks are two.
	s := ok()
	s[0].Gauge += 0.02 * sample.Bars
	assert.Len(t, groups(s), 1)
	s[0].Gauge += 0.005 * sample.Bars
	assert.Len(t, groups(s), 2)
}

// The bound by hand: speeds 8.0, 8.2, 8.4, 8.6, 8.8 have mean 8.4 and s 0.3162;
// k(5) = 5.741 (Montgomery and Runger, table XII); the chronograph's 2 % of the
// fastest shot add. k is printed to three decimals: 0.0005 s is allowed.
func TestBoundByHand(t *testing.T) {
	l := sample.Plain(sample.Measured)
	ev, err := Evaluate(context.Background(), l, &ShotLog{Shots: shotsAt(0.9*sample.Bars, 2, 8.0, 8.2, 8.4, 8.6, 8.8)})
	require.NoError(t, err)
	g := ev.Groups[0]
	assert.InDelta(t, 8.4, g.Mean, 1e-9)
	assert.InDelta(t, 0.316228, g.SD, 1e-6)
	// Distance 0 ± 20 mm: its far side adds 20 mm of drag to the 2 %.
	us := 0.02*8.8 + 8.8*math.Expm1(Decay(l, 293.15).Value*placeError)/2
	assert.InDelta(t, us, g.Systematic, 0.02*us)
	assert.InDelta(t, g.Mean+5.741*g.SD+g.Systematic, g.UpperSpeed, 0.0005*g.SD+1e-9)
	assert.InEpsilon(t, 0.5*4.1e-3*g.UpperSpeed*g.UpperSpeed, g.UpperEnergy, 1e-12)
}

// A bound is below no shot, whatever their number: of a very skewed series mean
// plus k s may be.
func TestBoundHoldsTheFastestShot(t *testing.T) {
	g := SpeedGroup{Mean: 5, SD: 0.1, K: 2.5, Fastest: 9, Systematic: 0.2, MassHigh: 4e-3}
	g.upper()
	assert.InDelta(t, 9.2, g.UpperSpeed, 1e-12)
}

// Names differ by more than the case of their letters.
func TestBallsAreCountedWithoutCase(t *testing.T) {
	l := sample.Plain(sample.Measured)
	shots := shotsAt(0.9*sample.Bars, 1, 8.0, 8.1, 7.9, 8.2, 8.05)
	shots[1].Projectile = "a"
	found, err := measure(context.Background(), l, &ShotLog{Shots: shots})
	require.NoError(t, err)
	assert.Equal(t, 1, found.Groups[0].Projectiles)
}

// The largest systematic error counts for all shots of a group, wherever it stands.
func TestTheWorstReadingsErrorCountsForAll(t *testing.T) {
	l := sample.Plain(sample.Measured)
	for poor := range 3 {
		shots := shotsAt(0.9*sample.Bars, 2, 8.0, 8.1, 7.9)
		shots[poor].SpeedError = 0.1
		found, err := measure(context.Background(), l, &ShotLog{Shots: shots})
		require.NoError(t, err)
		assert.GreaterOrEqual(t, found.Groups[0].Systematic, 0.1*shots[poor].Speed)
	}
}

// Two shots are held against the model with the factor of four, 7.042 (Natrella, NBS
// Handbook 91, table A-7, 95 % and 99 %, from memory), not with their own of 37; one
// bounds nothing. Printed to three decimals.
func TestContrastOfFewShots(t *testing.T) {
	g := SpeedGroup{Shots: 2, Mean: 8, SD: 0.1, Fastest: 8.1, Systematic: 0.2, UpperSpeed: 12, MassHigh: 4e-3}
	const v = 8 + 7.042*0.1 + 0.2 + 1
	assert.InEpsilon(t, 0.5*4e-3*v*v, g.contrast(1), 2*0.0005*0.1/v)
	g.Shots = 4
	assert.InEpsilon(t, 0.5*4e-3*13*13, g.contrast(1), sample.Rounding)
	g.Shots = 1
	assert.Zero(t, g.contrast(1))
}
