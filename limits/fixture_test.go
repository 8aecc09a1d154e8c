package limits

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
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

func settingOf(t testing.TB, l *launcher.Launcher) setpoint.Answer {
	t.Helper()
	s, err := setpoint.Find(context.Background(), l, setpoint.Options{})
	require.NoError(t, err)
	return s
}

func cycles(first float64, steps ...float64) []float64 {
	out := []float64{first}
	for _, s := range steps {
		out = append(out, first+s)
	}
	return out
}
