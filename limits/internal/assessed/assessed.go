// Package assessed makes assessments for the tests of what reads them: by hand, or with
// one stage computed and no more.
package assessed

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// All are the stages: an assessment made by hand has in it what its test reads.
const All = assessment.EnergyStage | assessment.StuckStage | assessment.ObjectStage | assessment.EmptyingStage | assessment.FaultStage |
	assessment.FlightStage | assessment.SoundStage

// Weakly is for questions of structure: how figures go together, not how large they are.
func Weakly() context.Context { return sample.Lightly(context.Background(), 0.01) }

// Glance is for tests that ask what is there, not for figures: searches below it look
// at a fiftieth of the shots.
func Glance() context.Context { return sample.Lightly(context.Background(), 0.004) }

// Glimpse is for tests of words: a handful of shots a search.
func Glimpse() context.Context { return sample.Lightly(context.Background(), 0.00005) }

// Stated is the assessment of a launcher of which nothing is computed.
func Stated(t testing.TB, l *launcher.Launcher) *assessment.Assessment {
	t.Helper()
	limits, err := l.EnergyLimits("")
	require.NoError(t, err)
	return &assessment.Assessment{Computed: All, Launcher: l, Stated: l, Limits: limits}
}

// Energies has the energies of normal operation alone, and what measurements do to them.
func Energies(t testing.TB, l *launcher.Launcher, o assessment.Options) *assessment.Assessment {
	t.Helper()
	o.Want = assessment.EnergyStage
	a, err := assessment.Make(context.Background(), l, o)
	require.NoError(t, err)
	return a
}

// Objects has the energies and what else may get into the barrel, weakly searched.
func Objects(t testing.TB, l *launcher.Launcher) *assessment.Assessment {
	t.Helper()
	a := Energies(t, l, assessment.Options{Strength: 0.05})
	a.Computed |= assessment.ObjectStage
	if len(a.EnergyUnknown()) == 0 && (l.AnythingEnters() || l.Barrel.Fit == pneumatics.OverTube) {
		var err error
		a.Misuse, err = worst.Misuse(Weakly(), l, a.Normal, a.Energy.StartHigh)
		require.NoError(t, err)
	}
	return a
}

// Emptying has the emptying of a launcher, weakly searched, without the energies of the
// shots before.
func Emptying(t testing.TB, l *launcher.Launcher, detail vent.SheetDetail) *assessment.Assessment {
	t.Helper()
	a := Stated(t, l)
	target, _ := vent.Target(l, a.Limits.Total.Value)
	a.Loading = vent.LoadingOf(l, target)
	var err error
	a.Emptying, err = vent.Compute(Weakly(), vent.Input{Launcher: l, Limits: a.Limits, Loading: a.Loading}, detail)
	require.NoError(t, err)
	return a
}

// WithFaults is made by hand: normal operation is known and harmless, the faults are
// those given, and the limit is 1 J.
func WithFaults(l *launcher.Launcher, faults ...fault.Result) *assessment.Assessment {
	a := &assessment.Assessment{Computed: All, Launcher: l, Stated: l, Normal: &worst.Case{Result: search.Result{Found: true}},
		Energy: &worst.EnergyReport{Basis: finding.OnCeiling, Judged: 0.01}, Faults: &fault.Report{Faults: faults}}
	a.Limits.Total.Value = 1
	return a
}

// Faults computes at a glance the faults of a launcher whose ids are wanted, of which
// normal operation was not searched, on a day.
func Faults(t testing.TB, l *launcher.Launcher, day string, wanted func(id string) bool) []fault.Result {
	t.Helper()
	limits, err := launcher.LimitsOf(l.Limits, l.Projectile)
	require.NoError(t, err)
	r, err := fault.Compute(Glance(), fault.Input{Launcher: l, Limits: limits, NormalUnknown: finding.Words("not asked"), Day: day,
		Only: wanted, Emptying: &vent.Report{Target: 5000}, Loading: vent.LoadingOf(l, 5000)}, fault.LatentPairs)
	require.NoError(t, err)
	return r.Faults
}
