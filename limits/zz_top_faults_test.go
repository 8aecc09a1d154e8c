package limits

import (
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every fault is named once, says what it does and, where no shot was computed
// for it, why it cannot change the shot.
func TestEveryFaultIsRunOrSaysWhyNot(t *testing.T) {
	for name, c := range map[string]struct {
		l   *launcher.Launcher
		run func() (*fault.Report, error)
	}{"whale": {sample.Whale(), whaleFaults}, "rocket": {sample.Rocket(), rocketFaults}, "plain": {sample.Plain(), plainFaults}} {
		t.Run(name, func(t *testing.T) {
			r, err := c.run()
			require.NoError(t, err)
			seen := map[string]bool{}
			for _, f := range r.Faults {
				assert.False(t, seen[f.ID], f.ID)
				seen[f.ID] = true
				checkFault(t, c.l, r, &f)
			}
			assert.Equal(t, len(r.Faults), r.Searched+r.Unsearched)
			for i := range c.l.Paths {
				found := false
				for id := range seen {
					found = found || strings.HasPrefix(id, strings.ToLower(c.l.Paths[i].Name)+".")
				}
				assert.True(t, found, "no fault of path "+c.l.Paths[i].Name)
			}
			for _, s := range []string{"charging", "armed", "loading", "firing"} {
				assert.True(t, seen["power.lost."+s])
			}
		})
	}
}

// The worst come first: failures, unknowns, what is open, and then by energy.
func TestTheWorstFaultsComeFirst(t *testing.T) {
	r, err := plainFaults()
	require.NoError(t, err)
	rank := map[finding.Status]int{finding.Fail: 0, finding.Unknown: 1, finding.OpenItem: 2, finding.Pass: 3}
	require.Equal(t, finding.Fail, r.Faults[0].Status)
	for i := range r.Faults[1:] {
		a, b := &r.Faults[i], &r.Faults[i+1]
		assert.LessOrEqual(t, rank[a.Status], rank[b.Status], "%s before %s", a.ID, b.ID)
		if a.Status == b.Status && a.Effect != fault.NoEffect && b.Effect != fault.NoEffect {
			assert.GreaterOrEqual(t, a.Judged, b.Judged, "%s before %s", a.ID, b.ID)
		}
	}
}

// Every item of the checklist has one name, says why and how, and belongs to a
// verdict that exists.
func TestChecklistIsWhole(t *testing.T) {
	rep, err := Check(glance(), sample.Whale(), assessment.Options{})
	require.NoError(t, err)
	ids := map[string]bool{}
	for _, v := range rep.Verdicts {
		ids[v.ID] = true
	}
	seen := map[string]bool{}
	for _, it := range rep.Items {
		assert.False(t, seen[it.ID], it.ID)
		seen[it.ID] = true
		assert.NotEmpty(t, it.Title, it.ID)
		assert.NotEmpty(t, it.Why.String(), it.ID)
		assert.NotEmpty(t, it.How.String(), it.ID)
		assert.NotEmpty(t, it.Source, it.ID)
		if it.Verdict != "" {
			assert.True(t, ids[it.Verdict], it.ID+" rests on "+it.Verdict)
		}
	}
	for _, id := range []string{finding.ItemVentTest, finding.ItemLeakDown, finding.ItemReliefTest, finding.ItemBore, finding.ItemSwitchTest, "relief.no-shut-off",
		"control.key-and-stop", "mount.elevation", "electric.fuses", "landing.clear", "drill.jam", "loading.wait", "open.tag", "cold.drain",
		"age.retire", "clear.round"} {
		assert.True(t, seen[id], id)
	}
}

// faultsOf runs all of Faults at a glance.
func faultsOf(t testing.TB, l *launcher.Launcher, o FaultOptions) *fault.Report {
	t.Helper()
	r, err := Faults(glance(), l, o)
	require.NoError(t, err)
	return r
}

// The faults of three launchers, computed once.
var (
	whaleFaults  = sync.OnceValues(func() (*fault.Report, error) { return Faults(glance(), sample.Whale(), FaultOptions{}) })
	rocketFaults = sync.OnceValues(func() (*fault.Report, error) { return Faults(glance(), sample.Rocket(), FaultOptions{}) })
	plainFaults  = sync.OnceValues(func() (*fault.Report, error) { return Faults(glance(), sample.Plain(), FaultOptions{}) })
)
