package fault

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// A gauge that was knocked, and a switch that is turned up, count at the ends of their
// bands that raise the pressure most, and heat comes on top: (95000 Pa + a tenth of 2 bar
// + 101325 Pa) 318.15/293.15 - 101325 Pa, the ideal gas at constant volume.
func TestWhatMovesTheSwitchTakesTheBadEnds(t *testing.T) {
	st := stageOf(t, sample.Plain(func(l *launcher.Launcher) {
		l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: sample.Between("", 1.6e5, 2e5)}}
		l.Switch.AdjustableTo, l.Switch.Adjustable = sample.Between("", 1.2e5, 1.5e5), launcher.Yes
		l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+45)
	}))
	low := faultOf(t, st, "gauge-on-tank.reads-low")
	assert.InDelta(t, 0.1*2e5, low.raises, 1e-9)
	assert.InDelta(t, 1.5e5-0.95e5, faultOf(t, st, "pressure-switch.turned-up-to-its-end-stop").raises, 1e-6)
	start, ok := st.faultStart(st.failed(&low), &low)
	require.True(t, ok)
	assert.InEpsilon(t, (95e3+20e3+101325)*318.15/293.15-101325, start, 1e-9)
}

// What rushes in behind a projectile that does not move is the highest pressure of its
// jam, and in the barrel; a sticky one holds three times as firmly, and drags as much more or not.
func TestWhatTheProjectileDoesTakesTheBadEnds(t *testing.T) {
	st := stageOf(t, hosed())
	jam := runFault(t, st, "projectile.jammed")
	high, ok := st.Launcher.FaultHigh()
	require.True(t, ok)
	assert.InDelta(t, launcher.Rush*high, jam.WorstGauge, 1e-6)
	assert.Equal(t, "barrel", jam.Where)

	sticky := faultOf(t, st, "projectile.sticky")
	for free, sliding := range map[float64]float64{0: 12, 1: 4} {
		var c pneumatics.Circuit
		c.Barrel.Breakaway, c.Barrel.Restart, c.Barrel.Sliding = 1, 2, 4
		sticky.adjust(&c, []float64{1, free})
		assert.Equal(t, []float64{3, 6, sliding}, []float64{c.Barrel.Breakaway, c.Barrel.Restart, c.Barrel.Sliding})
	}
}

// A sticky projectile is as bad as one that is built to hold three times as firmly and to slide as before, searched as normal
// operation of a design of its own.
func TestAStickyProjectileMaySlideFreely(t *testing.T) {
	l, built := sample.Plain(sample.FireCv(0.1), sample.Friction(2, 1.5)), sample.Plain(sample.FireCv(0.1), sample.Friction(6, 1.5))
	want, err := worst.Maximise(context.Background(), built, worst.EnergyQuestion(built, 0.95*sample.Bars), vent.Brief())
	require.NoError(t, err)
	sound, err := worst.Maximise(context.Background(), l, worst.EnergyQuestion(l, 0.95*sample.Bars), vent.Brief())
	require.NoError(t, err)
	require.Greater(t, want.Value, 1.02*sound.Value, "the hold brings energy here")
	st := newStage(context.Background(), inputOf(t, l))
	assert.GreaterOrEqual(t, runFault(t, st, "projectile.sticky").Energy, 0.999*want.Value)
}

// What a hand frees meets no friction of any kind: which of them held it is not known.
func TestWhatIsFreedMeetsNoFriction(t *testing.T) {
	freed := func(change func(l *launcher.Launcher)) float64 {
		l := sample.Plain(sample.Friction(0, 0), change)
		return stageOf(t, l).freedOpen([]float64{0.95e5}, 0.95e5)
	}
	free := freed(func(*launcher.Launcher) {})
	for name, change := range map[string]func(l *launcher.Launcher){
		"breakaway": func(l *launcher.Launcher) { l.Projectile.Breakaway = launcher.Exact("", 200) },
		"sliding":   func(l *launcher.Launcher) { l.Projectile.Sliding = launcher.Exact("", 5) },
	} {
		assert.InEpsilon(t, free, freed(change), 1e-9, name)
	}
}

// A projectile that is looser than stated is as bad as one that nothing holds and nothing brakes, searched as normal operation of a design
// of its own; whoever states that nothing may hold it has that in normal operation. What an opened valve does unasked is not held back
// by friction either.
func TestAProjectileMayBeLooserThanStated(t *testing.T) {
	const fast = 0.95 * sample.Bars
	l, free := sample.Plain(sample.FireCv(2), sample.Friction(3, 2.5)), sample.Plain(sample.FireCv(2), sample.Friction(0, 0))
	want, err := worst.Maximise(context.Background(), free, worst.EnergyQuestion(free, fast), vent.Brief())
	require.NoError(t, err)
	stated, err := worst.Maximise(context.Background(), l, worst.EnergyQuestion(l, fast), vent.Brief())
	require.NoError(t, err)
	require.Greater(t, want.Value, 1.02*stated.Value, "friction takes energy here")
	st := newStage(context.Background(), inputOf(t, l))
	assert.GreaterOrEqual(t, runFault(t, st, "projectile.looser-than-stated").Energy, 0.999*want.Value)
	for _, f := range newStage(context.Background(), inputOf(t, free)).singleFaults() {
		assert.NotEqual(t, LooseBall, f.mode)
	}
	// 3000 N on the 13.2 cm2 of 41 mm is 23 bar, more than the 4 bar that the supply ever makes.
	held := newStage(context.Background(), inputOf(t, sample.Plain(sample.Friction(3000, 1000))))
	assert.Positive(t, runFault(t, held, "fire.stuck-open.charging").Energy)
}
