package advise

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
)

// A gauge that is bought holds gauge.range at every pressure that is turned to, the heat that the verdict counts included: else the way
// fails for its own gauge, to the end. One that is finer than what would be bought keeps its class.
func TestABoughtGaugeShowsWhatTheVerdictAsks(t *testing.T) {
	for cut := 0.2; cut < 1.2; cut += 0.01 {
		l := sample.Plain(sample.CutOut(cut*sample.Bars), func(l *launcher.Launcher) {
			l.Ambient.Temperature = sample.Between("ambient.temperature", 263, 293)
			l.Ambient.Hottest = launcher.Exact("ambient.hottest", 333)
			l.Switch.CutIn = launcher.Exact("pressure_switch.cut_in", 0.5*cut*sample.Bars)
			l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("gauge.range", 0.1*sample.Bars), Class: 0.6}}
			// A supply that the switch alone stops, and that pushes hardly further: the steady pressure asks for most of the scale.
			l.Supply.DeadHead = launcher.Exact("supply.dead_head", 1.05*cut*sample.Bars)
		})
		a := &attempt{base: newDraft(blank{l}, nil)}
		a.last.l = l
		a.reach()
		a.found = a.laid
		a.gauges()
		bought := l.Clone()
		for _, c := range a.found {
			assert.False(t, strings.HasSuffix(c.Key, ".class"), "its own is finer")
			if strings.HasSuffix(c.Key, ".range") {
				bought.Gauges[0].Range = launcher.Exact("gauge.range", c.To.Number.Value)
			}
		}
		v := verdict.Of(&assessment.Assessment{Launcher: bought, Stated: bought, Computed: assessment.EnergyStage}, finding.GaugeRange)
		require.Equal(t, finding.Pass, v.Status, "%.2f bar: %s, range %g", cut, v.Why, bought.Gauges[0].Range.Nominal)
	}
}
