package setpoint

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
)

// solverFor solves a launcher whose energy limit is reached at 1.1 bar, without the
// searches that find such a pressure.
func solverFor(l *launcher.Launcher) *solver {
	witness := 1.101 * sample.Bars
	byHand := l.Supply == nil
	l = pumped(l)
	s := &solver{ctx: context.Background(), l: l, byHand: byHand, allowed: 0.5, energy: crossing{low: 1.1 * sample.Bars, high: witness},
		caps: pressureCaps{energy: 1.1 * sample.Bars, rating: l.LowestRating(), blocked: math.Inf(1)}}
	s.out = Answer{AllowedWhy: "energy.total", Pressure: 1.1 * sample.Bars, Witness: &witness, Top: 4 * sample.Bars}
	s.chain = solveChain(l, s.caps)
	s.out.Unknown = s.unknown()
	s.toSettingSteps()
	s.answer()
	s.ladder()
	if err := s.source(); err != nil {
		panic(err)
	}
	s.parts()
	s.procedure()
	s.endOfRange()
	s.notes()
	return s
}

// settingOf is the answer on a launcher by weak searches: for what does not hang on how
// hard the hardest shot is.
func settingOf(t testing.TB, l *launcher.Launcher, o Options) Answer {
	t.Helper()
	s, err := Find(sample.Weakly(), l, o)
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

// asked gives one verdict on a launcher for which nothing needs to be searched.
func asked(t testing.TB, l *launcher.Launcher, id string) finding.Verdict {
	t.Helper()
	limits, err := l.EnergyLimits("")
	require.NoError(t, err)
	return verdict.Of(&assessment.Assessment{Computed: assessed.All, Launcher: l, Stated: l, Limits: limits}, id)
}
