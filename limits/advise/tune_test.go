package advise

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// screened is a sieve with corners of a launcher, and its dials of pressure and travel.
func screened(t *testing.T) (*sieve, *launcher.Launcher, []*dial) {
	l := sample.Plain()
	s := &sieve{factor: worst.ModelFactor}
	require.NoError(t, s.sharpen(sample.Weakly(), l))
	require.NotEmpty(t, s.hard)
	return s, l, []*dial{pressureDial(l), travelDial(l)}
}

// What is not asked of a launcher that already loses too much makes none better: where a screening stays below its bound it has every
// figure, and where it does not the whole of it does not either.
func TestAScreeningThatIsCutShortLosesNothing(t *testing.T) {
	s, l, dials := screened(t)
	r, short := rand.New(rand.NewPCG(1, 2)), 0
	for range 40 {
		var at []float64
		for _, d := range dials {
			at = append(at, d.low*math.Pow(d.high/d.low, r.Float64()))
		}
		whole := s.turn(l, dials, at)
		for _, bound := range []float64{whole.loss - 1, whole.loss - 1e-6, whole.loss + 1e-6, -1, 3} {
			cut := s.turnBelow(l, dials, at, bound)
			require.Equal(t, whole.loss < bound, cut.loss < bound, "at %v below %v: %v and %v", at, bound, whole, cut)
			if cut.loss < bound {
				require.Equal(t, whole.figures, cut.figures)
				continue
			}
			require.LessOrEqual(t, cut.loss, whole.loss+1e-12, "it is a bound from below")
			if math.IsInf(cut.figures.weakest, 1) {
				short++
			}
		}
	}
	assert.Positive(t, short, "some were cut short")
}

// A walk comes to where one comes that screens every neighbour whole, and as often as it meets it; with less work.
func TestAWalkComesToTheSamePlaceWithLessWork(t *testing.T) {
	s, l, dials := screened(t)
	for _, share := range []float64{0.1, 0.5, 0.9} {
		var logs []float64
		for _, d := range dials {
			logs = append(logs, math.Log(d.low*math.Pow(d.high/d.low, share)))
		}
		before := s.turns
		want := plainWalk(s, l, dials, logs)
		plain := s.turns - before
		w := walk{s: s, l: l, dials: dials, seen: map[string]float64{}}
		before = s.turns
		got, _ := w.from(logs, math.Inf(1))
		first := s.turns - before
		require.Equal(t, want.values, got.values)
		assert.Equal(t, want.loss, got.loss)
		assert.Less(t, first, plain, "what was met before is not screened again")
		before = s.turns
		_, better := w.from(logs, got.loss)
		assert.False(t, better, "a second time it is no better")
		assert.Less(t, s.turns-before, first)
	}
}

// plainWalk screens every neighbour whole.
func plainWalk(s *sieve, l *launcher.Launcher, dials []*dial, logs []float64) turned {
	var at []float64
	for i, d := range dials {
		at = append(at, d.round(l, math.Min(math.Max(math.Exp(logs[i]), d.low), d.high)))
	}
	best := s.turn(l, dials, at)
	for range 12 {
		better := false
		for i, d := range dials {
			for _, by := range [...]float64{0.97, 1.03, 0.9, 1.1, 0.75, 1.33} {
				try := append([]float64(nil), best.values...)
				if try[i] = d.round(l, best.values[i]*by); try[i] == best.values[i] || try[i] < d.low || try[i] > d.high {
					continue
				}
				if t := s.turn(l, dials, try); t.loss < best.loss-1e-9 {
					best, better = t, true
				}
			}
		}
		if !better {
			break
		}
	}
	return best
}

// A simplex that has come to rest asks no more: one dial takes far fewer screenings than several may.
func TestASearchEndsWhereItSettles(t *testing.T) {
	s, l, dials := screened(t)
	before := s.turns
	one, err := s.tune(t.Context(), l, dials[:1], nil)
	require.NoError(t, err)
	begun := len(startsOf(l, dials[:1], nil))
	assert.Less(t, s.turns-before, begun*mostShots/2)
	for v := dials[0].low; v <= dials[0].high; v += 0.02e5 { // each step of the switch, once
		at := s.turn(l, dials[:1], []float64{v})
		require.GreaterOrEqual(t, at.loss, one.loss-1e-3, "%v is better than %v", v, one.values)
	}
}

// Where no place is good no corner that is found later makes one good: none is looked for, round after round. The launcher's own limit is
// far below what any pressure comes to; its first corners are of the launcher as it is, those of one search follow.
func TestWhatIsNotGoodIsNotSharpenedOn(t *testing.T) {
	l := sample.Plain(sample.Friction(2, 1))
	l.Limits.TotalEnergy = launcher.Exact("limits.total_energy", 0.003)
	a, err := newAttempt(Input{Design: blank{l}}, asBuilt, "all")
	require.NoError(t, err)
	require.NotNil(t, a)
	require.NoError(t, a.round(sample.Weakly()))
	require.False(t, a.last.figures.good())
	assert.Len(t, a.sieve.hard, 2)
}
