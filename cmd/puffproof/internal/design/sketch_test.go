package design

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/testdata/compare/random"
)

// The questions of which a sketch tells how much they may come to (search.Options.Sketch): the shot of normal operation
// with something else about it, much as faults and other objects have it.
var likeQuestions = map[string]func(c *pneumatics.Circuit, sc *pneumatics.Scenario){
	"twice the mass": func(c *pneumatics.Circuit, _ *pneumatics.Scenario) { c.Barrel.Mass *= 2 },
	"half the mass":  func(c *pneumatics.Circuit, _ *pneumatics.Scenario) { c.Barrel.Mass /= 2 },
	"no friction": func(c *pneumatics.Circuit, _ *pneumatics.Scenario) {
		c.Barrel.Breakaway, c.Barrel.Restart, c.Barrel.Sliding = 0, 0, 0
	},
	"no gap": func(c *pneumatics.Circuit, _ *pneumatics.Scenario) { c.Barrel.LeakArea = 0 },
	"a wide gap": func(c *pneumatics.Circuit, _ *pneumatics.Scenario) {
		c.Barrel.LeakArea = 0.3 * c.Barrel.ExitArea
	},
	"no jet": func(c *pneumatics.Circuit, _ *pneumatics.Scenario) { c.Barrel.JetFactor = 0 },
	"everything open": func(c *pneumatics.Circuit, sc *pneumatics.Scenario) {
		for i := range c.Paths {
			if k := c.Paths[i].Kind; k == pneumatics.Valve || k == pneumatics.HandValve {
				sc.Stuck = append(sc.Stuck, pneumatics.Stuck{Path: i, Opening: 1})
			}
		}
	},
}

// A sketch comes to no less of a search's maximum than the room that is left for it (worst.MayBeMost), wherever the energy
// matters: on the whale, and with
//
//	PUFFPROOF_LONG=1 go test ./cmd/puffproof/internal/design -run SketchMargin -v -timeout 0
//
// on PUFFPROOF_DESIGNS (40) random designs from PUFFPROOF_SEED (0) on.
func TestSketchMargin(t *testing.T) {
	study := &sketchStudy{}
	if os.Getenv("PUFFPROOF_LONG") == "" {
		study.take(t, "whale", read(t, demo(t, "whale.toml")))
	} else {
		designs := numberFrom("PUFFPROOF_DESIGNS", 40)
		for seed := uint64(numberFrom("PUFFPROOF_SEED", 0)); designs > 0; seed++ {
			l, problems := Read("random.toml", random.Design(seed))
			if len(problems) > 0 {
				continue
			}
			vary(l, rand.New(rand.NewPCG(seed, 5)))
			study.take(t, fmt.Sprint("seed ", seed), l)
			designs--
		}
	}
	require.NotEmpty(t, study.ratios)
	ratios, n := study.ratios, len(study.ratios)
	slices.Sort(ratios)
	t.Logf("%d questions: a search finds %.4f times as much in the middle, %.4f in one of twenty, %.4f at most; %d shots instead of %d",
		n, ratios[n/2], ratios[n-1-n/20], ratios[n-1], study.sketched, study.searched)
	assert.InDelta(t, 1, ratios[n/2], 1e-3, "mostly the same")
	require.NotEmpty(t, study.confirmed)
	confirmed, n := study.confirmed, len(study.confirmed)
	slices.Sort(confirmed)
	t.Logf("%d confirmed: a search finds %.4f times as much in the middle, %.4f in one of twenty, %.4f at most; %d shots instead of %d",
		n, confirmed[n/2], confirmed[n-1-n/20], confirmed[n-1], study.confirming, study.settled)
	assert.Less(t, study.confirming, study.settled)
	assert.Less(t, 2*study.sketched, study.searched)
}

// sketchStudy compares sketches with searches.
type sketchStudy struct {
	ratios              []float64 // of what a search finds to what a sketch does
	confirmed           []float64 // of what a search finds to what climbs from far away left of a sketch
	sketched, searched  int       // shots
	confirming, settled int       // shots of those climbs, and of the searches in their place
}

func (s *sketchStudy) take(t *testing.T, name string, l *launcher.Launcher) {
	t.Helper()
	const matters = 0.01 // [J], a part of the smallest limit
	high, known := l.SoakedHigh()
	if !known {
		return
	}
	limited, cancel := context.WithTimeout(context.Background(), 12*time.Second)
	defer cancel()
	q := worst.EnergyQuestion(l, high)
	normal, err := worst.Maximise(limited, l, q, search.Options{Seeds: worst.NewBox(l, q).Hills()})
	if limited.Err() != nil {
		t.Logf("%s: too long", name)
		return
	}
	require.NoError(t, err)
	if !normal.Tame() {
		return
	}
	for question, adjust := range likeQuestions {
		sketch, whole := likeMaxima(t, l, high, normal, adjust)
		if !sketch.Result.Sketched || whole.Undetermined() || !(whole.Value > matters) {
			continue
		}
		s.sketched += sketch.Result.Evaluations
		s.searched += whole.Result.Evaluations
		s.ratios = append(s.ratios, whole.Value/sketch.Value)
		if whole.Value > 1.02*sketch.Value {
			t.Logf("%s, %s: %.4g J, searched %.4g J", name, question, sketch.Value, whole.Value)
		}
		s.confirm(t, fmt.Sprint(name, ", ", question), sketch, whole)
		assert.True(t, worst.MayBeMost(sketch.Value, whole.Value), "%s, %s: %.4g J, searched %.4g J", name, question, sketch.Value, whole.Value)
	}
}

// confirm climbs from far away as a fault does whose sketch may count, and holds what comes of it against a search.
func (s *sketchStudy) confirm(t *testing.T, name string, sketch, whole *worst.Case) {
	t.Helper()
	sketched := sketch.Value
	was := sketch.Result.Evaluations
	confirmed := *sketch
	require.NoError(t, confirmed.Confirm(context.Background(), search.Light()))
	if !confirmed.Result.Sketched {
		return // it was searched
	}
	assert.GreaterOrEqual(t, confirmed.Value, sketched, name)
	s.confirmed = append(s.confirmed, whole.Value/confirmed.Value)
	s.confirming += confirmed.Result.Evaluations - was
	s.settled += whole.Result.Evaluations
	if whole.Value > 1.005*confirmed.Value {
		t.Logf("%s: confirmed at %.4g J, searched %.4g J", name, confirmed.Value, whole.Value)
	}
	assert.LessOrEqual(t, whole.Value, worst.Decisive*confirmed.Value, name)
}

// likeMaxima gives a sketch and a short search of a question like that of normal operation.
func likeMaxima(t *testing.T, l *launcher.Launcher, high float64, normal *worst.Case,
	adjust func(*pneumatics.Circuit, *pneumatics.Scenario)) (sketch, whole *worst.Case) {
	t.Helper()
	q := worst.EnergyQuestion(l, high)
	q.Adjust = func(c *pneumatics.Circuit, sc *pneumatics.Scenario, _ []float64) { adjust(c, sc) }
	o := search.Light(worst.SeedsFor(l, normal, q)...)
	whole, err := worst.Maximise(context.Background(), l, q, o)
	require.NoError(t, err)
	o.Sketch = true
	sketch, err = worst.Maximise(context.Background(), l, q, o)
	require.NoError(t, err)
	return sketch, whole
}
