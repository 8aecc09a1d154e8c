package setpoint

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/catalogue"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Launchers drawn at random from the tolerance box, corners included, and what is still
// harder beside the hardest of them, fired from any start pressure up to the highest at the
// recommended cut-out, never exceed the limit with the model factor; nor with the switch
// welded shut. At most 2 %
// above the answer a computed shot does, when an energy verdict on the model
// binds. Brute force is the source here: nothing of the search is used.
func TestSetpointAgainstBruteForce(t *testing.T) {
	t.Parallel()
	ctx, designs, launchers := bruteForce(t)
	r := rand.New(rand.NewPCG(3, 14))
	energyBinds := 0
	for d := range designs {
		l := toleranced(r)
		solved, err := newSolver(ctx, l, Options{})
		require.NoError(t, err)
		require.NoError(t, solved.settings())
		s := &solved.out
		if !s.Works {
			assert.NotEmpty(t, s.Why.String(), "design %d", d)
			continue
		}
		settled := l.Clone()
		settled.Switch.CutOut = MovedBand(l.Switch.CutOut, *s.CutOut)
		settled.Switch.CutIn = MovedBand(l.Switch.CutIn, *s.CutIn)
		MoveRelief(&settled.Paths[settled.ReliefOnSupply()], *s.ReliefSet)
		soaked, _ := settled.SoakedHigh()
		for _, c := range []struct {
			l    *launcher.Launcher
			high float64
		}{{settled, soaked}, {settled, settled.Overcharge().Pressure}, {l, s.Pressure}} {
			b := worst.NewBox(c.l, worst.EnergyQuestion(c.l, c.high))
			hardest := hardestOf(b.Evaluator(), launchers, func() []float64 { return drawn(r, b.Dim) }) * worst.ModelFactor
			require.LessOrEqual(t, hardest, s.Allowed, "design %d, from up to %.0f Pa", d, c.high)
		}
		if s.Witness == nil || s.Basis != finding.OnModel {
			continue
		}
		energyBinds++
		assert.LessOrEqual(t, *s.Witness, 1.02*s.Pressure, "design %d", d)
		// 1e-6: the labelled point has gone through the values of its coordinates.
		assert.Greater(t, energyOfPoint(l, s.WitnessAt)*worst.ModelFactor, s.Allowed*(1-1e-6), "design %d: the shot that proves the bound", d)
	}
	assert.Positive(t, energyBinds, "the energy must bind for some designs, else the test shows little")
}

// size of the brute-force comparison; PUFFPROOF_LONG=1 runs the whole one. By default the
// searches make a small share of their effort: the few launchers must not beat even those.
func bruteForce(t *testing.T) (ctx context.Context, designs, launchers int) {
	if os.Getenv("PUFFPROOF_LONG") != "" {
		return t.Context(), 200, 5000
	}
	if os.Getenv("PUFFPROOF_MORE") != "" {
		return sample.Lightly(t.Context(), 0.03), 2, 300
	}
	return sample.Lightly(t.Context(), 0.01), 1, 100
}

// drawn is a point of the box: half of the coordinates at an end, the rest inside;
// every tenth a corner.
func drawn(r *rand.Rand, dim int) []float64 {
	u := make([]float64, dim)
	corner := r.IntN(10) == 0
	for i := range u {
		if corner || r.IntN(2) == 0 {
			u[i] = float64(r.IntN(2))
		} else {
			u[i] = r.Float64()
		}
	}
	return u
}

// hardestOf is the largest energy of so many launchers, and of those that differ from the
// hardest of them in one coordinate after the other, as long as one at an end of its band
// shoots harder [J].
func hardestOf(e *worst.Evaluator, launchers int, draw func() []float64) float64 {
	best, at := 0.0, draw()
	try := func(u []float64) bool {
		energy := e.Value(u)
		if energy > best {
			best, at = energy, u
			return true
		}
		return false
	}
	for range launchers {
		try(draw())
	}
	for better := true; better; {
		better = false
		for i := range at {
			for _, end := range []float64{0, 1} {
				u := slices.Clone(at)
				u[i] = end
				better = try(u) || better
			}
		}
	}
	return best
}

// energyOfPoint fires the launcher of a labelled point, at the accuracy of the
// search and of check [J].
func energyOfPoint(l *launcher.Launcher, p worst.Point) float64 {
	at := map[string]float64{}
	for _, c := range p {
		at[c.Key] = c.Value
	}
	w := l.Clone()
	for _, q := range catalogue.ShotCoordinates(w) {
		if v, ok := at[q.Key]; ok {
			q.Put(v)
		}
	}
	best := 0.0
	for _, from := range w.StatesBefore() {
		c, sc := worst.NominalScenario(w, at["start pressure"])
		sc.From, sc.SupplyRuns, sc.Until = from, w.SupplyFires(), 120
		sc.Seat = at["seating"] * c.Barrel.Travel
		var sim pneumatics.Sim
		best = math.Max(best, worst.JudgedEnergy(worst.MovingAt(w))(c,
			sim.Run(c, sc, pneumatics.Options{Tolerance: 1e-5, NoPeak: true, MaxSteps: 1000})))
	}
	return best
}

// A sticky ball behind a slow valve shoots harder from 0.55 bar than from 0.60 bar
// (rows R of testdata/reference/shots.csv: 0.321 and 0.124 J). A root of the single shot's
// energy between 0.60 and 0.90 bar would find a crossing there; the answer is the
// first from below.
func TestSetpointWhereEnergyFallsWithPressure(t *testing.T) {
	l := sample.Plain(sample.PartsOff, sample.FireCv(0.4), sample.Friction(30, 0.6))
	energy := func(p float64) float64 {
		c, sc := worst.NominalScenario(l, p)
		var sim pneumatics.Sim
		return worst.JudgedEnergy(0)(c, sim.Run(c, sc, pneumatics.Options{}))
	}
	require.Greater(t, energy(0.55*sample.Bars)*worst.ModelFactor, 0.3)
	require.Less(t, energy(0.60*sample.Bars)*worst.ModelFactor, 0.3, "it falls as the pressure rises")
	require.Greater(t, energy(0.90*sample.Bars)*worst.ModelFactor, 0.3)
	c, err := energyCrossing(context.Background(), l, 0.3, 4*sample.Bars, nil)
	require.NoError(t, err)
	assert.Less(t, c.low, 0.55*sample.Bars)
	for p := 0.001 * sample.Bars; p <= c.low; p += 0.001 * sample.Bars {
		require.LessOrEqual(t, energy(p)*worst.ModelFactor, 0.3, "from %.4f bar", p/sample.Bars)
	}
	require.False(t, math.IsInf(c.high, 1))
	assert.Greater(t, energy(c.high)*worst.ModelFactor, 0.3*(1-5e-3)) // the search is coarser than this shot
	assert.LessOrEqual(t, c.low, c.high*(1-0.0195), "below the proven shot by what two searches may differ")
}

// The envelope never falls: more energy allowed, never a lower pressure.
func TestMoreEnergyNeverALowerPressure(t *testing.T) {
	t.Parallel()
	l := toleranced(rand.New(rand.NewPCG(1, 2)))
	last := 0.0
	for _, allowed := range []float64{0.1, 0.3} {
		c, err := energyCrossing(context.Background(), l, allowed, 4*sample.Bars, nil)
		require.NoError(t, err)
		assert.Greater(t, c.high, c.low)
		assert.GreaterOrEqual(t, c.low, last, "%v J", allowed)
		last = c.low
	}
}
