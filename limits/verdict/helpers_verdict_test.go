package verdict

import (
	"context"
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/search"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/require"
)

// asked gives one verdict on a launcher for which nothing needs to be searched.
func asked(t testing.TB, l *launcher.Launcher, question func(*assessment.Assessment) finding.Verdict) finding.Verdict {
	t.Helper()
	limits, err := l.EnergyLimits("")
	require.NoError(t, err)
	return question(&assessment.Assessment{Launcher: l, Stated: l, Limits: limits})
}

// withEnergies is the assessment of a launcher with the energies of normal operation
// alone, and what measurements do to them.
func withEnergies(t testing.TB, l *launcher.Launcher, o assessment.Options) *assessment.Assessment {
	t.Helper()
	o.Want = assessment.EnergyStage
	a, err := assessment.Make(context.Background(), l, o)
	require.NoError(t, err)
	return a
}

// tankAndDose is the vented tank with a shut valve before a dose, from which it fires.
// The air is that of hand-made answers.
func tankAndDose() *launcher.Launcher {
	l := sample.VentedTank()
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("", 1e-3)})
	l.Paths[0].From = "dose"
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "feed", From: "tank", To: "dose", Kind: pneumatics.Valve,
		OpenIn: pneumatics.SetOf(pneumatics.Charging), Flow: sample.Orifice(1e-3, 0.75)})
	return l
}

// shotsAt makes shots of one pressure whose chronograph stands at the muzzle.
func shotsAt(gauge float64, balls int, speeds ...float64) []measure.Shot {
	var out []measure.Shot
	for i, v := range speeds {
		out = append(out, measure.Shot{Line: i + 2, Gauge: gauge, Method: measure.Chronograph, Speed: v, Temperature: 293.15,
			Projectile: string(rune('A' + i%balls))})
	}
	return out
}

// energiesOf computes the energies of a check alone.
func energiesOf(t *testing.T, l *launcher.Launcher, d worst.Depth) *assessment.Assessment {
	t.Helper()
	return withEnergies(t, l, assessment.Options{Depth: d})
}

// judgedOnly computes the emptying without the energies of the shots before.
func judgedOnly(t *testing.T, l *launcher.Launcher) *vent.Report { return assessedVent(t, l).Emptying }

// assessedVent has the emptying of a launcher and nothing else.
func assessedVent(t *testing.T, l *launcher.Launcher) *assessment.Assessment {
	t.Helper()
	in := ventInputOf(t, l)
	e, err := vent.Compute(weakly(), in, vent.SlowEndOnly)
	require.NoError(t, err)
	return &assessment.Assessment{Launcher: l, Stated: l, Limits: in.Limits, Loading: in.Loading, Emptying: e}
}

// glance is a context for tests that ask for structure, not for figures: searches
// below it look at a fiftieth of the shots.
func glance() context.Context { return search.WithStrength(context.Background(), 0.02) }

// ventInputOf is what the emptying of a launcher is computed from, without the
// energies of the shots before.
func ventInputOf(t *testing.T, l *launcher.Launcher) vent.Input {
	t.Helper()
	limits, err := launcher.LimitsOf(l.Limits, l.Projectile)
	require.NoError(t, err)
	target, _ := vent.Target(l, limits.Total.Value)
	return vent.Input{Launcher: l, Limits: limits, Loading: vent.LoadingOf(l, target)}
}

// weakly is for questions of structure: how figures go together, not how large they are.
func weakly() context.Context { return search.WithStrength(context.Background(), 0.05) }

// faultsBy computes the faults of a launcher whose ids are wanted, of which normal
// operation was not searched, on a day.
func faultsBy(t testing.TB, l *launcher.Launcher, day string, wanted func(id string) bool) []fault.Result {
	t.Helper()
	limits, err := launcher.LimitsOf(l.Limits, l.Projectile)
	require.NoError(t, err)
	r, err := fault.Compute(glance(), fault.Input{Launcher: l, Limits: limits, NormalUnknown: finding.Words("not asked"), Day: day, Only: wanted,
		Emptying: &vent.Report{Target: 5000}, Loading: vent.LoadingOf(l, 5000)}, fault.LatentPairs)
	require.NoError(t, err)
	return r.Faults
}
