package worst

import (
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A seed that does not fit the box is not used; one that fits is, and decides where
// nothing else finds its shot.
func TestSeedsMustFitTheBox(t *testing.T) {
	l := sample.Plain(sample.CutOut(0.5*sample.Bars), func(l *launcher.Launcher) {
		l.Projectile.Breakaway = sample.Between("breakaway", 0, 15)
	})
	q := EnergyQuestion(l, 0.5*sample.Bars)
	plain, err := Maximise(weakly(), l, q, search.Light())
	require.NoError(t, err)
	for _, seed := range [][]float64{{1}, {1, 1, 1}} {
		w, err := Maximise(weakly(), l, q, search.Light(seed))
		require.NoError(t, err)
		assert.Equal(t, plain.Value, w.Value)
		assert.Equal(t, plain.Result.Evaluations, w.Result.Evaluations)
	}
	w, err := Maximise(weakly(), l, q, search.Light([]float64{0.987, 1}))
	require.NoError(t, err)
	assert.NotEqual(t, plain.Result.Evaluations, w.Result.Evaluations, "one that fits is tried")
}

// The worst point of normal operation goes on to a question with the same coordinates,
// and with further ones in their middle.
func TestSeedsForAQuestion(t *testing.T) {
	l := sample.Plain()
	normal := &Case{Box: NewBox(l, EnergyQuestion(l, 1e5)), Result: search.Result{Found: true, Best: search.Maximum{Point: []float64{0.9}}}}
	q := EnergyQuestion(l, 2e5)
	assert.Equal(t, [][]float64{{0.9}}, SeedsFor(l, normal, q))
	q.Extra = []string{"one", "two"}
	assert.Equal(t, [][]float64{{0.9, 0.5, 0.5}}, SeedsFor(l, normal, q))
	assert.Empty(t, SeedsFor(l, nil, q))
	normal.Result.Found = false
	assert.Empty(t, SeedsFor(l, normal, q))
}

// A search that was already made is used only where its points fit; else normal
// operation is searched in full, unless the ceiling decides.
func TestKnownShotsReplaceTheFullSearch(t *testing.T) {
	l := sample.Plain()
	start := []string{"start pressure"}
	s := EnergyInput{Launcher: l, Seeds: []StartSeed{{start, []float64{0.3}, 5e4}, {start, []float64{0.3}, 3e5},
		{[]string{"another"}, []float64{0.3}, 5e4}}}
	near := search.Quick([]float64{0.5}, []float64{1})
	near.Far = 1
	assert.Equal(t, near, s.search(1e5, true), "each at its own start pressure, or at the box's top")
	s.Seeds = s.Seeds[2:]
	assert.Equal(t, search.Options{}, s.search(1e5, true))
	assert.Equal(t, search.Quick(), s.search(1e5, false))
}

// A tight and a loose fit, right in and just behind the muzzle, as the keys of either kind of barrel have it; all else stays.
func TestOtherHills(t *testing.T) {
	bore := &Box{Labels: []string{"barrel.bore", "projectile.diameter", "start pressure", "seating"}, Seat: 3}
	assert.ElementsMatch(t, [][]float64{{1, 0, 0.7, 0}, {0, 1, 0.7, 0}, {1, 0, 0.7, 0.93}, {0, 1, 0.7, 0.93}},
		bore.OtherHills([]float64{0.5, 0.5, 0.7, 0.5}))
	tube := &Box{Labels: []string{"projectile.inside_diameter", "barrel.tube_outer_diameter"}, Seat: -1}
	assert.ElementsMatch(t, [][]float64{{0, 1}}, tube.OtherHills([]float64{1, 0}), "loose is where it is")
}

// Normal operation is searched from every kind of hill too, at the highest start pressure.
func TestNormalOperationStartsOnEveryHill(t *testing.T) {
	l := sample.Plain()
	l.Barrel.Bore, l.Projectile.Diameter = sample.Between("barrel.bore", 0.0408, 0.0412), sample.Between("projectile.diameter", 0.0405, 0.0411)
	b := NewBox(l, EnergyQuestion(l, 1e5))
	o := EnergyInput{Launcher: l}.search(1e5, true)
	require.Len(t, o.Seeds, len(b.Hills()))
	require.GreaterOrEqual(t, len(o.Seeds), 2, "tight and loose")
	for _, u := range o.Seeds {
		assert.Equal(t, 1.0, u[b.Start])
	}
}
