package render

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits"
)

// The first line says what the exit status says: verdicts and pairs that do not hold
// stand in it, and an open jam drill is no pass.
func TestTheFirstLineOfFaultsHidesNothing(t *testing.T) {
	single := []limits.FaultResult{{ID: "a.leaking", Part: "a", Mode: limits.LeakingValve, State: "any", Effect: limits.ChangesShot, Status: limits.Pass}}
	pair := []limits.FaultResult{{ID: "a.leaking", With: "b.blocked", Part: "a", Mode: limits.LeakingValve, State: "any", Effect: limits.ChangesShot, Status: limits.Fail}}
	jam := []limits.FaultResult{{ID: "projectile.jammed", Part: "projectile", Mode: limits.Jammed, State: "any", Effect: limits.NoEffect, Status: limits.OpenItem, Freed: 5}}
	for _, c := range []struct {
		name   string
		report limits.FaultReport
		want   string
	}{
		{"a verdict fails", limits.FaultReport{Faults: single, Verdicts: []limits.Verdict{{ID: "loading.empty", Status: limits.Fail}}}, "Not held: loading.empty fails."},
		{"a verdict is unknown", limits.FaultReport{Faults: single, Verdicts: []limits.Verdict{{ID: "shot.unasked", Status: limits.Unknown}}}, "Not held: shot.unasked is unknown."},
		{"a pair fails", limits.FaultReport{Faults: single, Pairs: pair, AllPairs: true}, "Of 1 pair 1 exceed"},
		{"a jam", limits.FaultReport{Faults: jam, Limit: 0.5}, "OPEN until the jam drill is confirmed"},
	} {
		var b strings.Builder
		screen := FaultsScreen{Style: Style{Width: 400}, Report: &c.report, Detail: FindingOnly}
		require.NoError(t, screen.Write(&b))
		assert.Contains(t, b.String(), c.want, c.name)
	}
}
