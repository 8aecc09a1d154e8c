package limits

import (
	"context"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"testing"

	"github.com/stretchr/testify/require"
)

// The launchers of these tests are built here in SI units. All are invented.

// check runs the whole check.
func check(t testing.TB, l *launcher.Launcher) Report {
	t.Helper()
	r, err := Check(context.Background(), l, assessment.Options{})
	require.NoError(t, err)
	return r
}

// verdictOf gives the one verdict of an identifier.
func verdictOf(t testing.TB, r Report, id string) finding.Verdict {
	t.Helper()
	var found []finding.Verdict
	for _, v := range r.Verdicts {
		if v.ID == id {
			found = append(found, v)
		}
	}
	require.Len(t, found, 1, "verdicts %s", id)
	return found[0]
}

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
