package screen

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/fault"
	"puffproof/limits/finding"
)

// The first line says what the exit status says: verdicts and pairs that do not hold
// stand in it, and an open jam drill is no pass.
func TestTheFirstLineOfFaultsHidesNothing(t *testing.T) {
	single := []fault.Result{{ID: "a.leaking", Part: "a", Mode: fault.LeakingValve, State: "any", Effect: fault.ChangesShot,
		Status: finding.Pass}}
	pair := []fault.Result{{ID: "a.leaking", With: "b.blocked", Part: "a", Mode: fault.LeakingValve, State: "any", Effect: fault.ChangesShot,
		Status: finding.Fail}}
	jam := []fault.Result{{ID: "projectile.jammed", Part: "projectile", Mode: fault.Jammed, State: "any", Effect: fault.NoEffect,
		Status: finding.OpenItem, Freed: 5}}
	for _, c := range []struct {
		name   string
		report fault.Report
		want   string
	}{
		{"a verdict fails", fault.Report{Faults: single, Verdicts: []finding.Verdict{{ID: "loading.empty", Status: finding.Fail}}},
			"Not held: loading.empty fails."},
		{"a verdict is unknown", fault.Report{Faults: single, Verdicts: []finding.Verdict{{ID: "shot.unasked", Status: finding.Unknown}}},
			"Not held: shot.unasked is unknown."},
		{"a pair fails", fault.Report{Faults: single, Pairs: pair, AllPairs: true}, "Of 1 pair 1 exceed"},
		{"a jam", fault.Report{Faults: jam, Limit: 0.5}, "OPEN until the jam drill is confirmed"},
	} {
		var b strings.Builder
		screen := FaultsScreen{Frame: Frame{Style: Style{Width: 400}, Detail: FindingOnly}, Report: &c.report}
		require.NoError(t, screen.Write(&b))
		assert.Contains(t, b.String(), c.want, c.name)
	}
}
