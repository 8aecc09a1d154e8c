package setpoint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// A chain without any tolerance can be reckoned by hand: the fault pressure is the
// full-flow pressure, 0.1 bar above the set pressure; the cut-out is just below the
// set pressure; the cut-in a differential below it.
func TestChainByHand(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Switch.Differential = launcher.Exact("pressure_switch.differential", 0.05*sample.Bars)
	})
	sample.WithRelief(launcher.Exact("set", 0.5*sample.Bars), launcher.Exact("full", 0.6*sample.Bars), 8*sample.Millimetres, 0.62)(l)
	caps := pressureCaps{energy: 0.8 * sample.Bars, rating: math.Inf(1), blocked: math.Inf(1)}
	kept := solveChain(l, caps)
	const tolerance = 1 // [Pa]: rungs are kept apart by a millionth, bisection is finer
	assert.Equal(t, reliefKept, kept.relief)
	assert.Equal(t, "ladder.order", kept.binding)
	assert.InDelta(t, 0.5*sample.Bars, kept.cutOut, tolerance)
	// Set higher the valve keeps its share: full flow at 1.2 times the set pressure.
	assert.InDelta(t, 0.8/1.2*sample.Bars, kept.setMax, tolerance)
	caps.energy = 0.45 * sample.Bars
	lowered := solveChain(l, caps)
	assert.Equal(t, reliefLowered, lowered.relief)
	assert.Equal(t, "energy.fault", lowered.binding)
	assert.InDelta(t, 0.35*sample.Bars, lowered.set, tolerance, "the 0.1 bar to full flow stay")
	assert.InDelta(t, 0.35*sample.Bars, lowered.cutOut, tolerance)
	assert.LessOrEqual(t, lowered.cutIn, lowered.cutOut-0.05*sample.Bars+tolerance)
	caps.rating = 0.3 * sample.Bars
	rated := solveChain(l, caps)
	assert.Equal(t, "vessel.rating", rated.binding)
	assert.InDelta(t, 0.2*sample.Bars, rated.cutOut, tolerance)
	// A launcher of which no relief valve is known needs one.
	assert.Equal(t, reliefAdded, solveChain(sample.Plain(), caps).relief)
	// Nothing holds below the valve's own step to full flow.
	caps.energy = 0.05 * sample.Bars
	none := solveChain(l, caps)
	assert.True(t, math.IsNaN(none.cutOut))
	assert.Equal(t, "relief.capacity", none.binding)
}

// Heat: gas sealed at 278.15 K and heated to 318.15 K rises by the ratio of the
// temperatures in absolute pressure (Gay-Lussac). The cut-out is what remains.
func TestChainLeavesRoomForHeat(t *testing.T) {
	l := sample.Plain()
	l.Ambient.Temperature, l.Ambient.Hottest = launcher.Exact("t", 278.15), launcher.Exact("h", 318.15)
	sample.WithRelief(launcher.Exact("set", 0.8*sample.Bars), launcher.Exact("full", 0.9*sample.Bars), 8*sample.Millimetres, 0.62)(l)
	c := solveChain(l, pressureCaps{energy: 2 * sample.Bars, rating: math.Inf(1), blocked: math.Inf(1)})
	want := (0.8*sample.Bars+101325)*278.15/318.15 - 101325
	assert.InDelta(t, want, c.cutOut, 1) // [Pa]: rungs are kept apart by a millionth
}

// A fault that asks for less lowers the cut-out, and names itself as what binds.
func TestAFaultLowersTheCutOut(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	caps := pressureCaps{energy: 1.1 * sample.Bars, rating: math.Inf(1), blocked: math.Inf(1)}
	free := solveChain(l, caps)
	caps.normal = 0.4 * sample.Bars
	bound := solveChain(l, caps)
	assert.Equal(t, "energy.fault", bound.binding)
	assert.Less(t, bound.cutOut, free.cutOut)
	soaked, _ := bound.launcher.SoakedHigh()
	assert.InDelta(t, 0.4*sample.Bars, soaked, 1) // [Pa]: bisection is finer
}

// What a shot empties, read off the drawing.
func TestWhatAShotEmptiesInABranchedCircuit(t *testing.T) {
	l := sample.Branched()
	assert.Equal(t, []string{"tank", "dose", "side", "buffer"}, sample.VolumesOf(l, emptiedByShot(l)))
}
