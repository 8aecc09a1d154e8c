package limits

import (
	"context"
	"math"
	"math/rand/v2"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/search"
	"puffproof/limits/setpoint"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// synthetic makes shots of a launcher whose true values differ from the design.
func synthetic(t *testing.T, truth *launcher.Launcher, r *rand.Rand, scatter float64, n int, gauges ...float64) []measure.Shot {
	t.Helper()
	m := measure.NewShotModel(truth)
	var out []measure.Shot
	for _, g := range gauges {
		v, _ := m.Shot(g, 293.15)
		require.Positive(t, v)
		for i := range n {
			out = append(out, measure.Shot{Line: len(out) + 2, Gauge: g, Method: measure.Chronograph, SpeedError: 1e-4, Speed: v * (1 + scatter*r.NormFloat64()),
				Temperature: 293.15, Projectile: string(rune('A' + i%2))})
		}
	}
	return out
}

// shotsAt makes shots of one pressure whose chronograph stands at the muzzle.
func shotsAt(gauge float64, balls int, speeds ...float64) []measure.Shot {
	var out []measure.Shot
	for i, v := range speeds {
		out = append(out, measure.Shot{Line: i + 2, Gauge: gauge, Method: measure.Chronograph, Speed: v, Temperature: 293.15,
			Projectile: string(rune('A' + i%balls))})
	}
	return out
}

func cycles(first float64, steps ...float64) []float64 {
	out := []float64{first}
	for _, s := range steps {
		out = append(out, first+s)
	}
	return out
}

func settingOf(t testing.TB, l *launcher.Launcher) setpoint.Answer {
	t.Helper()
	s, err := setpoint.Find(context.Background(), l, setpoint.Options{})
	require.NoError(t, err)
	return s
}

func itemIn(t *testing.T, items []finding.Item, id string) finding.Item {
	t.Helper()
	for _, it := range items {
		if it.ID == id {
			return it
		}
	}
	require.Fail(t, "no item "+id)
	return finding.Item{}
}

func faultNamed(t testing.TB, all []fault.Result, id string) fault.Result {
	t.Helper()
	for _, f := range all {
		if f.ID == id {
			return f
		}
	}
	require.Fail(t, "no fault "+id)
	return fault.Result{}
}

// weakly is for questions of structure: how figures go together, not how large they are.
func weakly() context.Context { return search.WithStrength(context.Background(), 0.05) }

// fineItems are the items that logs answer, both done by a person.
func fineItems() []finding.Item {
	return []finding.Item{{ID: finding.ItemVentTest, Done: &finding.Confirmation{Who: "two", Date: "2026-05-01"}},
		{ID: finding.ItemLeakDown, Done: &finding.Confirmation{Who: "two", Date: "2026-05-01"}}}
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
		assert.Equal(t, faultNamed(t, r.Faults, f.SameAs).Judged, f.Judged, f.ID)
	}
	if f.Status != finding.Unknown && f.Mode != fault.Jammed {
		assert.Equal(t, worst.ModelFactor*f.Energy, f.Judged, f.ID+": no energy of the model is judged without its factor")
	}
	if f.Effect == fault.ChangesShot && f.Status != finding.Unknown && f.Mode != fault.TwoLoaded {
		assert.GreaterOrEqual(t, f.Energy, faultNamed(t, r.Faults, "fire.stuck-shut").Energy,
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

// glance is a context for tests that ask for structure, not for figures: searches
// below it look at a fiftieth of the shots.
func glance() context.Context { return search.WithStrength(context.Background(), 0.02) }

// mustVentTop is the highest pressure that the ladder allows in the sensed volume
// [Pa gauge].
func mustVentTop(t *testing.T, l *launcher.Launcher) float64 {
	t.Helper()
	top, _, ok := vent.HighestStart(l)
	require.True(t, ok)
	return top
}
