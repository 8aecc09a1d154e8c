package fault

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// What ends the filling where no switch does can fail as a switch can: its fault starts from where nothing stops the
// supply. A relief valve that alone ends it is judged stuck shut, at the dead head; beside a mark it changes nothing
// alone. A gauge that reads low lets who fills by it go on.
func TestWhatEndsTheFillingCanFail(t *testing.T) {
	start := func(st *stage, id string) float64 {
		f := faultOf(t, st, id)
		require.True(t, f.changes, id)
		p, ok := st.faultStart(st.failed(&f), &f)
		require.True(t, ok)
		return p
	}
	relief := sample.WithRelief(launcher.Exact("", 0.4*sample.Bars), launcher.Exact("", 0.6*sample.Bars), 6*sample.Millimetres, 0.62)
	pumped := func(l *launcher.Launcher) {
		l.Switch, l.Supply.Kind, l.Supply.DeadHead = nil, launcher.HandPump, launcher.Exact("supply.dead_head", 12*sample.Bars)
		l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("", 1*sample.Bars), Class: 1}}
	}
	relieved := stageOf(t, sample.Plain(pumped, relief))
	assert.InDelta(t, 12*sample.Bars, start(relieved, "relief.stuck-shut"), 1)
	assert.InDelta(t, 12*sample.Bars, start(relieved, "relief.set-too-high-or-opens-late"), 1)
	assert.False(t, faultOf(t, relieved, "gauge-on-tank.reads-low").changes)

	mark := func(l *launcher.Launcher) { l.Supply.PumpedTo = launcher.Exact("", 0.3*sample.Bars) }
	marked := stageOf(t, sample.Plain(pumped, relief, mark))
	assert.InEpsilon(t, 0.6*sample.Bars, start(marked, "supply.pumped-past-the-mark"), 1e-9)
	assert.InEpsilon(t, (0.31+0.1)*sample.Bars, start(marked, "gauge-on-tank.reads-low"), 1e-9)
	assert.False(t, faultOf(t, marked, "relief.stuck-shut").changes)
	assert.InDelta(t, 12*sample.Bars, start(stageOf(t, sample.Plain(pumped, mark)), "supply.pumped-past-the-mark"), 1)

	timed := stageOf(t, sample.Plain(func(l *launcher.Launcher) {
		l.Switch = nil
		l.Supply.RunTime, l.Supply.FromEmpty = launcher.Exact("", 1), launcher.Yes
	}))
	assert.InDelta(t, 4*sample.Bars, start(timed, "timer.never-stops-or-starts-again"), 1)

	filled := func(reaches launcher.Band) *stage {
		return stageOf(t, sample.Plain(func(l *launcher.Launcher) {
			l.Switch, l.Supply = nil, nil
			l.Volumes[0].FilledTo, l.Volumes[0].FillerReaches = launcher.Exact("", 0.3*sample.Bars), reaches
		}))
	}
	assert.InDelta(t, 2*sample.Bars, start(filled(launcher.Exact("", 2*sample.Bars)), "volumes.tank.filled-too-high"), 1)
	unknown := filled(launcher.Band{})
	f := faultOf(t, unknown, "volumes.tank.filled-too-high")
	_, ok := unknown.faultStart(unknown.failed(&f), &f)
	assert.False(t, ok)

	shop := stageOf(t, sample.Plain(func(l *launcher.Launcher) {
		l.Supply.Kind, l.Supply.SourcePressure = launcher.ShopAir, launcher.Exact("", 9*sample.Bars)
		l.Supply.RegulatorBore = launcher.Exact("", 2e-3)
	}))
	assert.InDelta(t, 9*sample.Bars, start(shop, "supply.creeps-to-its-inlet-pressure"), 1)
}

// The dead head of a pump by hand is a force over a piston's area, no property of the pump: stated, it bounds no fault below what
// people reach with such pumps, 10 bar (common practice, no source). A relief valve that carries the pump does.
func TestAPersonPumpsHarderThanStated(t *testing.T) {
	pumped := func(dead float64, o ...func(*launcher.Launcher)) *stage {
		return stageOf(t, sample.Plain(append(o, func(l *launcher.Launcher) {
			l.Switch, l.Supply.Kind, l.Supply.DeadHead = nil, launcher.HandPump, launcher.Exact("supply.dead_head", dead)
			l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("", 1*sample.Bars), Class: 1}}
		})...))
	}
	start := func(st *stage, id string) (float64, bool) {
		f := faultOf(t, st, id)
		require.True(t, f.changes, id)
		return st.faultStart(st.failed(&f), &f)
	}
	const id = "supply.pumped-harder-than-stated"
	_, known := start(pumped(0.22*sample.Bars), id)
	assert.False(t, known, "nothing stops a stronger person")
	assert.Equal(t, finding.Unknown, runFault(t, pumped(0.22*sample.Bars), id).Status)
	mark := func(l *launcher.Launcher) { l.Supply.PumpedTo = launcher.Exact("", 0.2*sample.Bars) }
	_, known = start(pumped(0.22*sample.Bars, mark), "supply.pumped-past-the-mark")
	assert.False(t, known, "nor one who pumps to a mark")
	p, known := start(pumped(10*sample.Bars), id)
	assert.True(t, known)
	assert.InDelta(t, 10*sample.Bars, p, 1, "as far as people reach")
	relief := sample.WithRelief(launcher.Exact("", 0.4*sample.Bars), launcher.Exact("", 0.6*sample.Bars), 6*sample.Millimetres, 0.62)
	p, known = start(pumped(0.22*sample.Bars, relief), id)
	assert.True(t, known)
	assert.InEpsilon(t, 0.6*sample.Bars, p, 1e-9, "the relief valve's full flow")
	motor := pumped(0.22 * sample.Bars)
	motor.Launcher.Supply.Kind = launcher.Compressor
	for _, f := range motor.singleFaults() {
		assert.NotEqual(t, PumpedHarder, f.mode, "a motor has its own dead head")
	}
}
