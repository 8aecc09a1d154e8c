package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// barrel.stalled: what a hand could free against the total energy, a row on each side.
func TestStuckProjectile(t *testing.T) {
	for freed, want := range map[float64]finding.Status{0: finding.Pass, 1: finding.Pass, above(1): finding.Fail} {
		a := assessed.WithFaults(sample.Plain())
		a.Stuck = worst.Stuck{Freed: freed, Start: 0.3e5}
		v := Of(a, finding.BarrelStalled)
		assert.Equal(t, want, v.Status, freed)
		assertFigure(t, freed, v.Value, "freed")
		assertFigure(t, 1, v.Limit, "the total energy")
		if freed > 0 {
			assert.Contains(t, v.Why.String(), "0.30 bar")
		}
		a.NoStart = finding.Words("no pressure known")
		assert.Equal(t, finding.Unknown, Of(a, finding.BarrelStalled).Status)
	}
}

// What holds a projectile fast is never taken for nothing: without it nobody knows whether one gets stuck.
func TestAStuckProjectileOfUnknownFriction(t *testing.T) {
	a := assessed.WithFaults(sample.Plain(func(l *launcher.Launcher) { l.Projectile.Breakaway = launcher.Band{} }))
	a.Stuck = worst.Stuck{}
	v := Of(a, finding.BarrelStalled)
	assert.Equal(t, finding.Unknown, v.Status)
	assert.Equal(t, []string{"projectile.breakaway_force"}, v.Why.Keys())
}
