package setpoint

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// A change that is listed makes the target hold: it is put into the launcher, and
// random launchers do not exceed the limit at the pressure that the target needs.
func TestChangesHold(t *testing.T) {
	t.Parallel()
	l := toleranced(rand.New(rand.NewPCG(4, 4)))
	l.Paths[0].Flow.Value = sample.Between("paths.fire.Cv", 2.2, 2.6)
	l.Barrel.Travel = sample.Between("barrel.travel", 0.24, 0.26)
	l.Projectile.Breakaway = sample.Between("projectile.breakaway_force", 0, 0.5)
	const target = 0.2 * sample.Bars
	s := &solver{ctx: context.Background(), l: l, allowed: 0.5}
	for _, v := range levers(l) {
		if v.key == "paths.fire.Cv" {
			require.NoError(t, s.tryLever(v, target))
			require.Len(t, s.out.Changes, 1)
			w := v.scaled(l, *s.out.Changes[0].To / *s.out.Changes[0].From)
			assert.Less(t, *s.out.Changes[0].To, *s.out.Changes[0].From)
			w.Switch.CutOut = MovedBand(w.Switch.CutOut, target)
			MoveRelief(&w.Paths[w.ReliefOnSupply()], setFor(w, soakedOf(w)))
			b := worst.NewBox(w, worst.EnergyQuestion(w, w.Overcharge().Pressure))
			e, r := b.Evaluator(), rand.New(rand.NewPCG(6, 7))
			for range 500 {
				assert.LessOrEqual(t, e.Value(drawn(r, b.Dim))*worst.ModelFactor, s.allowed)
			}
		}
	}
	require.NotEmpty(t, s.out.Changes)
}

func soakedOf(l *launcher.Launcher) float64 { p, _ := l.SoakedHigh(); return p }
