package design

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/checklist"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/verdict"
)

// A whale whose ball soaks water is another launcher than one whose ball does not: told so, or told nothing, it is no plain pass at a
// single fault, whatever keeps other objects out; with closed cells it passes as before. What was weighed dry on its day leaves it
// conditional, and nothing open.
func TestOpenFoamIsNoPlainPass(t *testing.T) {
	const weighed = "\n[checklist.\"projectile.weighed\"]\nwho = \"A. Adult\"\ndate = \"2026-05-30\"\nvalue = \"4.1 g, 4.3 g\"\n"
	judged := func(cells, more string) (v finding.Verdict, item *finding.Item, of *assessment.Assessment) {
		l := read(t, append(exampleWith(t, "whale", "open_cell", cells), more...))
		a, err := assessment.Make(lightly(t.Context(), 0.1), l, assessment.Options{Day: "2026-05-31",
			Want: assessment.FaultStage | assessment.StuckStage | assessment.EmptyingStage,
			OnlyFaults: func(id string) bool {
				return id == "projectile.heavier" || id == "projectile.soaked-with-water" || id == fault.PluggedID
			}})
		require.NoError(t, err)
		items := checklist.FaultItems(a)
		if i := finding.IndexOfItem(items, finding.ItemWeighed); i >= 0 {
			item = &items[i]
		}
		return verdict.Of(a, finding.EnergyFault), item, a
	}
	closed, item, _ := judged("open_cell = false", "")
	assert.Equal(t, finding.Pass, closed.Status)
	assert.Nil(t, item)
	for _, cells := range []string{"open_cell = true", ""} {
		open, item, a := judged(cells, "")
		require.Equal(t, finding.Conditional, open.Status, "%q", cells)
		assert.Greater(t, *open.Value, 2**closed.Value)
		assert.Greater(t, *open.Value, *open.Limit)
		require.NotNil(t, item)
		assert.Equal(t, finding.OpenItem, a.Faults.KeptBy(finding.ItemWeighed).Status)
	}
	dry, _, a := judged("open_cell = true", weighed)
	assert.Equal(t, finding.Conditional, dry.Status)
	assert.Equal(t, finding.Pass, a.Faults.KeptBy(finding.ItemWeighed).Status)
	declared, _, _ := judged(`open_cell = "declared no"`, "")
	assert.Equal(t, finding.Conditional, declared.Status)
	assert.Contains(t, declared.Condition.String(), "projectile.open_cell proves true")
}
