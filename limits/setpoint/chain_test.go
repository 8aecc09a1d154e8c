package setpoint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
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

// A relief valve that is set too low for any cut-out is tried higher, as far as the fault pressure allows; what leaves no room there
// either stays as it is.
func TestAReliefValveThatLeavesNoRoomIsTriedHigher(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Switch.CutOut = sample.Between("pressure_switch.cut_out", 0.9*sample.Bars, 1.0*sample.Bars)
		l.Switch.Differential = launcher.Exact("pressure_switch.differential", 0.05*sample.Bars)
	})
	// By hand: below 0.1 bar a band of 0.1 bar and the differential leave nothing above zero.
	sample.WithRelief(launcher.Exact("set", 0.1*sample.Bars), launcher.Exact("full", 0.12*sample.Bars), 8*sample.Millimetres, 0.62)(l)
	caps := pressureCaps{energy: 0.6 * sample.Bars, rating: math.Inf(1), blocked: math.Inf(1)}
	const tolerance = 1 // [Pa]: rungs are kept apart by a millionth, bisection is finer
	raised := solveChain(l, caps)
	assert.Equal(t, reliefRaised, raised.relief)
	assert.Equal(t, "energy.fault", raised.binding)
	assert.InDelta(t, 0.5*sample.Bars, raised.set, tolerance, "full flow at 1.2 times the set pressure")
	assert.InDelta(t, 0.5*sample.Bars, raised.launcher.Switch.CutOut.High, tolerance)
	assert.InDelta(t, 0.6*sample.Bars, raised.launcher.Paths[raised.launcher.ReliefOnSupply()].FullFlowHigh(), tolerance)
	caps.rating = 0.144 * sample.Bars
	none := solveChain(l, caps)
	assert.True(t, math.IsNaN(none.cutOut), "nor at 0.12 bar is there room")
	assert.Equal(t, reliefKept, none.relief)
	assert.Equal(t, "ladder.order", none.binding)
	assert.InDelta(t, 0.1*sample.Bars, none.launcher.Paths[none.launcher.ReliefOnSupply()].SetPressure.Nominal, 0)
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
	caps.normal = askedFor{0.4 * sample.Bars, finding.EnergyFault}
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

// Every rung keeps its tolerances to the next: the filled launcher left in the heat, its
// gauge reading low, stays below the low end of the relief valve; the valve may be set
// down until its low end meets that, not further; the switch reaches the cut-in; a valve
// set as high as it may be holds the limit at the top of its own full flow.
func TestRungsKeepTheirTolerances(t *testing.T) {
	l := sample.Plain(sample.Orderly, heated, func(l *launcher.Launcher) {
		l.Switch.GaugeError = sample.Between("", -0.02*sample.Bars, 0.02*sample.Bars)
	})
	c := solveChain(l, pressureCaps{energy: 1.1 * sample.Bars, rating: math.Inf(1), blocked: math.Inf(1)})
	require.False(t, math.IsNaN(c.cutOut))
	w := c.launcher
	// By hand: the top of the cut-out's band of ± 0.02 bar and the gauge's error, heated.
	high := soaked(c.cutOut + 0.02*sample.Bars + 0.02*sample.Bars)
	assert.InDelta(t, 0.55*sample.Bars, high, 1, "the low end of the valve's 0.55 to 0.65 bar; [Pa], bisection")
	low := w.Paths[w.ReliefOnSupply()]
	MoveRelief(&low, c.setMin)
	assert.InDelta(t, high, low.SetPressure.Low, 1)
	top := w.Paths[w.ReliefOnSupply()]
	MoveRelief(&top, c.setMax)
	assert.InDelta(t, 1.1*sample.Bars, top.FullFlowHigh(), 1)
	assert.LessOrEqual(t, c.cutIn+0.02*sample.Bars, c.cutOut-0.02*sample.Bars-0.05*sample.Bars+1, "bands and differential apart")
}

// The lowest of the caps binds, whichever it is.
func TestLowestCap(t *testing.T) {
	for want, p := range map[string]pressureCaps{"energy.fault": {energy: 1, rating: 2, blocked: 3},
		"vessel.rating":  {energy: 3, rating: 1, blocked: 2},
		"barrel.blocked": {energy: 2, rating: 3, blocked: 1}} {
		cap, id := p.lowest()
		assert.InDelta(t, 1, cap, 0)
		assert.Equal(t, want, id)
	}
}

// A band that is moved up keeps its share of the value, moved down its width, and never
// goes below zero; a relief valve's full flow and reseat likewise.
func TestMovedBandsAreNeverNarrower(t *testing.T) {
	band := sample.Between("k", 0.36, 0.44)
	for nominal, want := range map[float64][2]float64{0.8: {0.72, 0.88}, 0.4: {0.36, 0.44}, 0.2: {0.16, 0.24}, 0.03: {0, 0.07}} {
		b := MovedBand(band, nominal)
		assert.InDelta(t, want[0], b.Low, sample.Rounding)
		assert.InDelta(t, nominal, b.Nominal, 0)
		assert.InDelta(t, want[1], b.High, sample.Rounding)
	}
	for set, want := range map[float64][2]float64{1.2: {1.5, 0.96}, 0.3: {0.45, 0.18}} {
		p := launcher.PathSpec{SetPressure: sample.Between("", 0.55, 0.65), FullFlowPressure: sample.Between("", 0.65, 0.75),
			ReseatPressure: sample.Between("", 0.46, 0.50)}
		MoveRelief(&p, set)
		assert.InDelta(t, want[0], p.FullFlowPressure.High, sample.Rounding, "0.15 above 0.6")
		assert.InDelta(t, want[1], p.ReseatPressure.Nominal, sample.Rounding, "0.12 below 0.6")
	}
}

// Without a stated dead head the valve must hold the limit at the top of its full flow.
func TestUnknownSupplyNeedsTheWholeFullFlow(t *testing.T) {
	l := sample.Plain(sample.Orderly, func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} })
	c := solveChain(l, pressureCaps{energy: 0.7 * sample.Bars, rating: math.Inf(1), blocked: math.Inf(1)})
	require.False(t, math.IsNaN(c.set))
	assert.LessOrEqual(t, c.launcher.Paths[c.launcher.ReliefOnSupply()].FullFlowHigh(), 0.7*sample.Bars)
}

// A relief valve on the tank that feeds the barrel vents during a slow shot: set higher it
// holds less of the energy down. The limit lies between the energies with the valve as it
// is set and without it, both by the shot alone: the valve may be set up only as far as
// the shot from there holds.
func TestReliefThatHelpsIsNotRaisedBeyond(t *testing.T) {
	at := func(set float64) *launcher.Launcher {
		l := sample.Plain(sample.FireCv(0.6), sample.WithRelief(launcher.Exact("set", set), launcher.Exact("full", 1.1*set),
			8*sample.Millimetres, 0.8))
		l.Paths[0].OpeningTime = launcher.Exact("paths.fire.opening_time", 0.1)
		return l
	}
	const start, low, high = 1 * sample.Bars, 0.2 * sample.Bars, 0.9 * sample.Bars
	energy := func(l *launcher.Launcher) float64 {
		c, sc := worst.NominalScenario(l, start)
		var sim pneumatics.Sim
		return worst.JudgedEnergy(0)(c, sim.Run(c, sc, pneumatics.Options{}))
	}
	with, without := energy(at(low)), energy(at(low).WithoutReliefs())
	require.Greater(t, without, 1.05*with, "else the test shows little")
	raised := func(allowed float64) *solver {
		s := &solver{ctx: sample.Weakly(), l: at(low), allowed: allowed, caps: pressureCaps{energy: start}, chain: chain{set: low, setMax: high}}
		require.NoError(t, s.raiseRelief())
		return s
	}
	s := raised(worst.ModelFactor * (with + without) / 2)
	assert.True(t, s.reliefHelps)
	assert.Less(t, s.chain.setMax, high)
	assert.GreaterOrEqual(t, s.chain.setMax, low)
	s = raised(1.1 * worst.ModelFactor * without)
	assert.False(t, s.reliefHelps)
	assert.InDelta(t, high, s.chain.setMax, 0)
}

// An assumed gauge's error grows with the cut-out: 8 % of it (own arithmetic: class 4 of
// twice the cut-out).
func TestAssumedGaugeErrorGrowsWithTheCutOut(t *testing.T) {
	l := sample.Plain(sample.WithRelief(launcher.Exact("set", 2*sample.Bars), launcher.Exact("full", 2.2*sample.Bars),
		8*sample.Millimetres, 0.62),
		func(l *launcher.Launcher) { l.Switch, l.Gauges = nil, nil })
	c := solveChain(l, pressureCaps{energy: 3 * sample.Bars, rating: math.Inf(1), blocked: math.Inf(1)})
	require.Greater(t, c.cutOut, 1*sample.Bars)
	assert.InEpsilon(t, 0.08*c.cutOut, c.launcher.Switch.GaugeError.High, 1e-9)
}

// A barrel plugged at the muzzle is held to its rating, where a shot can drive it beyond.
func TestPluggedBarrelCapsTheStart(t *testing.T) {
	for rating, caps := range map[float64]bool{0.1 * sample.Bars: true, 6 * sample.Bars: false} {
		l := sample.Plain(func(l *launcher.Launcher) { l.Barrel.RatedPressure = launcher.Exact("barrel.rated_pressure", rating) })
		s := &solver{ctx: sample.Weakly(), l: l, caps: pressureCaps{energy: 1 * sample.Bars, rating: 1 * sample.Bars, blocked: math.Inf(1)}}
		s.out.Top = 4 * sample.Bars
		require.NoError(t, s.capBlocked())
		assert.Equal(t, caps, s.caps.blocked < 1*sample.Bars, "%v Pa", rating)
	}
}

// A shot empties the volumes with a way to the barrel, and the others that charging joins make up their air: by hand the
// pressure falls by the share of the volume that was emptied, all of it where there is only one.
func TestHowFarAShotTakesThePressureDown(t *testing.T) {
	whale := sample.Whale() // a dose of 1 L beside a tank of 2 L, which stays shut off from the shot
	tank, dose := whale.Volumes[0].Volume.Nominal, whale.Volumes[1].Volume.Nominal
	assert.InEpsilon(t, 2, tank/dose, 1e-9)
	assert.InEpsilon(t, 0.3*sample.Bars/3, shotDrop(whale, 0.3*sample.Bars), 1e-9)
	assert.InEpsilon(t, 0.3*sample.Bars, shotDrop(sample.Plain(), 0.3*sample.Bars), 1e-9)
}

// Figures to set by are rounded down to a step, and by one more where less than a tenth of a step would be to spare.
func TestDownToAStep(t *testing.T) {
	for p, want := range map[float64]float64{100: 90, 100.9: 90, 101.1: 100, 109: 100, 110: 100} {
		assert.InDelta(t, want, downTo(p, 10), 1e-9, "%v", p)
	}
	assert.InDelta(t, 100.9, downTo(100.9, 0), 0, "no step, no rounding")
}

// The switch follows the cut-in at the wide end of its own differential: of a band the high end counts.
func TestTheCutInKeepsTheWholeDifferential(t *testing.T) {
	l := sample.Plain(sample.WithRelief(launcher.Exact("set", 2*sample.Bars), launcher.Exact("full", 2.2*sample.Bars), 8*sample.Millimetres,
		0.62), func(l *launcher.Launcher) {
		l.Switch.Differential = sample.Between("pressure_switch.differential", 0.02*sample.Bars, 0.9*sample.Bars)
	})
	c := solveChain(l, pressureCaps{energy: 3 * sample.Bars, rating: math.Inf(1), blocked: math.Inf(1)})
	require.Greater(t, c.cutOut, 1*sample.Bars)
	s := c.launcher.Switch
	assert.LessOrEqual(t, s.CutIn.High+0.9*sample.Bars, s.CutOut.Low*(1+1e-9))
	assert.Greater(t, s.CutIn.High+0.9*sample.Bars, 0.98*s.CutOut.Low, "and no lower than it has to be")
}

// The lowest of what nothing may exceed is the cap of a fault, by the verdict that it belongs to; what no verdict asks for is none.
func TestTheLowestCapBinds(t *testing.T) {
	all := func(energy, rating, blocked, faults float64) pressureCaps {
		return pressureCaps{energy: energy, rating: rating, blocked: blocked, faults: askedFor{faults, "vent.points"}}
	}
	for _, c := range []struct {
		caps pressureCaps
		want float64
		by   string
	}{{all(1, 2, 3, 0), 1, "energy.fault"}, {all(2, 1, 3, 4), 1, "vessel.rating"}, {all(3, 2, 1, 4), 1, "barrel.blocked"},
		{all(3, 2, 4, 1), 1, "vent.points"}, {all(3, 2, 4, 2), 2, "vessel.rating"}} {
		at, by := c.caps.lowest()
		assert.InDelta(t, c.want, at, 0)
		assert.Equal(t, c.by, by)
		assert.InDelta(t, c.want, c.caps.lowestCap(), 0)
	}
}
