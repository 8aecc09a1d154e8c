package fault

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
)

// glance is a context for tests that ask for structure, not for figures: searches
// below it look at a fiftieth of the shots.
func glance() context.Context { return sample.Lightly(context.Background(), 0.1) }

// inputOf is what the faults of a launcher are computed from, of which normal operation was
// not searched.
func inputOf(t testing.TB, l *launcher.Launcher) Input {
	t.Helper()
	limits, err := launcher.LimitsOf(l.Limits, l.Projectile)
	require.NoError(t, err)
	return Input{Launcher: l, Limits: limits, NormalUnknown: finding.Words("not asked"),
		Emptying: &vent.Report{Target: 5000, RunsOn: vent.RunsOnOf(l, 5000)}, Loading: vent.LoadingOf(l, 5000)}
}

// stageOf is a stage over the faults of a launcher: faults can be named, and run one by one.
func stageOf(t testing.TB, l *launcher.Launcher) *stage { return newStage(glance(), inputOf(t, l)) }

// runFaults computes the faults that wanted picks.
func runFaults(t testing.TB, st *stage, wanted func(*fault) bool) []Result {
	t.Helper()
	var picked []fault
	for _, f := range st.singleFaults() {
		if wanted(&f) {
			picked = append(picked, f)
		}
	}
	out, err := st.run(picked)
	require.NoError(t, err)
	return out
}

// runFault computes the fault of one id.
func runFault(t testing.TB, st *stage, id string) Result {
	t.Helper()
	return faultNamed(t, runFaults(t, st, func(f *fault) bool { return f.id == id }), id)
}

// faultOf names one fault of a launcher.
func faultOf(t testing.TB, st *stage, id string) fault {
	t.Helper()
	for _, f := range st.singleFaults() {
		if f.id == id {
			return f
		}
	}
	require.Fail(t, "no fault "+id)
	return fault{}
}

func faultNamed(t testing.TB, all []Result, id string) Result {
	t.Helper()
	for _, f := range all {
		if f.ID == id {
			return f
		}
	}
	require.Fail(t, "no fault "+id)
	return Result{}
}
