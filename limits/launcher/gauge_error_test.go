package launcher_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// The gauge's error by what is stated of it: its own band, the larger side; its class, a
// share of the range (EN 837-1); class 4 of the range, or of twice the cut-out where
// none is stated on the sensed volume, and never less than 50 mbar (common practice, no source).
func TestTheErrorOfAReading(t *testing.T) {
	for name, c := range map[string]struct {
		gauge launcher.GaugeSpec
		want  float64
	}{
		"stated": {launcher.GaugeSpec{On: "tank", Error: sample.Between("", -3000, 2000), Range: launcher.Exact("", 1e5), Class: 1.6},
			3000},
		"class":        {launcher.GaugeSpec{On: "tank", Range: launcher.Exact("", 2.5e5), Class: 1.6}, 4000},
		"no class":     {launcher.GaugeSpec{On: "tank", Range: launcher.Exact("", 2.5e5)}, 10000},
		"nothing":      {launcher.GaugeSpec{On: "tank"}, 0.04 * 2 * 0.95e5},
		"another tank": {launcher.GaugeSpec{On: "dose", Error: sample.Between("", -300, 200)}, 0.04 * 2 * 0.95e5},
	} {
		l := sample.Plain(func(l *launcher.Launcher) { l.Gauges = []launcher.GaugeSpec{c.gauge} })
		assert.InDelta(t, c.want, l.SensedGaugeError(), 1e-9, name)
	}
	assert.InDelta(t, 5000, sample.Plain(sample.CutOut(0.4e5)).SensedGaugeError(), 1e-9)
	assert.InDelta(t, 5000, sample.Plain(func(l *launcher.Launcher) { l.Switch = nil }).SensedGaugeError(), 1e-9)
}
