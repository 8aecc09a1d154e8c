package paper

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
)

// Card and first page say what ends the filling where no switch does, or nothing where nobody knows.
func TestWhatEndsTheFillingIsSaid(t *testing.T) {
	l := &launcher.Launcher{Ambient: launcher.AmbientSpec{Pressure: launcher.Exact("", 1e5), Temperature: launcher.Exact("", 293)},
		Volumes: []launcher.VolumeSpec{{Name: "tank", Volume: launcher.Exact("", 1e-3)}}}
	filledBy := func(l *launcher.Launcher) filling { return (&builder{in: &Input{Launcher: l}}).filledBy() }
	assert.Zero(t, filledBy(l))
	l.Volumes[0].FilledTo = launcher.Exact("", 5e4)
	assert.Equal(t, "comes filled to", filledBy(l).row)
	l.Volumes[0].FilledTo = launcher.Band{}
	l.Supply = &launcher.SupplySpec{Feeds: "tank", DeadHead: launcher.Exact("", 4e5), FreeAir: launcher.Exact("", 1e-4)}
	assert.Equal(t, "No switch: the supply itself stops", filledBy(l).sentence)
	atRest := launcher.Resting{Ends: true, Low: []float64{1e4}, Nominal: []float64{1.5e4}, High: []float64{1.8e4}}
	rest := &builder{in: &Input{Launcher: l, Vent: &vent.Report{Rest: atRest}}}
	assert.Equal(t, 1.5e4, rest.filledBy().at.Nominal, "against what is open while charging it comes to rest lower")
	l.Supply.RunTime, l.Supply.FromEmpty = launcher.Exact("", 1), launcher.Yes
	assert.InDelta(t, 1e4, filledBy(l).at.Nominal, 300, "100 mL more in 1 L, less what the pressure takes of the delivery")
	l.Supply.RunTime, l.Supply.PumpedTo = launcher.Band{}, launcher.Exact("", 3e4)
	assert.Equal(t, "stop pumping at the mark", filledBy(l).row)
}

// The parts list says what stands before a regulator, and what ends a filling.
func TestThePartsListSaysWhatASupplyIs(t *testing.T) {
	in := &Input{Units: quantity.Metric}
	shop := &launcher.SupplySpec{Kind: launcher.ShopAir, SourcePressure: launcher.Exact("", 8e5), RegulatorBore: launcher.Exact("", 2e-3)}
	assert.Equal(t, "shop air", supplyOf(shop).Name)
	assert.Contains(t, in.supplyFigures(shop), "before its regulator 8 bar gauge, regulator bore 2 mm")
	pump := &launcher.SupplySpec{Kind: launcher.HandPump, PumpedTo: launcher.Exact("", 3e4)}
	assert.Contains(t, in.supplyFigures(pump), "pumped to the mark of 0.3 bar gauge")
	assert.NotContains(t, in.supplyFigures(pump), "regulator")
	timed := &launcher.SupplySpec{RunTime: launcher.Exact("", 5), FromEmpty: launcher.Yes}
	assert.Contains(t, in.supplyFigures(timed), "a timer runs it for 5 s, from empty only")
}
