package fault

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
		l.Switch, l.Supply.Kind = nil, launcher.HandPump
		l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("", 1*sample.Bars), Class: 1}}
	}
	relieved := stageOf(t, sample.Plain(pumped, relief))
	assert.InDelta(t, 4*sample.Bars, start(relieved, "relief.stuck-shut"), 1)
	assert.InDelta(t, 4*sample.Bars, start(relieved, "relief.set-too-high-or-opens-late"), 1)
	assert.False(t, faultOf(t, relieved, "gauge-on-tank.reads-low").changes)

	mark := func(l *launcher.Launcher) { l.Supply.PumpedTo = launcher.Exact("", 0.3*sample.Bars) }
	marked := stageOf(t, sample.Plain(pumped, relief, mark))
	assert.InEpsilon(t, 0.6*sample.Bars, start(marked, "supply.pumped-past-the-mark"), 1e-9)
	assert.InEpsilon(t, (0.31+0.1)*sample.Bars, start(marked, "gauge-on-tank.reads-low"), 1e-9)
	assert.False(t, faultOf(t, marked, "relief.stuck-shut").changes)
	assert.InDelta(t, 4*sample.Bars, start(stageOf(t, sample.Plain(pumped, mark)), "supply.pumped-past-the-mark"), 1)

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
