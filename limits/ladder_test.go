package limits

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ladderOf(t *testing.T, id string, l *Launcher) Verdict {
	t.Helper()
	for _, question := range []func(*Assessment) Verdict{ladderOrder, reliefCapacity, reliefRating, switchBand, heatSoak} {
		if v := asked(t, l, question); v.ID == id {
			return v
		}
	}
	require.FailNow(t, "no verdict "+id)
	return Verdict{}
}

// The rules are this project's own; the figures follow from the bands by subtraction.
func TestLadderVerdicts(t *testing.T) {
	none := func(*Launcher) {}
	for _, row := range []struct {
		name, id     string
		change       func(*Launcher)
		status       Status
		value, limit float64 // NaN: none
	}{
		{"in order", "ladder.order", none, Pass, 0.06 * bars, 0},
		{"cut-in above cut-out", "ladder.order", func(l *Launcher) { l.Switch.CutIn = between("cut_in", 0.35*bars, 0.45*bars) }, Fail, -0.07 * bars, 0},
		{"cut-out above relief", "ladder.order", func(l *Launcher) { l.Switch.CutOut = between("cut_out", 0.5*bars, 0.6*bars) }, Fail, -0.05 * bars, 0},
		{"relief above rating", "ladder.order", func(l *Launcher) { l.Volumes[0].RatedPressure = Exact("r", 0.6*bars) }, Fail, -0.15 * bars, 0},
		{"rating missing", "ladder.order", func(l *Launcher) { l.Volumes[0].RatedPressure, l.Barrel.RatedPressure = Band{}, Band{} }, Unknown, math.NaN(), math.NaN()},
		{"dead head missing", "ladder.order", func(l *Launcher) { l.Supply.DeadHead = Band{} }, Unknown, math.NaN(), math.NaN()},
		{"no switch", "ladder.order", func(l *Launcher) { l.Switch = nil }, NotApplicable, math.NaN(), math.NaN()},
		{"room", "switch.band", none, Pass, 0.06 * bars, 0.05 * bars},
		{"no room", "switch.band", func(l *Launcher) { l.Switch.Differential = Exact("d", 0.07*bars) }, Fail, 0.06 * bars, 0.07 * bars},
		{"differential missing", "switch.band", func(l *Launcher) { l.Switch.Differential = Band{} }, Unknown, math.NaN(), math.NaN()},
		{"no switch", "switch.band", func(l *Launcher) { l.Switch = nil }, NotApplicable, math.NaN(), math.NaN()},
		{"no heat stated", "heat.soak", none, NotApplicable, math.NaN(), math.NaN()},
		{"relief protects", "relief.rating", none, Pass, 0.75 * bars, 10 * bars},
		{"relief too high", "relief.rating", func(l *Launcher) { l.Volumes[0].RatedPressure = Exact("r", 0.7*bars) }, Fail, 0.75 * bars, 0.7 * bars},
		{"rating missing", "relief.rating", func(l *Launcher) { l.Volumes[0].RatedPressure = Band{} }, Unknown, math.NaN(), math.NaN()},
		{"no relief", "relief.rating", func(l *Launcher) { l.Paths = l.Paths[:1] }, NotApplicable, math.NaN(), math.NaN()},
		{"no relief", "relief.capacity", func(l *Launcher) { l.Paths = l.Paths[:1] }, NotApplicable, math.NaN(), math.NaN()},
		{"no supply", "relief.capacity", func(l *Launcher) { l.Supply = nil }, NotApplicable, math.NaN(), math.NaN()},
		{"no delivery", "relief.capacity", func(l *Launcher) { l.Supply.FreeAir = Band{} }, Unknown, math.NaN(), math.NaN()},
	} {
		v := ladderOf(t, row.id, plain(orderly, row.change))
		assert.Equal(t, row.status, v.Status, "%s, %s: %s", row.id, row.name, v.Why)
		if math.IsNaN(row.value) {
			assert.Nil(t, v.Value, row.name)
			continue
		}
		require.NotNil(t, v.Value, row.name)
		assert.InDelta(t, row.value, *v.Value, 1e-6*bars, "%s, %s", row.id, row.name) // rounding of decimal fractions
		assert.InDelta(t, row.limit, *v.Limit, 1e-6*bars, "%s, %s", row.id, row.name)
		assert.Equal(t, row.status == Fail, *v.Margin < 0, "%s, %s", row.id, row.name)
	}
}

// A relief valve of 0.5 mm does not carry 12 L/min: the balance lies above its
// full-flow pressure (choked flow through 0.2 mm2 at 1.8 bar absolute is about
// 4 L/min of free air by pneumatics' own published check values).
func TestReliefCapacityFails(t *testing.T) {
	l := plain(orderly)
	l.Paths[1].Flow = orifice(0.5*millimetres, 0.62)
	v := ladderOf(t, "relief.capacity", l)
	assert.Equal(t, Fail, v.Status)
	assert.Greater(t, *v.Value, *v.Limit)
	assert.Equal(t, Pass, ladderOf(t, "relief.capacity", plain(orderly)).Status)
}

// Gay-Lussac: (0.42 bar + 1.01325 bar) 323.15/293.15 - 1.01325 bar = 0.5667 bar.
func TestHeatSoak(t *testing.T) {
	hot := func(l *Launcher) { l.Ambient.Hottest = Exact("ambient.hottest", 323.15) }
	v := ladderOf(t, "heat.soak", plain(orderly, hot))
	assert.Equal(t, Fail, v.Status)
	assert.InDelta(t, (0.42*bars+101325)*323.15/293.15-101325, *v.Value, 1e-6*bars) // rounding
	assert.InDelta(t, 0.55*bars, *v.Limit, 1e-6*bars)
}

// The order in which verdicts and rungs come is that of the ladder.
func TestRungsAreInOrder(t *testing.T) {
	rungs := plain(orderly).Rungs(0.9 * bars)
	var names []string
	for i, r := range rungs {
		names = append(names, r.Name)
		assert.LessOrEqual(t, r.Low, r.Gauge, r.Name)
		assert.GreaterOrEqual(t, r.High, r.Gauge, r.Name)
		if i > 0 {
			assert.GreaterOrEqual(t, r.Gauge, rungs[i-1].Gauge, r.Name)
		}
	}
	assert.Equal(t, []string{"cut-in", "cut-out", "highest in normal running", "relief set", "relief full flow", "highest at a fault",
		"energy limit", "lowest rating"}, names)
}
