package limits

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
)

// The launchers of these tests are built here in SI units. All are invented.

// check runs the whole check at a glimpse: for what a report is made of and how its parts
// go together, not for figures.
func check(t testing.TB, l *launcher.Launcher) Report {
	t.Helper()
	r, err := Check(assessed.Glimpse(), l, assessment.Options{})
	require.NoError(t, err)
	return r
}

// The whale's check at a glimpse, made once.
var whaleCheck = sync.OnceValues(func() (Report, error) { return Check(assessed.Glimpse(), sample.Whale(), assessment.Options{}) })

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

// settingOf gives set pressures at a glance.
func settingOf(t testing.TB, l *launcher.Launcher) setpoint.Answer {
	t.Helper()
	s, err := setpoint.Find(assessed.Glance(), l, setpoint.Options{})
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
