package worst

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// A maximum whose shot comes to less when it is judged again gives way to the next, which
// is not thrown away; one that cannot be computed leaves the case open.
func TestTheOtherMaximaStay(t *testing.T) {
	b := NewBox(sample.Plain(), EnergyQuestion(sample.Plain(), 1e5))
	point := func(u float64) []float64 { return []float64{u} }
	w := &Case{Box: b, Value: math.NaN(), Result: search.Result{Found: true, Best: search.Maximum{Point: point(1), Value: 1.37},
		Maxima: []search.Maximum{{Point: point(1), Value: 1.37}, {Point: point(0.5), Value: 0.43}, {Point: point(0.2), Value: 0.3}}}}
	r := &pneumatics.Result{Outcome: pneumatics.Left}
	w.settle([]shot{{at: point(1), result: r}, {at: point(0.5), value: 0.432, result: r}, {at: point(0.2), value: math.NaN(), result: r}}, 3)
	assert.Equal(t, 0.432, w.Value)
	assert.Equal(t, search.Maximum{Point: point(0.5), Value: 0.432}, w.Result.Best)
	assert.InDelta(t, 5e4, w.start, 1e-9)
	assert.Equal(t, 0.0, w.Result.Maxima[2].Value)
	assert.InDelta(t, 0.132, w.Result.Gap, 1e-9)
	assert.True(t, w.Undetermined())
	assert.Equal(t, point(0.2), w.Result.UndefinedAt)

	w = &Case{Box: b, Value: math.NaN(), Result: search.Result{Found: true, Maxima: []search.Maximum{{Point: point(1), Value: 1}}}}
	w.settle([]shot{{at: point(1), value: math.NaN(), result: r}}, 1)
	assert.True(t, math.IsNaN(w.Value))
	assert.True(t, w.Undetermined())
}

// Where the shot of a search and the same one at full accuracy disagree, the larger
// counts; what accuracy explains does not. The finer run takes more steps.
func TestTheLargerOfTwoRunsCounts(t *testing.T) {
	l := sample.Plain()
	b := NewBox(l, EnergyQuestion(l, 0.5*sample.Bars))
	steps := func(o pneumatics.Options) int { return b.shootWith([]float64{1}, o).result.Steps }
	few := steps(b.fine().Options)
	require.Greater(t, steps(pneumatics.Options{MaxSteps: exactSteps}), few)
	figure := func(coarse, fine float64) float64 {
		q := EnergyQuestion(l, 0.5*sample.Bars)
		q.Measure = func(_ *pneumatics.Circuit, r *pneumatics.Result) float64 {
			if r.Steps <= few {
				return coarse
			}
			return fine
		}
		return NewBox(l, q).shoot([]float64{1}).value
	}
	assert.Equal(t, 0.4, figure(0.4, 0.3))
	assert.Equal(t, 0.4, figure(0.3, 0.4))
	assert.Equal(t, 0.4, figure(0.402, 0.4))
	assert.Equal(t, 0.4, figure(0.4, math.NaN()))
	assert.Equal(t, 0.4, figure(math.NaN(), 0.4))
}

// What could not be computed says which quantity to state more narrowly: the one that
// settles it at its nominal value, or that none does alone.
func TestWhatIsOpenSaysWhatToNarrow(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Projectile.Breakaway = sample.Between("projectile.breakaway_force", 0, 10)
		l.Barrel.Travel = sample.Between("barrel.travel", 0.2, 0.4)
	})
	q := EnergyQuestion(l, 0.5*sample.Bars)
	open := func(where func(b *pneumatics.Barrel) bool) *Case {
		q.Measure = func(c *pneumatics.Circuit, _ *pneumatics.Result) float64 {
			if where(&c.Barrel) {
				return math.NaN()
			}
			return 1
		}
		w, err := Maximise(weakly(), l, q, search.Light())
		require.NoError(t, err)
		return w
	}
	assert.Equal(t, "state more narrowly: projectile.breakaway_force",
		open(func(b *pneumatics.Barrel) bool { return b.Breakaway > 6 }).Narrow.String())
	assert.Contains(t, open(func(b *pneumatics.Barrel) bool { return b.Breakaway > 4 && b.Travel > 0.25 }).Narrow.String(),
		"no tolerance alone")
	assert.Empty(t, open(func(*pneumatics.Barrel) bool { return false }).Narrow)
}
