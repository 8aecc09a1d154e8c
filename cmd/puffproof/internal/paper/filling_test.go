package paper

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/launcher"
)

// Card and first page say what ends the filling where no switch does, or nothing where nobody knows.
func TestWhatEndsTheFillingIsSaid(t *testing.T) {
	l := &launcher.Launcher{Ambient: launcher.AmbientSpec{Pressure: launcher.Exact("", 1e5), Temperature: launcher.Exact("", 293)},
		Volumes: []launcher.VolumeSpec{{Name: "tank", Volume: launcher.Exact("", 1e-3)}}}
	assert.Zero(t, filledBy(l))
	l.Volumes[0].FilledTo = launcher.Exact("", 5e4)
	assert.Equal(t, "comes filled to", filledBy(l).row)
	l.Volumes[0].FilledTo = launcher.Band{}
	l.Supply = &launcher.SupplySpec{Feeds: "tank", DeadHead: launcher.Exact("", 4e5), FreeAir: launcher.Exact("", 1e-4)}
	assert.Equal(t, "No switch: the supply itself stops", filledBy(l).sentence)
	l.Supply.RunTime, l.Supply.FromEmpty = launcher.Exact("", 1), launcher.Yes
	assert.InDelta(t, 1e4, filledBy(l).at.Nominal, 300, "100 mL more in 1 L, less what the pressure takes of the delivery")
	l.Supply.RunTime, l.Supply.PumpedTo = launcher.Band{}, launcher.Exact("", 3e4)
	assert.Equal(t, "stop pumping at the mark", filledBy(l).row)
}
