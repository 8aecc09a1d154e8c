package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/launcher"
)

// One figure of the template is enough for the question to arise, and it is never a pass. A design without any
// is not asked.
func TestTheTemplatesFiguresAreNeverAPass(t *testing.T) {
	of := func(keys ...string) finding.Verdict {
		return Of(&assessment.Assessment{Computed: assessed.All, Stated: &launcher.Launcher{Template: keys}}, finding.DesignTemplate)
	}
	assert.Empty(t, of().ID)
	one := of("projectile.mass")
	assert.Equal(t, finding.Unknown, one.Status)
	assert.Equal(t, "1 figure is still the template's: not your launcher: projectile.mass", one.Why.String())
	two := of("barrel.bore", "projectile.mass")
	assert.Equal(t, finding.Unknown, two.Status)
	assert.Equal(t, "2 figures are still the template's: not your launcher: barrel.bore, projectile.mass", two.Why.String())
	assert.Contains(t, two.Advice.String(), `"?"`)
	assert.NotEmpty(t, two.Source)
}

// What nobody knows yet is named in a note.
func TestWhatIsToFindOutIsNoted(t *testing.T) {
	notes := func(keys ...string) (out string) {
		for _, n := range DesignNotes(&assessment.Assessment{Launcher: &launcher.Launcher{ToFind: keys}}) {
			out += n.String()
		}
		return out
	}
	assert.Empty(t, notes())
	assert.Equal(t, `To find out: 1 key has "?": barrel.material (puffproof keys TABLE says how).`, notes("barrel.material"))
	assert.Contains(t, notes("barrel.material", "event.wind"), `2 keys have "?": barrel.material, event.wind`)
}
