package setpoint

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

func settingOf(t testing.TB, l *launcher.Launcher) Answer {
	t.Helper()
	s, err := Find(context.Background(), l, Options{})
	require.NoError(t, err)
	return s
}

// toleranced is an invented launcher drawn at random: bands on what matters most,
// a relief valve that carries the supply, sometimes a fixed seat.
func toleranced(r *rand.Rand) *launcher.Launcher {
	band := func(key string, v, share float64) launcher.Band { return sample.Between(key, v*(1-share), v*(1+share)) }
	l := sample.Plain()
	l.Ambient.Temperature = sample.Between("ambient.temperature", 278, 298)
	l.Ambient.Hottest = launcher.Exact("ambient.hottest", 305+15*r.Float64())
	l.Volumes[0].Volume = band("volumes.tank.volume", (0.3+2*r.Float64())*1e-3, 0.03)
	l.Paths[0].Flow.Value = band("paths.fire.Cv", 0.4+2.2*r.Float64(), 0.15)
	l.Paths[0].OpeningTime = sample.Between("paths.fire.opening_time", 0, 0.005+0.06*r.Float64())
	l.Barrel.Travel = band("barrel.travel", 0.05+0.15*r.Float64(), 0.04)
	l.Barrel.FixedSeat = r.IntN(2) == 0
	l.Projectile.Mass = band("projectile.mass", (3+5*r.Float64())*sample.Grams, 0.1)
	l.Projectile.Breakaway = sample.Between("projectile.breakaway_force", 0, 20*r.Float64())
	l.Projectile.Sliding = sample.Between("projectile.sliding_force", 0, 0.5)
	l.Switch.CutOut = band("pressure_switch.cut_out", 0.3*sample.Bars, 0.05)
	l.Switch.CutIn = band("pressure_switch.cut_in", 0.2*sample.Bars, 0.05)
	l.Switch.Differential = launcher.Exact("pressure_switch.differential", 0.01*sample.Bars)
	l.Switch.ReactionTime = sample.Between("pressure_switch.reaction_time", 0, 0.1)
	sample.WithRelief(sample.Between("set", 0.48*sample.Bars, 0.52*sample.Bars),
		sample.Between("full", 0.58*sample.Bars, 0.62*sample.Bars), 8*sample.Millimetres, 0.62)(l)
	l.Paths[len(l.Paths)-1].ReseatPressure = sample.Between("reseat", 0.40*sample.Bars, 0.44*sample.Bars)
	return l
}

// size of the brute-force comparison; PUFFPROOF_LONG=1 runs the whole one.
func bruteForce() (designs, launchers int) {
	if os.Getenv("PUFFPROOF_LONG") != "" {
		return 200, 5000
	}
	return 4, 1000
}

// Launchers drawn at random from the tolerance box, corners included, fired from
// any start pressure up to the highest at the recommended cut-out, never exceed
// the limit with the model factor; nor with the switch welded shut. At most 2 %
// above the answer a computed shot does, when an energy verdict on the model
// binds. Brute force is the source here: nothing of the search is used.
func TestSetpointAgainstBruteForce(t *testing.T) {
	designs, launchers := bruteForce()
	r := rand.New(rand.NewPCG(3, 14))
	energyBinds := 0
	for d := range designs {
		l := toleranced(r)
		s := settingOf(t, l)
		if !s.Works {
			assert.NotEmpty(t, s.Why.String(), "design %d", d)
			continue
		}
		settled := l.Clone()
		settled.Switch.CutOut = MovedBand(l.Switch.CutOut, *s.CutOut)
		settled.Switch.CutIn = MovedBand(l.Switch.CutIn, *s.CutIn)
		MoveRelief(&settled.Paths[settled.ReliefOnSupply()], *s.ReliefSet)
		soaked, _ := settled.SoakedHigh()
		for _, high := range []float64{soaked, settled.Overcharge().Pressure} {
			b := worst.NewBox(settled, worst.EnergyQuestion(settled, high))
			e := b.Evaluator()
			for i := range launchers {
				u := drawn(r, b.Dim)
				if energy := e.Value(u); energy*worst.ModelFactor > s.Allowed {
					t.Fatalf("design %d, launcher %d: %.4g J from up to %.0f Pa, allowed %.4g J", d, i, energy*worst.ModelFactor, high, s.Allowed)
				}
			}
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

// energyOfPoint fires the launcher of a labelled point, at the accuracy of the
// search and of check [J].
func energyOfPoint(l *launcher.Launcher, p worst.Point) float64 {
	at := map[string]float64{}
	for _, c := range p {
		at[c.Key] = c.Value
	}
	w := l.Clone()
	for _, b := range worst.ShotBands(w) {
		if b == nil {
			continue
		}
		if v, ok := at[b.Key]; ok {
			b.Nominal = v
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
	l.Limits.TotalEnergy = launcher.Exact("limits.total_energy", 0.3)
	l.Volumes[0].RatedPressure = launcher.Exact("volumes.tank.rated_pressure", 10*sample.Bars)
	energy := func(p float64) float64 {
		c, sc := worst.NominalScenario(l, p)
		var sim pneumatics.Sim
		return worst.JudgedEnergy(0)(c, sim.Run(c, sc, pneumatics.Options{}))
	}
	require.Greater(t, energy(0.55*sample.Bars)*worst.ModelFactor, 0.3)
	require.Less(t, energy(0.60*sample.Bars)*worst.ModelFactor, 0.3, "it falls as the pressure rises")
	require.Greater(t, energy(0.90*sample.Bars)*worst.ModelFactor, 0.3)
	s := settingOf(t, l)
	assert.Less(t, s.Pressure, 0.55*sample.Bars)
	for p := 0.001 * sample.Bars; p <= s.Pressure; p += 0.001 * sample.Bars {
		require.LessOrEqual(t, energy(p)*worst.ModelFactor, s.Allowed, "from %.4f bar", p/sample.Bars)
	}
	require.NotNil(t, s.Witness)
	assert.Greater(t, energy(*s.Witness)*worst.ModelFactor, s.Allowed*(1-5e-3)) // the search is coarser than this shot
}

// The envelope never falls: more energy allowed, never a lower pressure.
func TestMoreEnergyNeverALowerPressure(t *testing.T) {
	l := toleranced(rand.New(rand.NewPCG(1, 2)))
	last := 0.0
	for _, allowed := range []float64{0.1, 0.3} {
		c, err := energyCrossing(l, context.Background(), allowed, 4*sample.Bars, nil)
		require.NoError(t, err)
		assert.Greater(t, c.high, c.low)
		assert.GreaterOrEqual(t, c.low, last, "%v J", allowed)
		last = c.low
	}
}

// A chain without any tolerance can be reckoned by hand: the fault pressure is the
// full-flow pressure, 0.1 bar above the set pressure; the cut-out is just below the
// set pressure; the cut-in a differential below it.
func TestChainByHand(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Switch.Differential = launcher.Exact("pressure_switch.differential", 0.05*sample.Bars)
	})
	sample.WithRelief(launcher.Exact("set", 0.5*sample.Bars), launcher.Exact("full", 0.6*sample.Bars), 8*sample.Millimetres, 0.62)(l)
	caps := pressureCaps{energy: 0.8 * sample.Bars, rating: math.Inf(1), blocked: math.Inf(1)}
	kept := solveChain(l, caps)
	const tolerance = 1 // [Pa]: rungs are kept apart by a millionth, bisection is finer
	assert.Equal(t, reliefKept, kept.relief)
	assert.Equal(t, "ladder.order", kept.binding)
	assert.InDelta(t, 0.5*sample.Bars, kept.cutOut, tolerance)
	// Set higher the valve keeps its share: full flow at 1.2 times the set pressure.
	assert.InDelta(t, 0.8/1.2*sample.Bars, kept.setMax, tolerance)
	caps.energy = 0.45 * sample.Bars
	lowered := solveChain(l, caps)
	assert.Equal(t, reliefLowered, lowered.relief)
	assert.Equal(t, "energy.fault", lowered.binding)
	assert.InDelta(t, 0.35*sample.Bars, lowered.set, tolerance, "the 0.1 bar to full flow stay")
	assert.InDelta(t, 0.35*sample.Bars, lowered.cutOut, tolerance)
	assert.LessOrEqual(t, lowered.cutIn, lowered.cutOut-0.05*sample.Bars+tolerance)
	caps.rating = 0.3 * sample.Bars
	rated := solveChain(l, caps)
	assert.Equal(t, "vessel.rating", rated.binding)
	assert.InDelta(t, 0.2*sample.Bars, rated.cutOut, tolerance)
	// A launcher of which no relief valve is known needs one.
	assert.Equal(t, reliefAdded, solveChain(sample.Plain(), caps).relief)
	// Nothing holds below the valve's own step to full flow.
	caps.energy = 0.05 * sample.Bars
	none := solveChain(l, caps)
	assert.True(t, math.IsNaN(none.cutOut))
	assert.Equal(t, "relief.capacity", none.binding)
}

// Heat: gas sealed at 278.15 K and heated to 318.15 K rises by the ratio of the
// temperatures in absolute pressure (Gay-Lussac). The cut-out is what remains.
func TestChainLeavesRoomForHeat(t *testing.T) {
	l := sample.Plain()
	l.Ambient.Temperature, l.Ambient.Hottest = launcher.Exact("t", 278.15), launcher.Exact("h", 318.15)
	sample.WithRelief(launcher.Exact("set", 0.8*sample.Bars), launcher.Exact("full", 0.9*sample.Bars), 8*sample.Millimetres, 0.62)(l)
	c := solveChain(l, pressureCaps{energy: 2 * sample.Bars, rating: math.Inf(1), blocked: math.Inf(1)})
	want := (0.8*sample.Bars+101325)*278.15/318.15 - 101325
	assert.InDelta(t, want, c.cutOut, 1) // [Pa]: rungs are kept apart by a millionth
}

func TestSetpointBindsOnARating(t *testing.T) {
	l := toleranced(rand.New(rand.NewPCG(5, 6)))
	l.Volumes[0].RatedPressure = launcher.Exact("volumes.tank.rated_pressure", 0.2*sample.Bars)
	s := settingOf(t, l)
	assert.Equal(t, "vessel.rating", s.Binding)
	require.NotNil(t, s.ReliefFullFlowMax)
	assert.Equal(t, 0.2*sample.Bars, *s.ReliefFullFlowMax)
}

// What the answer proposes passes the check's own ladder verdicts, and where no
// cut-out works a change is shown with its figures.
func TestAnswerPassesTheLadderVerdicts(t *testing.T) {
	l := toleranced(rand.New(rand.NewPCG(8, 9)))
	s := settingOf(t, l)
	require.True(t, s.Works, s.Why.String())
	settled := l.Clone()
	settled.Switch.CutOut = MovedBand(l.Switch.CutOut, *s.CutOut)
	settled.Switch.CutIn = MovedBand(l.Switch.CutIn, *s.CutIn)
	MoveRelief(&settled.Paths[settled.ReliefOnSupply()], *s.ReliefSet)
	for _, id := range []string{finding.LadderOrder, finding.ReliefCapacity, finding.ReliefRating, finding.SwitchBand, finding.HeatSoak} {
		v := ladderOf(t, id, settled)
		assert.Equal(t, finding.Pass, v.Status, "%s: %s", v.ID, v.Why.String())
	}
	for i := 1; i < len(s.Ladder); i++ {
		assert.GreaterOrEqual(t, s.Ladder[i].Gauge, s.Ladder[i-1].Gauge, s.Ladder[i].Name)
	}
	require.NotEmpty(t, s.Sensitivity)
	for i := 1; i < len(s.Sensitivity); i++ {
		assert.LessOrEqual(t, s.Sensitivity[i].CutOut, s.Sensitivity[i-1].CutOut)
	}
}

// A change that is listed makes the target hold: it is put into the launcher, and
// random launchers do not exceed the limit at the pressure that the target needs.
func TestChangesHold(t *testing.T) {
	l := toleranced(rand.New(rand.NewPCG(4, 4)))
	l.Paths[0].Flow.Value = sample.Between("paths.fire.Cv", 2.2, 2.6)
	l.Barrel.Travel = sample.Between("barrel.travel", 0.24, 0.26)
	l.Projectile.Breakaway = sample.Between("projectile.breakaway_force", 0, 0.5)
	const target = 0.2 * sample.Bars
	s := &solver{ctx: context.Background(), l: l, allowed: 0.5}
	for _, v := range levers(l) {
		if v.key == "paths.fire.Cv" {
			require.NoError(t, s.tryLever(v, target))
			require.Len(t, s.out.Changes, 1)
			w := v.scaled(l, *s.out.Changes[0].To / *s.out.Changes[0].From)
			assert.Less(t, *s.out.Changes[0].To, *s.out.Changes[0].From)
			w.Switch.CutOut = MovedBand(w.Switch.CutOut, target)
			MoveRelief(&w.Paths[w.ReliefOnSupply()], setFor(w, soakedOf(w)))
			b := worst.NewBox(w, worst.EnergyQuestion(w, w.Overcharge().Pressure))
			e, r := b.Evaluator(), rand.New(rand.NewPCG(6, 7))
			for range 500 {
				assert.LessOrEqual(t, e.Value(drawn(r, b.Dim))*worst.ModelFactor, s.allowed)
			}
		}
	}
	require.NotEmpty(t, s.out.Changes)
}

func soakedOf(l *launcher.Launcher) float64 { p, _ := l.SoakedHigh(); return p }
