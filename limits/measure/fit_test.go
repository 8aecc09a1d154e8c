package measure

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics/flight"
)

// synthetic makes shots of a launcher whose true values differ from the design.
func synthetic(t *testing.T, truth *launcher.Launcher, r *rand.Rand, scatter float64, n int, gauges ...float64) []Shot {
	t.Helper()
	m := NewShotModel(truth)
	var out []Shot
	for _, g := range gauges {
		v, _ := m.Shot(g, 293.15)
		require.Positive(t, v)
		for i := range n {
			out = append(out, Shot{Line: len(out) + 2, Gauge: g, Method: Chronograph, SpeedError: 1e-4, Speed: v * (1 + scatter*r.NormFloat64()),
				Mass:        truth.Projectile.Mass.Nominal,
				Temperature: 293.15, Projectile: string(rune('A' + i%2))})
		}
	}
	return out
}

// trueLauncher is the plain launcher with other friction and flow.
func trueLauncher(sliding, cvTrue float64) *launcher.Launcher {
	l := sample.Plain(sample.Measured)
	l.Projectile.Sliding.Nominal = sliding
	l.Paths[0].Flow.Value.Nominal = cvTrue
	return l
}

// Recovery: launchers whose friction and flow are drawn from their stated
// spread, ten shots with 3 % scatter at each of three pressures. The stated 95 %
// intervals must hold the true values at that rate: of 8 launchers with two
// values each at most 3 may miss, of 30 with PUFFPROOF_MORE=1 at most 8 (the chance of more is below 1 in 100 for 16 and
// for 60 values at 5 %). PUFFPROOF_LONG=1 tries 1000 launchers.
func TestRecovery(t *testing.T) {
	t.Parallel()
	launchers, most := 8, 3
	switch {
	case os.Getenv("PUFFPROOF_LONG") != "":
		launchers, most = 1000, 130 // 100 expected, 3 standard deviations
	case os.Getenv("PUFFPROOF_MORE") != "":
		launchers, most = 30, 8
	}
	r := rand.New(rand.NewPCG(11, 3))
	misses, told := 0, 0
	for range launchers {
		// Normal within the spread that the bands stand for: half of the half-width.
		sliding := math.Max(0, 0.6+0.3*r.NormFloat64())
		flow := 2.5 + 0.5*r.NormFloat64()
		shots := synthetic(t, trueLauncher(sliding, flow), r, 0.03, 10, 0.5*sample.Bars, 0.7*sample.Bars, 0.9*sample.Bars)
		ev, err := measure(context.Background(), sample.Plain(sample.Measured), &ShotLog{Shots: shots})
		require.NoError(t, err)
		require.NotNil(t, ev.Fit)
		for _, p := range ev.Fit.Parameters {
			want := map[string]float64{KeySliding: sliding, "paths.fire.Cv": flow}[p.Key]
			if want == 0 {
				continue
			}
			if want < p.Low || want > p.High {
				misses++
			}
			if p.Learned {
				told++
			}
		}
	}
	assert.LessOrEqual(t, misses, most)
	assert.Greater(t, told, launchers/2, "an interval that tells nothing holds everything")
}

// A model that is right is rejected in 5 % of tries, a leak that the design
// rules out is noticed.
func TestLeakIsNoticed(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(2, 9))
	tight := func() *launcher.Launcher {
		l := sample.Plain(sample.Measured)
		l.Projectile.Sliding = sample.Between("projectile.sliding_force", 0.5, 0.7)
		l.Paths[0].Flow.Value = sample.Between("paths.fire.Cv", 2.4, 2.6)
		l.Paths[0].OpeningTime = sample.Between("paths.fire.opening_time", 14e-3, 16e-3)
		return l
	}
	leaky := tight()
	leaky.Projectile.Clearance = launcher.Exact(keyClearance, 0.8e-3)
	shots := synthetic(t, leaky, r, 0.03, 10, 0.5*sample.Bars, 0.7*sample.Bars, 0.9*sample.Bars)
	ev, err := Evaluate(context.Background(), tight(), &ShotLog{Shots: shots})
	require.NoError(t, err)
	require.False(t, ev.Fit.Credible)
	var keys []string
	for _, s := range ev.Fit.Suspects {
		keys = append(keys, s.Key)
	}
	require.Contains(t, keys, keyClearance)
	for _, s := range ev.Fit.Suspects {
		if s.Key == keyClearance {
			assert.InDelta(t, 0.8e-3, s.Value, 0.3e-3) // 3 % scatter of 30 shots
		}
	}
	assert.Empty(t, ev.Narrowed, "a model that is not credible narrows nothing")

	honest, most, rejected := 12, 3, 0 // 5 % of 12 are 0.6
	if os.Getenv("PUFFPROOF_MORE") != "" {
		honest, most = 40, 6 // 5 % of 40 are 2
	}
	for range honest {
		ev, err := measure(context.Background(), tight(), &ShotLog{Shots: synthetic(t, tight(), r, 0.03, 10, 0.5*sample.Bars, 0.9*sample.Bars)})
		require.NoError(t, err)
		if !ev.Fit.Credible {
			rejected++
		}
	}
	assert.LessOrEqual(t, rejected, most, "more has a chance below 1 in 100")
}

// What one group's mean is worth, by hand: the scatter of the shots over their number,
// the model's own scatter, half of the systematic bound, and what half of the half-width
// of a band that is not fitted does to the logarithm of the speed.
func TestCovarianceOfOneGroup(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Projectile.Mass = sample.Between("projectile.mass", 3.8*sample.Grams, 4.2*sample.Grams)
		l.Projectile.Sliding = launcher.Exact(KeySliding, 0.6)
	})
	shots := shotsAt(0.9*sample.Bars, 2, 7.9, 8.0, 8.1, 8.0)
	speeds := make([]ShotSpeed, len(shots))
	for i := range shots {
		speeds[i] = ShotSpeed{Shot: shots[i], Speed: shots[i].Speed, Systematic: 0.16}
	}
	f := newFitter(l, speeds, speedGroups(l, speeds))
	speed := func(mass float64) float64 {
		w := l.Clone()
		w.Projectile.Mass.Nominal = mass
		v, _ := NewShotModel(w).Shot(0.9*sample.Bars, 293.15)
		return math.Log(v)
	}
	own := 0.02 / 3 / 64 / 4                                        // variance 0.02/3 of speeds near 8, relative, of 4 shots
	band := (speed(4.1*sample.Grams) - speed(3.9*sample.Grams)) / 2 // half of 0.2 g
	want := own + modelScatter*modelScatter + 0.01*0.01 + band*band // 0.16 of 8 m/s are 2 %
	assert.InEpsilon(t, want, 1/f.inverse.At(0, 0), 1e-6)           // the shot's tolerance of 1e-6
	assert.InEpsilon(t, own+0.01*0.01, f.own[0], 1e-12)
}

// Readings in doubt narrow nothing, though shots at another pressure count and the model
// agrees with them.
func TestDoubtedReadingsNarrowNothing(t *testing.T) {
	l := sample.Plain(sample.Measured)
	shots := synthetic(t, trueLauncher(0.6, 2.5), rand.New(rand.NewPCG(1, 9)), 0.03, 10, 0.5*sample.Bars, 0.9*sample.Bars)
	narrowed := func(shots []Shot) int {
		found, err := measure(context.Background(), l, &ShotLog{Shots: shots})
		require.NoError(t, err)
		require.True(t, found.Fit.Credible)
		require.NotNil(t, found.Best())
		return len(found.Narrowed)
	}
	assert.Positive(t, narrowed(shots))
	// One video at 0.7 bar, filmed at 240 a second and written down as 30.
	v, _ := NewShotModel(trueLauncher(0.6, 2.5)).Shot(0.7*sample.Bars, 293.15)
	k := Decay(l, 293.15).Value
	slow := Shot{Line: 99, Gauge: 0.7 * sample.Bars, Temperature: 293.15, Method: Video, FrameRate: 30, Span: 0.5,
		Frames: math.Round(240 * flight.TimeOver(v, k, 0.5))}
	assert.Zero(t, narrowed(append(shots, slow)))
}

// A fit that agrees only with a value outside of what the design states is not credible,
// though the test of its residuals does not reject it: a flow three spreads off, told by
// shots at six pressures.
func TestFitOutsideOfWhatIsStatedIsNotCredible(t *testing.T) {
	stated := func() *launcher.Launcher {
		l := sample.Plain(sample.Measured)
		l.Projectile.Mass = launcher.Exact("projectile.mass", 4*sample.Grams)
		l.Projectile.Sliding = launcher.Exact(KeySliding, 0.6)
		l.Paths[0].OpeningTime = launcher.Exact("paths.fire.opening_time", 15e-3)
		l.Paths[0].Flow.Value = sample.Between("paths.fire.Cv", 2.0, 3.0)
		return l
	}
	truth := stated()
	truth.Paths[0].Flow.Value.Nominal = 2.5 - 3*0.25
	shots := synthetic(t, truth, rand.New(rand.NewPCG(5, 5)), 0.01, 10, 0.4*sample.Bars, 0.5*sample.Bars, 0.6*sample.Bars, 0.7*sample.Bars,
		0.8*sample.Bars, 0.9*sample.Bars)
	found, err := measure(context.Background(), stated(), &ShotLog{Shots: shots})
	require.NoError(t, err)
	require.GreaterOrEqual(t, found.Fit.P, FitLevel)
	for _, p := range found.Fit.Parameters {
		if p.Key == "paths.fire.Cv" {
			assert.True(t, p.Learned)
			assert.Less(t, p.High, 2.0)
		}
	}
	assert.False(t, found.Fit.Credible)
	assert.Empty(t, found.Narrowed)
}
