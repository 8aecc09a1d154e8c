package verdict

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// A hand valve does not empty by itself: what it empties holds while somebody opens it, the time and the way out alike,
// and a state that a hand makes is no more than that.
func TestWhatAHandEmptiesIsConditional(t *testing.T) {
	l := sample.Dumped()
	dump := sample.PathNamed(l, "dump_dose")
	for _, by := range []bool{false, true} {
		name := "a valve that power moves"
		if by {
			name = "a hand valve"
			dump.Kind, dump.Unpowered = pneumatics.HandValve, pneumatics.Stays
		}
		a := assessed.Emptying(t, l, vent.SlowEndOnly)
		for _, id := range []string{finding.VentShutdown, finding.LoadingEmpty} {
			a.Faults = assessed.WithFaults(l).Faults
			v := Of(a, id)
			if id == finding.VentShutdown {
				assert.Equal(t, by, slices.Contains(v.Items, finding.ItemVentByHand), "%s, %s: %s", name, id, v.Why.String())
			} else {
				assert.Equal(t, by, strings.Contains(v.Condition.String(), "turns by hand"), "%s, %s", name, id)
				assert.Equal(t, []string{finding.ItemLoadingWait}, v.Items, "it has to empty")
			}
		}
	}
	v, tap := finding.Verdict{Status: finding.Pass}, &assessment.Assessment{Launcher: l, Emptying: &vent.Report{ByHand: []string{"tap"}}}
	emptiedByHand(tap, &v)
	assert.Equal(t, finding.Conditional, v.Status)
	v.HoldsWhile(finding.Words("the plug is out"), finding.ItemSupplyOff)
	emptiedByHand(tap, &v)
	assert.Equal(t, []string{finding.ItemSupplyOff, finding.ItemVentByHand}, v.Items, "both conditions")
	assert.Contains(t, v.Condition.String(), "plug is out; and whoever")
	failed := finding.Verdict{Status: finding.Fail}
	emptiedByHand(tap, &failed)
	assert.Equal(t, finding.Fail, failed.Status)
	assert.Empty(t, turnedToLoad(&launcher.Launcher{}))
}
