package limits

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/verdict"
	"puffproof/limits/worst"
)

// judged measures shots and asks for the energies with them, weakly searched, without the
// rest of the check.
func judged(t *testing.T, l *launcher.Launcher, shots []measure.Shot) (Report, *measure.Findings) {
	t.Helper()
	found, err := measure.Evaluate(assessed.Weakly(), l, &measure.ShotLog{Name: "s.csv", Shots: shots})
	require.NoError(t, err)
	a := assessed.Energies(t, l, assessment.Options{Measured: found, Strength: 0.05})
	require.NotNil(t, a.Measured)
	r := Report{Verdicts: []finding.Verdict{verdict.Of(a, finding.EnergyTotal), verdict.Of(a, finding.EnergyArea)}, Energy: a.Energy,
		Measured: a.Measured}
	r.conclude(verdict.MeasuredDecides(a))
	return r, found
}

// Measured shots that agree with the model take over: the larger of their bound
// and of the narrowed model without its factor is judged.
func TestMeasuredBasisDecides(t *testing.T) {
	l := sample.Gentle()
	const strength = 0.2 // of both searches: their figures are compared with each other
	r0 := assessed.Energies(t, l, assessment.Options{Strength: strength})
	require.Equal(t, finding.OnModel, r0.Energy.Basis)
	shots := assessed.Scattered(t, l, rand.New(rand.NewPCG(3, 3)), 0.03, 10, 0.20*sample.Bars, 0.30*sample.Bars)
	found, err := measure.Evaluate(assessed.Weakly(), l, &measure.ShotLog{Name: "s.csv", Shots: shots})
	require.NoError(t, err)
	a := assessed.Energies(t, l, assessment.Options{Measured: found, Strength: strength})
	e, m := a.Energy, a.Measured
	require.NotNil(t, m.Bound, m.NotCarried.String())
	require.True(t, found.Fit.Credible)
	assert.Equal(t, finding.OnMeasured, e.Basis)
	assert.InEpsilon(t, max(*m.Bound, m.Floor, e.WorstEnergy), e.Judged, 1e-12)
	assert.GreaterOrEqual(t, m.Carry, 1.0, "from the measured pressure upwards, the worst seat: never less")
	assert.GreaterOrEqual(t, *m.Bound, m.Group.UpperEnergy*(1-1e-12), "downward the bound is used unchanged")
	v := verdict.Of(a, finding.EnergyTotal)
	assert.Equal(t, finding.Pass, v.Status)
	assert.Equal(t, finding.OnMeasured, v.Basis)
	assert.LessOrEqual(t, e.WorstEnergy, r0.Energy.WorstEnergy*(1+1e-9), "a narrowed box has no worse case")
	r, err := Check(assessed.Glance(), l, assessment.Options{Measured: found})
	require.NoError(t, err)
	assert.Contains(t, assessed.Item(t, r.Items, finding.ItemShots).OpenWhy.String(), "s.csv does not count yet", "behind what is open")
}

// Beyond 1.25 times the measured gauge pressure the bound says nothing and the
// model with its factor goes on deciding.
func TestCarryStops(t *testing.T) {
	l := sample.Gentle()
	shots := assessed.Scattered(t, l, rand.New(rand.NewPCG(3, 4)), 0.03, 10, 0.20*sample.Bars)
	r, _ := judged(t, l, shots)
	assert.Nil(t, r.Measured.Bound)
	assert.Contains(t, r.Measured.NotCarried.String(), "measure at 0.24 bar or more")
	assert.Equal(t, finding.OnModel, r.Energy.Basis)
	assert.InEpsilon(t, worst.ModelFactor*r.Energy.WorstEnergy, r.Energy.Judged, 1e-12)
	assert.False(t, r.Confirmed)
}

// Shots far above the model's worst case fail, whatever the figures: both are
// small against the limit here.
func TestContradictionFails(t *testing.T) {
	l := sample.Gentle()
	v, _ := measure.NewShotModel(l.Clone()).Shot(0.30*sample.Bars, 0)
	shots := assessed.ShotsAt(0.30*sample.Bars, 2, 2*v, 2.02*v, 1.98*v, 2.01*v, 1.99*v, 2.03*v)
	r, found := judged(t, l, shots)
	require.False(t, found.Fit.Credible)
	total := verdictOf(t, r, "energy.total")
	assert.Equal(t, finding.Fail, total.Status)
	assert.Contains(t, total.Why.String(), "The model or an input is wrong")
	assert.False(t, r.Holds)
	assert.False(t, r.Confirmed)
}

// A shot above the ceiling cannot be: 0.1 L at 0.02 bar cannot throw 4 g at
// 60 m/s (7 J).
func TestAboveTheCeilingFails(t *testing.T) {
	l := sample.Gentle()
	l.Volumes[0].Volume = launcher.Exact("volumes.tank.volume", 0.1e-3)
	r, _ := judged(t, l, assessed.ShotsAt(0.30*sample.Bars, 2, 60, 61, 60.5, 59, 60))
	assert.Contains(t, verdictOf(t, r, "energy.total").Why.String(), "above the thermodynamic ceiling")
}

// Two shots are no bound; but a shot that the model cannot make even at its worst
// fails all the same.
func TestFewShotsCanStillContradict(t *testing.T) {
	l := sample.Gentle()
	v, _ := measure.NewShotModel(l.Clone()).Shot(0.30*sample.Bars, 0)
	r, _ := judged(t, l, assessed.ShotsAt(0.30*sample.Bars, 1, 2.2*v, 2.25*v))
	assert.Nil(t, r.Measured.Group)
	total := verdictOf(t, r, "energy.total")
	assert.Equal(t, finding.Fail, total.Status)
	assert.Contains(t, total.Why.String(), "above the worst case of the model")
	assert.False(t, r.Holds)
}

// One shot much faster than eleven others makes the scatter not normal. The
// group still counts, its bound holds the fast shot, and more shots that leave the
// fast one in never take a contradiction away.
func TestFastOutlierIsNeverThrownAway(t *testing.T) {
	l := sample.Gentle()
	v, _ := measure.NewShotModel(l.Clone()).Shot(0.30*sample.Bars, 0)
	speeds := []float64{v, 0.98 * v, 1.02 * v, 1.01 * v, 0.99 * v, v, 1.005 * v, 0.995 * v, 0.98 * v, 1.02 * v, v, 2.2 * v}
	for _, from := range []int{0, 4, 8} { // 12, 8 and 4 shots
		found, err := measure.Evaluate(assessed.Weakly(), l, &measure.ShotLog{Shots: assessed.ShotsAt(0.30*sample.Bars, 2, speeds[from:]...)})
		require.NoError(t, err)
		g := found.Groups[0]
		assert.GreaterOrEqual(t, g.UpperSpeed, g.Fastest, "%d shots", g.Shots)
		require.NotNil(t, found.Wrong, "%d shots", g.Shots)
		assert.Greater(t, found.Wrong.Energy, found.Wrong.Allowed)
		assert.False(t, found.Agrees())
		if g.Shots == 12 {
			assert.True(t, g.NotNormal())
			assert.True(t, g.Admissible(), "a series may not lose its bound because it holds a fast shot")
		}
	}
	r, _ := judged(t, l, assessed.ShotsAt(0.30*sample.Bars, 2, speeds...))
	total := verdictOf(t, r, "energy.total")
	assert.Equal(t, finding.Fail, total.Status)
	assert.Greater(t, *total.Value, *total.Limit, "no failure beside a figure that would pass")
	assert.Negative(t, *total.Margin)
}
