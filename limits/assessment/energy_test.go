package assessment_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
	"puffproof/limits/worst"
)

// A launcher with a hose of any length up to 5 m is judged, on the model.
func TestAHoseWithinTheStudyIsJudged(t *testing.T) {
	last := math.Inf(1)
	for _, length := range []float64{0.3, 1.2, 3, 5} {
		l := sample.Plain(sample.Weak)
		l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("bore", 8e-3), Length: launcher.Exact("length", length),
			Side: launcher.HoseAfter}
		j := assessed.Energies(t, l, assessment.Options{Depth: worst.Quick, Strength: 0.02})
		assert.Equal(t, finding.OnModel, j.Energy.Basis, "%v m", length)
		assert.Empty(t, j.EnergyUnknown(), "%v m", length)
		assert.Positive(t, j.Energy.Judged, "%v m", length)
		assert.Less(t, j.Energy.Judged, last, "%v m: a longer hose holds more back", length)
		last = j.Energy.Judged
	}
}

// A hose longer than the two models were compared on leaves the energy unknown, unless
// the wave model ran at the worst shot, the ceiling decides, or it fails anyhow.
func TestAHoseBeyondTheStudyIsUnknown(t *testing.T) {
	l := sample.Plain()
	l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("bore", 8e-3), Length: launcher.Exact("length", 6), Side: launcher.HoseAfter}
	j := assessed.Energies(t, l, assessment.Options{Depth: worst.Quick, Strength: 0.02})
	require.Equal(t, finding.OnModel, j.Energy.Basis)
	j.Energy.Limit = j.Energy.Judged
	assert.Contains(t, j.EnergyUnknown().String(), "longer than the 5 m")
	assert.Contains(t, j.EnergyUnknown().String(), "shorten it, or run check --thorough")
	v := verdict.Of(j, finding.EnergyTotal)
	assert.Equal(t, finding.Unknown, v.Status)
	assert.Contains(t, v.Why.String(), "longer than the 5 m")
	assert.Contains(t, v.Why.String(), "--thorough")
	for _, known := range []func(*assessment.Assessment){
		func(a *assessment.Assessment) { a.Energy.Basis = finding.OnCeiling },
		func(a *assessment.Assessment) { a.Energy.Limit = 0.99 * a.Energy.Judged },
		func(a *assessment.Assessment) { a.Wave = &worst.WaveComparison{} },
	} {
		b, energy := *j, *j.Energy
		b.Energy = &energy
		known(&b)
		assert.Empty(t, b.EnergyUnknown())
	}
	part, energy := *j, *j.Energy
	part.Energy, energy.Basis, energy.Beyond = &energy, finding.OnMeasured, 0.5*energy.StartHigh
	assert.NotEmpty(t, part.EnergyUnknown(), "measured shots reach only a part of the pressures")
	b := *j
	b.Wave = &worst.WaveComparison{WhyNot: finding.Words("it was not run")}
	assert.NotEmpty(t, b.EnergyUnknown())
}

// A projectile that is held so firmly that no shot leaves passes nothing by that: it is judged as one that nothing may hold, and no
// milder than one that nothing holds. 300 N on the 13.2 cm2 of 41 mm is 2.3 bar, more than the 0.95 bar there ever are.
func TestNothingPassesByBeingHeldFast(t *testing.T) {
	o := assessment.Options{Depth: worst.Quick, Strength: 0.02}
	free := assessed.Energies(t, sample.Plain(sample.Friction(0, 0)), o)
	held := assessed.Energies(t, sample.Plain(sample.Friction(300, 100)), o)
	assert.GreaterOrEqual(t, held.Energy.Judged, 0.999*free.Energy.Judged)
	assert.True(t, held.Launcher.Projectile.HeldFast)
	assert.False(t, held.Stated.Projectile.HeldFast, "what is stated stays as it is")
	assert.False(t, free.Launcher.Projectile.HeldFast)
	assert.Contains(t, finding.Notes(verdict.DesignNotes(held)...).String(), "lets none of its shots out")
}

// A valve that passes next to nothing makes no launcher that holds: the hardest of all shots creeps, and nothing is known by it.
func TestNothingPassesByBeingSlow(t *testing.T) {
	slow := assessed.Energies(t, sample.Plain(sample.Weak), assessment.Options{Depth: worst.Quick, Strength: 0.02})
	require.Equal(t, finding.OnModel, slow.Energy.Basis)
	require.Equal(t, "left", slow.Energy.Worst.Outcome)
	slow.Energy.Worst.FinalSpeed = 1
	require.Equal(t, finding.Pass, verdict.Of(slow, finding.EnergyTotal).Status)
	slow.Energy.Worst.FinalSpeed = 0.99
	v := verdict.Of(slow, finding.EnergyTotal)
	assert.Equal(t, finding.Unknown, v.Status)
	assert.Contains(t, v.Why.String(), "nothing passes by being slow")
	assert.Equal(t, finding.Unknown, verdict.Of(slow, finding.EnergyArea).Status)
	slow.Energy.Basis = finding.OnMeasured
	assert.Equal(t, finding.Pass, verdict.Of(slow, finding.EnergyTotal).Status, "five measured shots decide")
	slow.Energy.Beyond = 0.5 * slow.Energy.StartHigh
	assert.Equal(t, finding.Unknown, verdict.Of(slow, finding.EnergyTotal).Status, "only as far as they reach")
}
