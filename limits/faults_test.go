package limits

import (
	"math"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
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

// checkFault holds one fault of a whole report against what every fault has.
func checkFault(t *testing.T, l *launcher.Launcher, r *fault.Report, f *fault.Result) {
	t.Helper()
	assert.NotEmpty(t, f.Consequence.String(), f.ID)
	assert.NotContains(t, f.ID, " ")
	if f.Effect == fault.NoEffect {
		assert.NotEmpty(t, f.Reason.String(), f.ID)
		assert.Zero(t, f.Shots, f.ID)
	} else if f.SameAs == "" && f.Status != finding.Unknown {
		assert.Positive(t, f.Shots, f.ID)
	}
	if f.SameAs != "" {
		assert.Equal(t, assessed.Fault(t, r.Faults, f.SameAs).Judged, f.Judged, f.ID)
	}
	if f.Status != finding.Unknown && f.Mode != fault.Jammed {
		assert.Equal(t, worst.ModelFactor*f.Energy, f.Judged, f.ID+": no energy of the model is judged without its factor")
	}
	if f.Effect == fault.ChangesShot && f.Status != finding.Unknown && f.Mode != fault.TwoLoaded {
		assert.GreaterOrEqual(t, f.Energy, assessed.Fault(t, r.Faults, "fire.stuck-shut").Energy,
			f.ID+": never below normal operation, the part may also work")
	}
	if f.Latent {
		assert.NotEmpty(t, f.RevealedBy, f.ID)
	}
	if f.Mode == fault.Jammed { // it does not leave: no energy of a shot, but what a hand could free
		assert.True(t, math.IsNaN(f.Judged), "a figure of zero would be read as harmless")
		assert.Positive(t, f.Freed)
		assert.GreaterOrEqual(t, f.WorstGauge, 0.99*mustVentTop(t, l))
	}
	assert.NotContains(t, f.Name(), "power power")
	assert.NotContains(t, f.Name(), "relief relief")
}

// mustVentTop is the highest pressure that the ladder allows in the sensed volume
// [Pa gauge].
func mustVentTop(t *testing.T, l *launcher.Launcher) float64 {
	t.Helper()
	top, _, ok := vent.HighestStart(l)
	require.True(t, ok)
	return top
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

// A blocked vent: trapped where it is the only way out; where another stays open
// the consequence says how long that takes, which is what emptying with that one
// alone takes.
func TestABlockedVentSaysWhatBecomesOfTheAir(t *testing.T) {
	blocked := func(l *launcher.Launcher) string {
		return assessed.Fault(t, faultsOf(t, l).Faults, "vent.stuck-shut").Consequence.String()
	}
	assert.Contains(t, blocked(sample.VentedTank()), "trapped: tank")
	two := sample.VentedTank()
	second := two.Paths[1]
	second.Name, second.Flow.Value = "second", launcher.Exact("", 0.8e-3)
	two.Paths = append(two.Paths, second)
	alone := sample.VentedTank()
	alone.Paths[1] = second
	r, err := Empty(assessed.Glance(), alone, "")
	require.NoError(t, err)
	slowest := 0.0
	for _, c := range r.Cases {
		if c.Kind == vent.PowerLost && c.From == pneumatics.Armed && c.Volume == "tank" {
			slowest = c.Slowest
		}
	}
	require.False(t, math.IsInf(slowest, 1))
	assert.Contains(t, blocked(two), "takes up to "+vent.Minutes(slowest).String())
}

// faultsOf runs all of Faults at a glance.
func faultsOf(t testing.TB, l *launcher.Launcher) *fault.Report {
	t.Helper()
	r, err := Faults(assessed.Glance(), l, "", fault.LatentPairs)
	require.NoError(t, err)
	return r
}

// The faults of three launchers, computed once.
var (
	whaleFaults  = sync.OnceValues(func() (*fault.Report, error) { return Faults(assessed.Glance(), sample.Whale(), "", fault.LatentPairs) })
	rocketFaults = sync.OnceValues(func() (*fault.Report, error) {
		return Faults(assessed.Glance(), sample.Rocket(), "", fault.LatentPairs)
	})
	plainFaults = sync.OnceValues(func() (*fault.Report, error) { return Faults(assessed.Glance(), sample.Plain(), "", fault.LatentPairs) })
)

// The same item says the same in every command: what it reveals, what to expect, and the
// answer that it has.
func TestAnItemSaysTheSameInEveryCommand(t *testing.T) {
	l := sample.VentedTank()
	whole := check(t, l)
	empties, err := Empty(assessed.Glance(), l, "")
	require.NoError(t, err)
	faults, err := Faults(assessed.Glance(), l, "", fault.LatentPairs)
	require.NoError(t, err)
	require.NotEmpty(t, empties.Items)
	require.NotEmpty(t, faults.Items)
	for _, it := range slices.Concat(empties.Items, faults.Items) {
		assert.Equal(t, assessed.Item(t, whole.Items, it.ID), it, it.ID)
	}
	assert.Contains(t, assessed.Item(t, empties.Items, finding.ItemVentTest).Why.String(), "It reveals: ")
	assert.Contains(t, assessed.Item(t, whole.Items, finding.ItemStaysEmpty).Expect.String(), "can come back to")
}
