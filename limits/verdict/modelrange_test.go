package verdict

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics/wave"
)

// The energies of a light, fast launcher: factor, note and figures agree, and a
// thorough check never judges less.
func TestEnergiesOutsideTheRange(t *testing.T) {
	l := sample.Plain(sample.CutOut(1e5))
	l.Projectile.Mass = launcher.Exact("projectile.mass", 0.5e-3)
	quick := assessed.Energies(t, l, assessment.Options{Depth: worst.Quick, Strength: 0.05})
	e := quick.Energy
	assert.InEpsilon(t, worst.ModelFactor*(1+wave.OutsideExcess), e.Factor, 1e-12)
	assert.InEpsilon(t, e.WorstEnergy*e.Factor, e.Model, 1e-12)
	assert.Contains(t, ModelRange(quick).String(), "outside its range")
	assert.Contains(t, ModelRange(quick).String(), "A heavier projectile, a slower valve bring it well inside.")
	assert.Contains(t, e.FactorSource.String(), "outside the range")
	assert.Nil(t, quick.Wave)

	thorough := assessed.Energies(t, l, assessment.Options{Depth: worst.Thorough, Strength: 0.05})
	w := thorough.Wave
	require.NotNil(t, w)
	require.Empty(t, w.WhyNot.String())
	assert.False(t, w.Inside)
	assert.InEpsilon(t, w.Wave.Energy/w.Lumped.Energy-1, w.Excess, 1e-9)
	assert.Less(t, w.Mesh, 5e-3, "half the cells: four times the error of 1e-3")
	assert.GreaterOrEqual(t, thorough.Energy.Model, e.Model)
	assert.InEpsilon(t, math.Max(e.Model, e.WorstEnergy*(1+w.Excess)*worst.ModelFactor), thorough.Energy.Model, 1e-12)
}
