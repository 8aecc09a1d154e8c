package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// What fills a vessel elsewhere is seldom as weak as is hoped: below what a track pump or a workshop's air reaches (7 bar, common practice,
// no source) the verdicts on one filled too full rest on the item that reads its gauge; those on normal use do not.
func TestAFillerThatIsSaidToBeWeakIsACondition(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Supply, l.Switch = nil, nil
		l.Volumes[0].FilledTo = launcher.Exact("", 0.2*sample.Bars)
	})
	for reaches, conditional := range map[float64]bool{0.23: true, 3: true, 7: false, 10: false} {
		l.Volumes[0].FillerReaches = launcher.Exact("", reaches*sample.Bars)
		for id, bears := range map[string]bool{finding.EnergyFault: true, finding.VesselRating: true, finding.EnergyTotal: false} {
			v := finding.Verdict{ID: id, Status: finding.Pass}
			holdsIfFilledSo(l, &v)
			assert.Equal(t, conditional && bears, v.Status == finding.Conditional, "%s at %g bar", id, reaches)
			if v.Status == finding.Conditional {
				assert.Contains(t, v.Items, finding.ItemPrefill)
				assert.Contains(t, v.Condition.String(), "can push no further than")
			}
		}
	}
	v := finding.Verdict{ID: finding.EnergyFault, Status: finding.Fail}
	holdsIfFilledSo(l, &v)
	assert.Equal(t, finding.Fail, v.Status)
}
