package measure

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// A plan's last pressure reaches the highest start, its numbers of shots are the
// least that do, and its readings come back through the conversions of calibrate.
func TestPlan(t *testing.T) {
	l := sample.Gentle()
	p, err := Plan(sample.Weakly(), l, "")
	require.NoError(t, err)
	require.Len(t, p.Pressures, 3)
	last := p.Pressures[2]
	assert.GreaterOrEqual(t, CarryUp*last.Gauge, p.StartHigh*(1-1e-9))
	assert.Less(t, p.Pressures[0].Gauge, p.Pressures[1].Gauge)
	assert.Empty(t, p.Refused.String())
	for _, x := range p.Pressures {
		assert.GreaterOrEqual(t, x.Shots, LeastShots)
		assert.LessOrEqual(t, x.Low, x.Nominal)
		assert.LessOrEqual(t, x.Nominal, x.High)
		assert.Less(t, x.High, x.Stop)
		for _, r := range x.Readings {
			s := Shot{Method: r.Method, Distance: 0.3, Speed: r.Nominal, Frames: r.Nominal, FrameRate: 240, Span: 0.5, Height: 1,
				Interval: r.Nominal}
			if r.Method == HorizontalShot {
				s.Distance = r.Nominal
			}
			got := SpeedOf(l, &s)
			assert.InEpsilon(t, x.Nominal, got.Speed, 1e-6, r.Method.String()) // the root finder of the conversions
		}
	}
	for _, c := range p.Count {
		require.Positive(t, c.Shots)
		// The factors of Montgomery and Runger, table XII, to the printed digits.
		if want := map[int]float64{5: 5.741, 10: 3.981, 20: 3.295, 30: 3.064}[c.Shots]; want != 0 {
			assert.InDelta(t, want, c.K, 0.0005)
		}
		assert.LessOrEqual(t, c.Bound, p.Limit)
	}
}

// Where even many shots of a wide scatter cannot reach the limit, the plan says
// so instead of naming a number.
func TestPlanNotEnough(t *testing.T) {
	t.Parallel()
	l := sample.Gentle()
	high, ok := l.SoakedHigh()
	require.True(t, ok)
	nominal, err := worst.NominalWorstSeat(context.Background(), l, high)
	require.NoError(t, err)
	l.Limits.TotalEnergy = launcher.Exact("limits.total_energy", nominal.FinalEnergy*1.3)
	p, err := Plan(sample.Weakly(), l, "")
	require.NoError(t, err)
	assert.Zero(t, p.Count[2].Shots)
	assert.Greater(t, p.Count[2].Bound, p.Limit)
}

// Nobody is told to shoot a build that is far too strong.
func TestPlanRefuses(t *testing.T) {
	t.Parallel()
	l := sample.Plain(sample.Measured)
	l.Switch.CutOut = launcher.Exact("pressure_switch.cut_out", 3*sample.Bars)
	l.Gauges[0].Range = launcher.Exact("gauge.range", 6*sample.Bars)
	p, err := Plan(sample.Weakly(), l, "")
	require.NoError(t, err)
	assert.Contains(t, p.Refused.String(), "change the design before anyone shoots it")
}

// A plan names no pressure at which the nominal shot does not leave: held by F, the projectile moves from F/A on, A the bore's area. Where
// it moves from 0.55 of the full pressure on, the gentlest step lies above that, the next between; from 0.7 on one is left, from 0.8
// on none but the full pressure, which the plan says; held by more nobody shoots it. Each reason is said.
func TestAPlanNamesNoStall(t *testing.T) {
	full := PlanGauges(sample.Gentle())[2]
	area := sample.Gentle().BarrelAt().Area
	for _, c := range []struct {
		share float64
		steps int
		says  string
	}{{0.3, 3, "gentle first, to see how the shots behave"}, {0.55, 3, "no gentler, as at"}, {0.7, 2, "no gentler, as at"}, {0.8, 1, ""}} {
		l := sample.Gentle()
		l.Projectile.Breakaway = launcher.Exact("projectile.breakaway_force", c.share*full*area)
		p, err := Plan(sample.Weakly(), l, "")
		require.NoError(t, err)
		require.Empty(t, p.Refused.String())
		require.Len(t, p.Pressures, c.steps, "%g", c.share)
		for i, x := range p.Pressures {
			assert.GreaterOrEqual(t, x.Nominal, worst.Creep)
			assert.Greater(t, x.Gauge, c.share*full)
			assert.True(t, i == 0 || x.Gauge > p.Pressures[i-1].Gauge)
		}
		assert.InEpsilon(t, full, p.Pressures[c.steps-1].Gauge, sample.Rounding, "the last stays")
		assert.Contains(t, p.Pressures[0].Why.String(), c.says)
		said := finding.Join(p.Notes, " ").String()
		assert.Equal(t, c.steps == 1, strings.Contains(said, "There is no room for gentler shots before the last"), said)
		assert.Equal(t, c.steps == 2, strings.Contains(said, "There is no room for a second step before the last"), said)
	}
	l := sample.Gentle()
	l.Projectile.Breakaway = launcher.Exact("projectile.breakaway_force", 1.1*full*area)
	p, err := Plan(sample.Weakly(), l, "")
	require.NoError(t, err)
	assert.Contains(t, p.Refused.String(), "does not leave the barrel")
	assert.Len(t, p.Pressures, 1, "nor are weaker ones named")
}

// Which of so many pressures the steps of a commissioning are shot at.
func TestStepsOfAPlan(t *testing.T) {
	for of, want := range [][]int{{-1, -1, -1}, {-1, -1, 0}, {0, -1, 1}, {0, 1, 2}} {
		for n, at := range want {
			got, ok := PlanStep(n, of)
			assert.Equal(t, at >= 0, ok, "step %d of %d", n, of)
			assert.True(t, !ok || got == at, "step %d of %d", n, of)
		}
	}
}

// Without a highest pressure there is no plan.
func TestPlanUnknown(t *testing.T) {
	l := sample.Plain(sample.Measured)
	l.Switch, l.Supply = nil, nil
	p, err := Plan(sample.Weakly(), l, "")
	require.NoError(t, err)
	assert.Empty(t, p.Pressures)
	assert.Contains(t, p.Notes[0].String(), "dead_head")
}

// The bound of a plan by hand: the nominal speed, the factor of the scatter and the
// chronograph's 2 % on it, carried by the root of the ratio, with the launcher's own
// speed and the heaviest projectile. A shot faster than the model's worst with its factor
// ends the session.
func TestPlannedBoundByHand(t *testing.T) {
	l := sample.Gentle()
	l.Mount.MovingAt = launcher.Exact("mount.moving_at", 1)
	p, err := Plan(sample.Weakly(), l, "")
	require.NoError(t, err)
	last := p.Pressures[2]
	for _, c := range p.Count {
		v := last.Nominal*(1+c.K*c.Scatter+0.02)*math.Sqrt(p.Carry) + 1
		assert.InEpsilon(t, 0.5*l.Projectile.Mass.High*v*v, c.Bound, sample.Rounding)
	}
	assert.InEpsilon(t, last.High*math.Sqrt(worst.ModelFactor), last.Stop, sample.Rounding)
	// Far above the switch's own pressure a mark is chosen from which the bound reaches up.
	for _, high := range []float64{0.5e5, 0.777e5, 0.99e5} {
		at := planPressure(l, high)
		assert.GreaterOrEqual(t, CarryUp*at, high*(1-1e-9))
		assert.Less(t, CarryUp*(at-l.Resolution()), high)
	}
}
