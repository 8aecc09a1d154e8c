package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// What rests on a declaration is never a pass; what does not, stays one; a failure stays one.
func TestDeclaredIsNeverAPass(t *testing.T) {
	judged := func(id string, value float64, declared ...string) finding.Verdict {
		v := finding.NewVerdict(id, "", finding.InJoule)
		v.Judge(value, 1)
		holdsIfTrue(&launcher.Launcher{Declared: declared}, &v)
		return v
	}
	v := judged(finding.EnergyTotal, 0.5, "barrel.material", "projectile.tip_proof")
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Contains(t, v.Condition.String(), "projectile.tip_proof")
	assert.NotContains(t, v.Condition.String(), "material")
	assert.Equal(t, []string{finding.ItemTip}, v.Items)
	assert.InDelta(t, 0.5, *v.Margin, 0)
	assert.Equal(t, finding.Fail, judged(finding.EnergyTotal, 2, "projectile.tip_proof").Status)
	assert.Equal(t, finding.Pass, judged(finding.SwitchBand, 0.5, "projectile.tip_proof").Status)
	assert.Equal(t, finding.Conditional, judged(finding.SwitchBand, 0.5, "projectile.mass").Status, "what is not listed bears on all")

	v = finding.NewVerdict(finding.MuzzleSealed, "", finding.InJoule)
	v.Judge(0.5, 1)
	v.HoldsWhile(finding.Words("the guard stays on"), finding.ItemGuard)
	holdsIfTrue(&launcher.Launcher{Declared: []string{"supply.dead_head", "barrel.seal_guard"}}, &v)
	assert.Contains(t, v.Condition.String(), "the guard stays on; and 2 declarations")
	assert.Equal(t, []string{finding.ItemSealGuard, finding.ItemGuard}, v.Items)
}

// What is computed from a tolerance that nothing of its origin gives is never a pass; what hangs on no figure stays one, a failure too.
func TestATooNarrowToleranceIsNeverAPass(t *testing.T) {
	judged := func(id string, value float64, narrow ...string) finding.Verdict {
		v := finding.NewVerdict(id, "", finding.InJoule)
		v.Judge(value, 1)
		l := &launcher.Launcher{Declared: []string{"barrel.bore"}}
		for _, key := range narrow {
			l.Narrow = append(l.Narrow, launcher.Narrow{Key: key})
		}
		holdsIfNarrow(l, &v)
		return v
	}
	v := judged(finding.EnergyTotal, 0.5, "projectile.mass")
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Equal(t, "the tolerance of projectile.mass is as narrow as stated", v.Condition.String())
	v = judged(finding.VentShutdown, 0.5, "volumes.tank.volume", "projectile.mass")
	assert.Contains(t, v.Condition.String(), "the tolerances of volumes.tank.volume, projectile.mass are")
	v = judged(finding.VentShutdown, 0.5, "a", "b", "c", "d")
	assert.Equal(t, "4 tolerances that a note lists are as narrow as stated", v.Condition.String())
	assert.Equal(t, []string{finding.ItemPrint}, judged(finding.EnergyTotal, 0.5, "projectile.contact_diameter").Items)
	for name, v := range map[string]finding.Verdict{"sound": judged(finding.SoundAtPeak, 0.5, "projectile.mass"),
		"no figure": judged(finding.DatesPast, 0.5, "projectile.mass"), "none": judged(
			finding.EnergyTotal, 0.5), "declared already": judged(finding.EnergyTotal, 0.5, "barrel.bore"), "bears on another": judged(
			finding.EnergyTotal, 0.5, "supply.noise_level")} {
		assert.Equal(t, finding.Pass, v.Status, name)
	}
	assert.Equal(t, finding.Fail, judged(finding.EnergyTotal, 2, "projectile.mass").Status)
}
