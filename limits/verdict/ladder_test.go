package verdict

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
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

// Every gap counts, the smallest decides; a bench test that contradicts the design leaves
// what passes unknown and no failure.
func TestABenchClashLeavesTheLadderOpen(t *testing.T) {
	clash := func(key string, changes ...func(*launcher.Launcher)) *launcher.Launcher {
		l := sample.Plain(append([]func(*launcher.Launcher){sample.Orderly}, changes...)...)
		l.Bench = &launcher.Bench{Clashes: []launcher.Clash{{Key: key, Test: "ten cycles"}}}
		return l
	}
	assert.Equal(t, finding.Unknown, asked(t, clash("pressure_switch.cut_out"), finding.LadderOrder).Status)
	assert.Equal(t, finding.Pass, asked(t, clash("paths.relief.set_pressure"), finding.LadderOrder).Status)
	assert.Equal(t, finding.Unknown, asked(t, clash("supply.free_air"), finding.LadderOrder).Status, "the overshoot hangs on it")
	for _, key := range []string{"paths.relief.set_pressure", "supply.free_air"} {
		assert.Equal(t, finding.Unknown, asked(t, clash(key), finding.ReliefCapacity).Status, key)
	}
	low := func(l *launcher.Launcher) {
		l.Switch.CutIn = sample.Between("cut_in", 0.35*sample.Bars, 0.45*sample.Bars)
	}
	assert.Equal(t, finding.Fail, asked(t, clash("pressure_switch.cut_out", low), finding.LadderOrder).Status)
}

// Where no switch and no relief valve is, neither the ladder nor the valve's capacity tells that a test contradicts the supply: the energy
// does, which hangs on it alone.
func TestABenchClashOfASupplyAlone(t *testing.T) {
	status := func(key string, changes ...func(*launcher.Launcher)) finding.Status {
		l := sample.Plain(append(changes, func(l *launcher.Launcher) {
			l.Switch, l.Supply.DeadHead = nil, sample.Between("supply.dead_head", 0.2*sample.Bars, 0.22*sample.Bars)
		})...)
		l.Bench = &launcher.Bench{Clashes: []launcher.Clash{{Key: key, Test: "fill time"}}}
		return Of(assessed.Energies(t, l, assessment.Options{Strength: 0.05}), finding.EnergyTotal).Status
	}
	assert.Equal(t, finding.Pass, status(""))
	assert.Equal(t, finding.Unknown, status("supply.free_air"))
	assert.Equal(t, finding.Pass, status("supply.free_air", sample.Orderly), "the relief valve's capacity says so")
}

// relief.capacity compares where supply and relief flow balance with full flow.
func TestReliefCapacityAtItsLimit(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	over := l.Overcharge()
	require.Less(t, over.Balance, over.FullFlow)
	v := asked(t, l, finding.ReliefCapacity)
	assertFigure(t, over.Balance, v.Value, "balance")
	assertFigure(t, over.FullFlow, v.Limit, "full flow")
}

// relief.rating is about what shares the supply's pressure: a weak vessel elsewhere is not
// protected by this valve, and a missing rating hides no failure.
func TestReliefRatingOfWhatItProtects(t *testing.T) {
	l := sample.TwoTanks()
	sample.Orderly(l)
	l.Volumes[1].RatedPressure = launcher.Exact("", 0.1*sample.Bars)
	assert.Equal(t, finding.Pass, asked(t, l, finding.ReliefRating).Status, "the dose is not joined to the supply")
	join := func(l *launcher.Launcher) *launcher.Launcher {
		p := sample.ValveIn(pneumatics.Charging)
		p.Name, p.From, p.To, p.Flow = "feed", "tank", "dose", sample.Orifice(1e-3, 0.7)
		l.Paths = append(l.Paths, p)
		return l
	}
	assert.Equal(t, finding.Fail, asked(t, join(l), finding.ReliefRating).Status)
	l.Volumes[1].RatedPressure = launcher.Band{}
	v := asked(t, l, finding.ReliefRating)
	assert.Equal(t, finding.Unknown, v.Status)
	assert.Contains(t, v.Why.String(), "volumes.dose.rated_pressure")
	l.Volumes[0].RatedPressure = launcher.Exact("", 0.7*sample.Bars)
	assert.Equal(t, finding.Fail, asked(t, l, finding.ReliefRating).Status)
}

// switch.band and heat.soak take the near ends of their bands.
func TestLadderTakesTheNearEnds(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	l.Switch.Differential = sample.Between("d", 0.03*sample.Bars, 0.05*sample.Bars)
	v := asked(t, l, finding.SwitchBand)
	assert.InDelta(t, 0.06*sample.Bars, *v.Value, 1e-6, "0.38 - 0.32 bar")
	assert.InDelta(t, 0.05*sample.Bars, *v.Limit, 1e-6)

	l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+30)
	v = asked(t, l, finding.HeatSoak)
	assert.InDelta(t, 0.55*sample.Bars, *v.Limit, 1e-6, "the relief valve opens before the lowest rating of 6 bar")
	assert.InDelta(t, (42000+101325)*303.15/293.15-101325, *v.Value, 1e-6, "Gay-Lussac")
	l.Barrel.RatedPressure = launcher.Exact("", 0.5*sample.Bars)
	v = asked(t, l, finding.HeatSoak)
	assert.InDelta(t, 0.5*sample.Bars, *v.Limit, 1e-6)
}

// A coldest that is only assumed is no reason to pass: where it would not hold filled at that cold, it holds only while it is not filled
// so. Sealed at 0.5 bar in 15 degC air (0.5 + 1.01325) 308.15/288.15 - 1.01325 = 0.605 bar at 35 degC; from -5 degC 0.726 bar.
func TestAnUnstatedColdIsACondition(t *testing.T) {
	soaked := func(set float64, coldest launcher.Band) finding.Verdict {
		return asked(t, sample.Plain(func(l *launcher.Launcher) {
			l.Switch, l.Supply.DeadHead = nil, launcher.Exact("", 0.5*sample.Bars)
			l.Ambient.Temperature, l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+15), launcher.Exact("", sample.Kelvin0+35)
			l.Ambient.Coldest = coldest
			l.Volumes[0].RatedPressure, l.Barrel.RatedPressure = launcher.Exact("", set*sample.Bars), launcher.Exact("", set*sample.Bars)
		}), finding.HeatSoak)
	}
	stated, assumed := launcher.Exact("", sample.Kelvin0-5), launcher.Exact("", sample.Kelvin0-5)
	assumed.Assumed = true
	assert.Equal(t, finding.Fail, soaked(0.7, stated).Status)
	v := soaked(0.7, assumed)
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Equal(t, []string{finding.ItemColdDrain}, v.Items)
	assert.Contains(t, v.Condition.String(), "ambient.coldest not being stated")
	assert.Equal(t, finding.Pass, soaked(0.8, assumed).Status, "from that cold it holds as well")
	assert.Equal(t, finding.Fail, soaked(0.6, assumed).Status)
}

// Each gap is from the top of what lies below to the foot of what lies above; figures are
// those of the bands.
func TestGapsTakeTheNearerEnds(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	l.Volumes[0].RatedPressure = sample.Between("", 2*sample.Bars, 3*sample.Bars)
	gaps, missing := gapsOf(l)
	assert.Empty(t, missing)
	want := [][2]float64{{0.32, 0.38}, {0.42, 0.55}, {0.65, 2}, {l.Overcharge().Pressure / sample.Bars, 2}}
	require.Len(t, gaps, len(want))
	for i, g := range gaps {
		assert.InDelta(t, want[i][0]*sample.Bars, g.below, 1e-6, g.what)
		assert.InDelta(t, want[i][1]*sample.Bars, g.top, 1e-6, g.what)
	}
	assert.InDelta(t, 0.75*sample.Bars, gaps[3].below, 1e-6, "full flow at the top of its tolerance")
}
