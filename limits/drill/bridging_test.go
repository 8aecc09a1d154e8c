package drill

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// The switch is bridged only where everything that the air gets to takes what the pump can reach: here 3 bar.
func TestNobodyBridgesAgainstAWeakPart(t *testing.T) {
	strong := func(l *launcher.Launcher) {
		l.Supply.DeadHead = launcher.Exact("", 3*sample.Bars)
		for i := range l.Volumes {
			l.Volumes[i].RatedPressure, l.Volumes[i].RatedForGas = launcher.Exact("", 4*sample.Bars), launcher.Yes
		}
		l.Barrel.RatedPressure, l.Barrel.RatedForGas = launcher.Exact("", 4*sample.Bars), launcher.Yes
		l.Gauges = []launcher.GaugeSpec{{On: l.Volumes[0].Name, Range: launcher.Exact("", 4*sample.Bars)}}
	}
	for name, c := range map[string]struct {
		weaken func(*launcher.Launcher)
		want   string // "": it may
	}{
		"all are good for it": {func(*launcher.Launcher) {}, ""},
		"a vessel": {func(l *launcher.Launcher) { l.Volumes[0].RatedPressure = launcher.Exact("", 2*sample.Bars) }, "volumes.tank is " +
			"good for 2"},
		"no rating": {func(l *launcher.Launcher) { l.Volumes[0].RatedPressure = launcher.Band{} }, "nothing states what " +
			"volumes.tank"},
		"not for gas": {func(l *launcher.Launcher) { l.Volumes[0].RatedForGas = launcher.No }, "nothing states what volumes.tank"},
		"the barrel": {func(l *launcher.Launcher) { l.Barrel.RatedPressure = launcher.Exact("", 2*sample.Bars) }, "barrel is " +
			"good for 2"},
		"the gauge": {func(l *launcher.Launcher) { l.Gauges[0].Range = launcher.Exact("", 1*sample.Bars) }, "the gauge on tank " +
			"is good for 1"},
		"a hose": {func(l *launcher.Launcher) {
			l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 4e-3), Length: launcher.Exact("", 0.5)}
		}, "paths.fire.hose"},
		"the pump": {func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} }, "not known"},
		"a regulator before a full main": {func(l *launcher.Launcher) {
			l.Supply.Kind, l.Supply.SourcePressure = launcher.ShopAir, launcher.Exact("", 8*sample.Bars)
		}, "can push to 8"},
	} {
		l := sample.Plain(strong, c.weaken)
		if got := NoBridging(l).String(); c.want == "" {
			assert.Empty(t, got, name)
		} else {
			assert.Contains(t, got, c.want, name)
		}
	}
}
