package verdict

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// The rules are this project's own; the figures follow from the bands by subtraction.
func TestLadderVerdicts(t *testing.T) {
	none := func(*launcher.Launcher) {}
	for _, row := range []struct {
		name, id     string
		change       func(*launcher.Launcher)
		status       finding.Status
		value, limit float64 // NaN: none
	}{
		{"in order", "ladder.order", none, finding.Pass, 0.06 * sample.Bars, 0},
		{"cut-in above cut-out", "ladder.order", func(l *launcher.Launcher) {
			l.Switch.CutIn = sample.Between("cut_in", 0.35*sample.Bars, 0.45*sample.Bars)
		}, finding.Fail, -0.07 * sample.Bars, 0},
		{"cut-out above relief", "ladder.order", func(l *launcher.Launcher) {
			l.Switch.CutOut = sample.Between("cut_out", 0.5*sample.Bars, 0.6*sample.Bars)
		}, finding.Fail, -0.05 * sample.Bars, 0},
		{"relief above rating", "ladder.order", func(l *launcher.Launcher) { l.Volumes[0].RatedPressure = launcher.Exact("r", 0.6*sample.Bars) },
			finding.Fail, -0.15 * sample.Bars, 0},
		{"rating missing", "ladder.order", func(l *launcher.Launcher) {
			l.Volumes[0].RatedPressure, l.Barrel.RatedPressure = launcher.Band{}, launcher.Band{}
		}, finding.Unknown, math.NaN(), math.NaN()},
		{"dead head missing", "ladder.order", func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} }, finding.Unknown, math.NaN(),
			math.NaN()},
		{"no switch", "ladder.order", func(l *launcher.Launcher) { l.Switch = nil }, finding.NotApplicable, math.NaN(), math.NaN()},
		{"room", "switch.band", none, finding.Pass, 0.06 * sample.Bars, 0.05 * sample.Bars},
		{"no room", "switch.band", func(l *launcher.Launcher) { l.Switch.Differential = launcher.Exact("d", 0.07*sample.Bars) }, finding.Fail,
			0.06 * sample.Bars, 0.07 * sample.Bars},
		{"differential missing", "switch.band", func(l *launcher.Launcher) { l.Switch.Differential = launcher.Band{} }, finding.Unknown,
			math.NaN(), math.NaN()},
		{"no switch", "switch.band", func(l *launcher.Launcher) { l.Switch = nil }, finding.NotApplicable, math.NaN(), math.NaN()},
		{"no heat stated", "heat.soak", none, finding.NotApplicable, math.NaN(), math.NaN()},
		{"relief protects", "relief.rating", none, finding.Pass, 0.75 * sample.Bars, 10 * sample.Bars},
		{"relief too high", "relief.rating", func(l *launcher.Launcher) { l.Volumes[0].RatedPressure = launcher.Exact("r", 0.7*sample.Bars) },
			finding.Fail, 0.75 * sample.Bars, 0.7 * sample.Bars},
		{"rating missing", "relief.rating", func(l *launcher.Launcher) { l.Volumes[0].RatedPressure = launcher.Band{} }, finding.Unknown,
			math.NaN(), math.NaN()},
		{"no relief", "relief.rating", func(l *launcher.Launcher) { l.Paths = l.Paths[:1] }, finding.NotApplicable, math.NaN(), math.NaN()},
		{"no relief", "relief.capacity", func(l *launcher.Launcher) { l.Paths = l.Paths[:1] }, finding.NotApplicable, math.NaN(), math.NaN()},
		{"no supply", "relief.capacity", func(l *launcher.Launcher) { l.Supply = nil }, finding.NotApplicable, math.NaN(), math.NaN()},
		{"no delivery", "relief.capacity", func(l *launcher.Launcher) { l.Supply.FreeAir = launcher.Band{} }, finding.Unknown, math.NaN(),
			math.NaN()},
	} {
		v := asked(t, sample.Plain(sample.Orderly, row.change), row.id)
		assert.Equal(t, row.status, v.Status, "%s, %s: %s", row.id, row.name, v.Why.String())
		if math.IsNaN(row.value) {
			assert.Nil(t, v.Value, row.name)
			continue
		}
		require.NotNil(t, v.Value, row.name)
		assert.InDelta(t, row.value, *v.Value, 1e-6*sample.Bars, "%s, %s", row.id, row.name) // rounding of decimal fractions
		assert.InDelta(t, row.limit, *v.Limit, 1e-6*sample.Bars, "%s, %s", row.id, row.name)
		assert.Equal(t, row.status == finding.Fail, *v.Margin < 0, "%s, %s", row.id, row.name)
	}
}

// A relief valve of 0.5 mm does not carry 12 L/min: the balance lies above its
// full-flow pressure (choked flow through 0.2 mm2 at 1.8 bar absolute is about
// 4 L/min of free air by pneumatics' own published check values).
func TestReliefCapacityFails(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	l.Paths[1].Flow = sample.Orifice(0.5*sample.Millimetres, 0.62)
	v := asked(t, l, finding.ReliefCapacity)
	assert.Equal(t, finding.Fail, v.Status)
	assert.Greater(t, *v.Value, *v.Limit)
	assert.Equal(t, finding.Pass, asked(t, sample.Plain(sample.Orderly), finding.ReliefCapacity).Status)
}

// Gay-Lussac: (0.42 bar + 1.01325 bar) 323.15/293.15 - 1.01325 bar = 0.5667 bar.
func TestHeatSoak(t *testing.T) {
	hot := func(l *launcher.Launcher) { l.Ambient.Hottest = launcher.Exact("ambient.hottest", 323.15) }
	v := asked(t, sample.Plain(sample.Orderly, hot), finding.HeatSoak)
	assert.Equal(t, finding.Fail, v.Status)
	assert.InDelta(t, (0.42*sample.Bars+101325)*323.15/293.15-101325, *v.Value, 1e-6*sample.Bars) // rounding
	assert.InDelta(t, 0.55*sample.Bars, *v.Limit, 1e-6*sample.Bars)
}
