package checklist

import (
	"context"
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/require"
)

// relieved is a vented tank whose supply could push to 4 bar, with a switch that stops
// it early and a relief valve that carries it.
func relieved() *launcher.Launcher {
	l := sample.VentedTank()
	l.Supply.DeadHead = launcher.Exact("", 4e5)
	l.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: sample.Between("", 0.1e5, 0.12e5), CutIn: sample.Between("", 0.05e5, 0.06e5), Adjustable: launcher.No}
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief, Flow: sample.Orifice(8e-3, 0.62),
		SetPressure: launcher.Exact("", 0.2e5), FullFlowPressure: launcher.Exact("", 0.25e5), ReseatPressure: launcher.Exact("", 0.15e5)})
	return l
}

// judgedAlone is an assessment whose normal operation is known and harmless, with the
// faults given and a limit of 1 J.
func judgedAlone(l *launcher.Launcher, faults ...fault.Result) *assessment.Assessment {
	a := &assessment.Assessment{Launcher: l, Stated: l, Normal: &worst.Case{Result: search.Result{Found: true}},
		Energy: &worst.EnergyReport{Basis: finding.OnCeiling, Judged: 0.01}, Faults: &fault.Report{Faults: faults}}
	a.Limits.Total.Value = 1
	return a
}

// weakly is for questions of structure: how figures go together, not how large they are.
func weakly() context.Context { return search.WithStrength(context.Background(), 0.05) }

// ventInputOf is what the emptying of a launcher is computed from, without the
// energies of the shots before.
func ventInputOf(t *testing.T, l *launcher.Launcher) vent.Input {
	t.Helper()
	limits, err := launcher.LimitsOf(l.Limits, l.Projectile)
	require.NoError(t, err)
	target, _ := vent.Target(l, limits.Total.Value)
	return vent.Input{Launcher: l, Limits: limits, Loading: vent.LoadingOf(l, target)}
}

// objectsOf is the assessment with the energies and the misuse alone.
func objectsOf(t *testing.T, l *launcher.Launcher) *assessment.Assessment {
	t.Helper()
	a := withEnergies(t, l, assessment.Options{})
	if a.EnergyUnknown() == "" && l.AnythingEnters() {
		var err error
		a.Misuse, err = worst.Misuse(l, context.Background(), a.Normal, a.Energy.StartHigh)
		require.NoError(t, err)
	}
	return a
}

func itemIDs(items []finding.Item) []string {
	var ids []string
	for _, it := range items {
		ids = append(ids, it.ID)
	}
	return ids
}

// glance is a context for tests that ask for structure, not for figures: searches
// below it look at a fiftieth of the shots.
func glance() context.Context { return search.WithStrength(context.Background(), 0.02) }

// withEnergies is the assessment of a launcher with the energies of normal operation
// alone, and what measurements do to them.
func withEnergies(t testing.TB, l *launcher.Launcher, o assessment.Options) *assessment.Assessment {
	t.Helper()
	o.Want = assessment.EnergyStage
	a, err := assessment.Make(context.Background(), l, o)
	require.NoError(t, err)
	return a
}

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
