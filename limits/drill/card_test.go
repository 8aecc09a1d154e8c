package drill

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A card has people do only what the launcher has something for: no key where nothing has current, no pump that stops where a person pumps
// (what there is to pull or to shut is plain sense, no source).
func TestTheCardAsksForWhatTheLauncherHas(t *testing.T) {
	words := func(l *launcher.Launcher) string {
		return Stop(l) + Off(l) + " " + CutOff(l) + " " + Filled(l) + " " + InPlace(l) + " " + MayFire(l) + " " + Jam(l).String()
	}
	electric := sample.Dumped()
	text := words(electric)
	for _, w := range []string{"Hand off. Key out. Launcher off.", "key out", "Guard, stop, key and clips", "Holds the key", "the plug out"} {
		assert.Contains(t, text, w)
	}

	pumped := electric.Clone()
	pumped.Control, pumped.Switch = nil, nil
	pumped.Supply.Kind = launcher.HandPump
	pumped.Supply.PumpedTo = launcher.Exact("supply.pumped_to", 1e4)
	text = words(pumped)
	assert.Contains(t, text, "Nobody pumps.")
	assert.Contains(t, text, "nobody near but the one who pumps: pumped to the mark and no further")
	for _, w := range []string{"the pump stops", "pump unplugged", "the plug out", "the pump still on"} {
		assert.NotContains(t, text, w)
	}
	assert.Contains(t, text, "Key out", "its valve has current all the same")

	for i := range pumped.Paths {
		if p := &pumped.Paths[i]; p.Kind == pneumatics.Valve {
			p.Kind = pneumatics.HandValve
		}
	}
	assert.False(t, pumped.Electric())
	text = words(pumped)
	for _, w := range []string{"Key", "key", "plug", "Launcher off", "battery"} {
		assert.NotContains(t, text, w)
	}

	bottle := pumped.Clone()
	bottle.Supply.Kind = launcher.RegulatedCylinder
	assert.Contains(t, words(bottle), "Supply shut.")
	for _, w := range []string{"pumps", "the pump", "key", "plug"} {
		assert.NotContains(t, words(bottle), w)
	}
}
