package advise

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// failing is a judgement in which one verdict fails, at so many times its limit.
func failing(id string, times float64, why finding.Text) *judged {
	limit := 0.5
	value := times * limit
	return &judged{report: limits.Report{Verdicts: []finding.Verdict{{ID: id, Status: finding.Fail, Value: &value, Limit: &limit, Why: why}}}}
}

// What stands in the way is screened from then on: the valve that opens faster and the stuck projectile, each by its own corners, before
// anything is made stricter in general. Where it still fails, that is.
func TestWhatStandsInTheWayIsScreened(t *testing.T) {
	slap := finding.Say("worst of %d single faults: fire %s", 3, string(fault.OpensFaster))
	a := &attempt{name: "all", last: turned{l: sample.Plain()}, sieve: sieve{factor: worst.ModelFactor}}
	require.True(t, a.mend(failing(finding.EnergyFault, 2, slap)))
	assert.True(t, a.sieve.snaps)
	assert.Equal(t, worst.ModelFactor, a.sieve.factor)
	require.True(t, a.mend(failing(finding.EnergyFault, 2, slap)))
	assert.Greater(t, a.sieve.factor, worst.ModelFactor, "screened, it fails all the same")

	b := &attempt{name: "all", last: turned{l: sample.Plain()}, sieve: sieve{factor: worst.ModelFactor}}
	require.True(t, b.mend(failing(finding.EnergyFault, 2, finding.Words("worst of 3: the switch welded"))))
	assert.False(t, b.sieve.snaps)
	assert.Greater(t, b.sieve.factor, worst.ModelFactor)

	c := &attempt{name: "all", last: turned{l: sample.Plain()}, sieve: sieve{factor: worst.ModelFactor}}
	require.True(t, c.mend(failing(finding.BarrelStalled, 3, nil)))
	assert.True(t, c.sieve.jams)
	c.sieve.free(1.5) // screened it is half of what was judged
	assert.InDelta(t, 2*1.05, c.sieve.frees, 1e-12)
	c.sieve.free(1.5)
	assert.InDelta(t, 2*1.05, c.sieve.frees, 1e-12, "judged once it counts once")

	d := &attempt{name: "all", last: turned{l: sample.Plain()}, sieve: sieve{factor: worst.ModelFactor}}
	require.True(t, d.mend(failing(finding.PeopleLanding, 1, nil)), "what comes down too hard is mended by less energy")
	assert.Greater(t, d.sieve.factor, worst.ModelFactor)
}

// With the corners of a valve that is slapped the hardest shot is that of this fault, where it is harder than those of normal operation.
func TestAFasterValveIsScreenedAtItsOwnCorners(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		p := fires(l)
		p.OpeningTime = sample.Between(p.OpeningTime.Key, 0.08, 0.1)
		p.Usual = 0.03                                                 // stated slower than its drive makes it: it opens at once
		l.Supply.DeadHead = launcher.Exact("supply.dead_head", 0.45e5) // so that no other fault shoots much harder
	})
	s := &sieve{factor: 1}
	require.NoError(t, s.sharpen(t.Context(), l))
	normal := s.figures(l, 0, math.Inf(1)).hardest
	assert.Empty(t, s.fast)
	s.snaps = true
	require.NoError(t, s.sharpenAsked(t.Context(), l))
	require.NotEmpty(t, s.fast)
	slapped := s.figures(l, 0, math.Inf(1)).hardest
	assert.Greater(t, slapped, 1.1*normal)
	at, _ := l.SoakedHigh()
	w := snapped(l)
	assert.Zero(t, fires(w).OpeningTime.Low)
	b := worst.NewBox(w, worst.EnergyQuestion(w, at))
	limits, err := l.EnergyLimits("")
	require.NoError(t, err)
	allowed, _ := limits.Allowed(l.Projectile.ContactDiameter)
	assert.InEpsilon(t, b.Evaluator().Value(s.fast[0].at)/allowed, slapped, 1e-9)
}

// text is a design whose figures stand as they are written.
type text struct {
	blank
	of map[string]string
}

func (d text) Stated(key string) string { return d.of[key] }

// A figure of the file that was begun from is declared as it stands, so that a way can be built by it: one who has none yet goes on.
// What is no figure with that word, or is the builder's own, is left alone.
func TestFiguresOfATemplateAreDeclaredAsTheyStand(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Template = []string{"projectile.mass", "supply.curve"} })
	b := newDraft(text{blank{l}, map[string]string{"projectile.mass": `"4.0 g ± 0.4 g, template"`, "barrel.travel": `"150 mm, measured"`}},
		nil)
	b.begun()
	require.Len(t, b.list, 1)
	c := b.list[0]
	assert.Equal(t, "projectile.mass", c.Key)
	assert.Equal(t, `"4.0 g ± 0.4 g, declared"`, c.To.Line())
	assert.Equal(t, Declaration, c.Sort)
	turned := merged(b.list, []Change{{Key: "projectile.mass", To: number(2e-3, finding.Grams, 1e-4), Sort: Bought}})
	assert.Equal(t, Bought, turned[0].Sort, "one that is turned is a change like others")
	assert.False(t, turned[0].Begun)
}
