package launcher_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Which end of each band a pressure takes: always the one that makes it worse. Figures by
// hand from the bands; own rule of this project.

// dp = pa Q t/V with the heaviest air, the strongest supply, the slowest switch and the
// smallest volume: 104000 Pa 14 L/min 0.5 s/1.8 L = 6740.7 Pa.
func TestOvershootTakesTheBadEnds(t *testing.T) {
	banded := func(l *launcher.Launcher) {
		l.Ambient.Pressure = sample.Between("", 98000, 104000)
		l.Volumes[0].Volume = sample.Between("", 1.8e-3, 2.2e-3)
		l.Supply.FreeAir = sample.Between("", 10*sample.LitreMinute, 14*sample.LitreMinute)
		l.Switch.ReactionTime = sample.Between("", 0, 0.5)
	}
	assert.InDelta(t, 6740.7, sample.Plain(banded).Overshoot(), 0.1)
	// A curve may lie above itself as far as the free air above its nominal value:
	// 18 L/min 14/12 = 21 L/min.
	l := sample.Plain(banded, func(l *launcher.Launcher) { l.Supply.Curve = []launcher.CurvePoint{{FreeAir: 18 * sample.LitreMinute}} })
	assert.InDelta(t, 6740.7*21/14, l.Overshoot(), 0.1)
}

// A supply that stalls below the cut-out does not lower it: something else may fill it.
func TestADeadHeadBelowTheCutOutDoesNotLowerIt(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Exact("", 0.8*sample.Bars) })
	high, ok := l.NormalHigh()
	require.True(t, ok)
	assert.Equal(t, 0.95*sample.Bars, high)
}

// Filled at the coldest that is stated, in the heaviest air: (95000 + 104000) 318.15/273.15
// - 104000 = 127784.2 Pa; from 10 degC where the coldest is only assumed:
// 199000 318.15/283.15 - 104000 = 119598.3 Pa.
func TestSoakTakesTheBadEnds(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Ambient.Pressure, l.Ambient.Temperature = sample.Between("", 98000, 104000), sample.Between("", 283.15, 298.15)
		l.Ambient.Coldest, l.Ambient.Hottest = sample.Between("", 273.15, 278.15), sample.Between("", 313.15, 318.15)
	})
	assert.InDelta(t, 127784.2, l.Soak(95000), 0.1)
	l.Ambient.Coldest.Assumed = true
	assert.InDelta(t, 119598.3, l.Soak(95000), 0.1)
}

// HighStart is StartPressures of the launcher whose every band stands at its top.
func TestHighStartTakesTheTops(t *testing.T) {
	const at = 0.5 * sample.Bars
	// The switch senses what the supply feeds past a check valve.
	fed := func(bore float64, change func(l *launcher.Launcher)) *launcher.Launcher {
		l := sample.TwoTanks(launcher.PathSpec{Kind: pneumatics.Check, Flow: sample.Orifice(bore, 0.75),
			CrackingPressure: launcher.Exact("", 0.1*sample.Bars)})
		l.Switch.Senses = "dose"
		change(l)
		return l
	}
	const narrow, wide = 0.6e-3, 8e-3 // [m]
	for name, c := range map[string]struct {
		bore      float64
		band, top func(l *launcher.Launcher)
	}{
		"cracking pressure": {wide, func(l *launcher.Launcher) { l.Paths[1].CrackingPressure.High = 0.3 * sample.Bars },
			func(l *launcher.Launcher) { l.Paths[1].CrackingPressure = launcher.Exact("", 0.3*sample.Bars) }},
		"free air": {narrow, func(l *launcher.Launcher) { l.Supply.FreeAir.High = 15 * sample.LitreMinute },
			func(l *launcher.Launcher) { l.Supply.FreeAir = launcher.Exact("", 15*sample.LitreMinute) }},
		"a curve, 30 % above itself": {narrow,
			func(l *launcher.Launcher) {
				l.Supply.FreeAir = launcher.Band{}
				l.Supply.Curve = []launcher.CurvePoint{{0, 14 * sample.LitreMinute}, {2 * sample.Bars, 7 * sample.LitreMinute}}
			},
			func(l *launcher.Launcher) {
				l.Supply.FreeAir = launcher.Exact("", sample.LitreMinute) // exact: the curve's share is 1
				l.Supply.Curve = []launcher.CurvePoint{{0, 1.3 * 14 * sample.LitreMinute}, {2 * sample.Bars, 1.3 * 7 * sample.LitreMinute}}
			}},
	} {
		got, want := fed(c.bore, c.band).HighStart(at)[0], fed(c.bore, c.top).HighStart(at)[0]
		assert.InEpsilon(t, want, got, 1e-9, name)
		assert.Greater(t, got, 1.01*fed(c.bore, func(*launcher.Launcher) {}).HighStart(at)[0], name)
	}
}

// Fire may be pressed while charging where a valve of the way is shut when armed and takes
// time to shut; else the states do not differ.
func TestStatesBefore(t *testing.T) {
	both := []pneumatics.State{pneumatics.Armed, pneumatics.Charging}
	slow := func(states ...pneumatics.State) *launcher.Launcher {
		l := sample.TwoTanks(sample.ValveIn(states...))
		l.Paths[1].ClosingTime = launcher.Exact("", 20e-3)
		return l
	}
	assert.Equal(t, both, slow(pneumatics.Charging).StatesBefore())
	assert.Equal(t, both, slow(pneumatics.Armed).StatesBefore())
	assert.Equal(t, both[:1], slow(pneumatics.Charging, pneumatics.Armed).StatesBefore())
	assert.Equal(t, both[:1], sample.TwoTanks(sample.ValveIn(pneumatics.Charging)).StatesBefore(), "it shuts at once")
	assert.Equal(t, both, sample.TwoTanks(sample.ValveIn(pneumatics.Charging, pneumatics.Firing)).StatesBefore())
}

// The overcharge takes the top of the set pressure, heavy air, the upper end of a measured
// pressure, and of a nominal flow, which is stated from 7 to 6 bar, the high critical ratio.
func TestOverchargeTakesTheTopOfTheReliefValve(t *testing.T) {
	strong := strength(60, launcher.Exact("", 8*sample.Bars))
	relief := func(set, full launcher.Band, changes ...func(*launcher.Launcher)) launcher.Overcharge {
		all := append([]func(*launcher.Launcher){strong, sample.WithRelief(set, full, 3*sample.Millimetres, 0.62)}, changes...)
		return sample.Plain(all...).Overcharge()
	}
	top := relief(launcher.Exact("", 2.2*sample.Bars), launcher.Exact("", 3.2*sample.Bars))
	banded := relief(sample.Between("", 1.8*sample.Bars, 2.2*sample.Bars), launcher.Exact("", 3*sample.Bars))
	require.Less(t, top.Balance, top.FullFlow, "at part lift, where the set pressure bears on it")
	assert.InEpsilon(t, top.Balance, banded.Balance, 1e-9)

	heavy := relief(launcher.Exact("", 2*sample.Bars), launcher.Exact("", 3*sample.Bars),
		func(l *launcher.Launcher) { l.Ambient.Pressure.High = 110000 })
	assert.Greater(t, heavy.Balance, relief(launcher.Exact("", 2*sample.Bars), launcher.Exact("", 3*sample.Bars)).Balance*1.001)

	nominal := func(ratio launcher.Band) float64 {
		return relief(launcher.Exact("", 0.1*sample.Bars), launcher.Exact("", 0.2*sample.Bars), func(l *launcher.Launcher) {
			l.Paths[1].Flow = launcher.FlowSpec{Form: launcher.NominalFlow, Value: launcher.Exact("", 60*sample.LitreMinute), CriticalRatio: ratio}
		}).Balance
	}
	require.Greater(t, nominal(launcher.Exact("", 0.5)), nominal(launcher.Exact("", 0.2)))
	assert.InEpsilon(t, nominal(launcher.Exact("", 0.5)), nominal(sample.Between("", 0.2, 0.5)), 1e-9)

	measured := relief(launcher.Exact("", 2*sample.Bars), launcher.Exact("", 3*sample.Bars), func(l *launcher.Launcher) {
		l.Paths[1].SteadyPressure = sample.Between("", 2.3*sample.Bars, 2.5*sample.Bars)
	})
	assert.Equal(t, 2.5*sample.Bars, measured.Pressure)
}

// A long thin hose holds a relief valve back most where the valve opens first: at the low
// end of its set pressure.
func TestOverchargeHoldsAHoseBackAtTheLowEnd(t *testing.T) {
	balance := func(set launcher.Band) float64 {
		return sample.Plain(strength(30, launcher.Exact("", 8*sample.Bars)),
			sample.WithRelief(set, launcher.Exact("", 1.6*sample.Bars), 3*sample.Millimetres, 0.62),
			func(l *launcher.Launcher) {
				l.Paths[1].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 2e-3), Length: launcher.Exact("", 6), Side: launcher.HoseAfter}
			}).Overcharge().Balance
	}
	wide := sample.Between("", 0.01*sample.Bars, 1.5*sample.Bars)
	wide.Nominal = 1.5 * sample.Bars
	assert.Greater(t, balance(wide), 1.001*balance(launcher.Exact("", 1.5*sample.Bars)))
}

// The highest pressure at a fault is never below that of normal operation, and unknown
// where nobody says what fills it.
func TestAFaultIsNeverBelowNormal(t *testing.T) {
	l := sample.Plain(sample.WithRelief(launcher.Exact("", 0.5*sample.Bars), launcher.Exact("", 0.6*sample.Bars), 5*sample.Millimetres, 0.62))
	require.Equal(t, 0.6*sample.Bars, l.Overcharge().Pressure)
	high, ok := l.FaultHigh()
	require.True(t, ok)
	assert.Equal(t, 0.95*sample.Bars, high)
	assert.Equal(t, 0.95*sample.Bars, l.VesselPressures()[0].Fault)

	l.Supply = nil
	assert.True(t, math.IsNaN(l.VesselPressures()[0].Fault))
}

// A relief valve that opens low reseats low.
func TestReseatShiftsWithTheSetPressure(t *testing.T) {
	p := launcher.PathSpec{SetPressure: sample.Between("", 0.65e5, 0.85e5), ReseatPressure: sample.Between("", 0.6e5, 0.7e5)}
	assert.InDelta(t, 0.55e5, p.ReseatLow(), 1e-6, "0.65 - (0.75 - 0.65) bar")
	p.SetPressure = launcher.Exact("", 0.75e5)
	assert.InDelta(t, 0.6e5, p.ReseatLow(), 1e-6)
}

// The relief valve that opens first is the one that protects.
func TestTheReliefValveThatOpensFirst(t *testing.T) {
	l := sample.Plain()
	for _, set := range []float64{0.9e5, 0.6e5, 0.7e5} {
		sample.WithRelief(launcher.Exact("", set), launcher.Exact("", set+1e4), 5*sample.Millimetres, 0.62)(l)
	}
	assert.Equal(t, 2, l.ReliefOnSupply())
	l.Supply.Feeds = "elsewhere"
	assert.Equal(t, -1, l.ReliefOnSupply())
}
