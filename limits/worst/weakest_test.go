package worst

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
)

// Against a bleed that is never shut the weakest launcher starts from where a weak supply comes to rest, and shoots less hard than from
// the dead head, which it never reaches; with so wide a bleed that little is left it does not leave. What is judged stays: the
// highest start is that of a bleed that is blocked.
func TestTheWeakestStartsWhereTheSupplyComesToRest(t *testing.T) {
	bled := func(bore float64) *launcher.Launcher {
		l := sample.Rocket()
		l.Paths[0].OpeningTime = launcher.Exact("", 5e-3)
		l.Projectile.Clearance = sample.Between("clearance", 0.1e-3, 0.2e-3)
		l.Projectile.Breakaway, l.Projectile.Sliding = launcher.Exact("", 0.2), launcher.Exact("", 0.1)
		if l.Paths = l.Paths[:1]; bore > 0 {
			l.Paths = append(l.Paths, sample.Rocket().Paths[1])
			l.Paths[1].Flow = sample.Orifice(bore, 0.65)
		}
		return l
	}
	weakest := func(l *launcher.Launcher) Weakest {
		w, err := FindWeakest(weakly(), l, search.Quick())
		require.NoError(t, err)
		require.True(t, w.Known)
		return w
	}
	shut, small := weakest(bled(0)), weakest(bled(0.25*sample.Millimetres))
	require.True(t, shut.Leaves && small.Leaves)
	assert.Equal(t, 0.18*sample.Bars, shut.Start)
	assert.Less(t, small.Start, 0.95*shut.Start)
	assert.Less(t, small.Speed, 0.98*shut.Speed)
	assert.False(t, weakest(bled(0.8*sample.Millimetres)).Leaves)
	for _, bore := range []float64{0, 0.25 * sample.Millimetres, 0.8 * sample.Millimetres} {
		high, ok := bled(bore).SoakedHigh()
		require.True(t, ok)
		assert.GreaterOrEqual(t, high, 0.22*sample.Bars)
		assert.Equal(t, bled(bore).Working().Nominal, NominalStart(bled(bore)))
	}
}
