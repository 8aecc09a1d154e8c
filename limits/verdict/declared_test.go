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
