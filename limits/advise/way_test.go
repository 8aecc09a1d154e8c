package advise

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/sound"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// A figure without a unit states its tolerance too: without it the design would be judged with the wide one of its key, and not
// as it was screened.
func TestAFigureWithoutUnitHasItsTolerance(t *testing.T) {
	cv := number(3.3, finding.Bars, 0.33)
	cv.Bare = true
	assert.Equal(t, "3.3 ± 0.33", cv.Text())
	assert.Equal(t, "1.6", bare(1.6).Text(), "a class has none")
}

// What is bought stays on the list of parts when its figure is turned.
func TestTurningKeepsThePartThatIsBought(t *testing.T) {
	all := merged([]Change{{Key: "volumes.dose.volume", Sort: Bought, Part: "dose chamber"}},
		[]Change{{Key: "volumes.dose.volume", Sort: Bought, Part: "vessel in the place of dose"}})
	require.Len(t, all, 1)
	assert.Equal(t, "dose chamber", all[0].Part)
}

// relieved is the plain launcher with a relief valve of a tolerance [Pa] to both sides and a full flow so far [Pa] above, far
// above what it needs.
func relieved(tolerance, wide float64) *launcher.Launcher {
	const set = 3e5
	full := launcher.Exact("paths.relief.full_flow_pressure", set+wide)
	full.Line = 1
	return sample.Plain(sample.CutOut(0.4e5),
		sample.WithRelief(sample.Between("paths.relief.set_pressure", set-tolerance, set+tolerance), full, 6e-3, 0.62))
}

// A relief valve that is turned keeps the tolerance that it is known to have; none is made closer than one that is sold, unless it
// is one that is set on a bench, which then is bought. It stands above what heat makes of the filled launcher with its whole tolerance.
func TestAReliefValveKeepsItsTolerance(t *testing.T) {
	for _, c := range []struct {
		name               string
		tolerance, wide    float64 // stated
		fine               bool
		wantBand, wantFull float64 // band, full flow above set
		part               bool
	}{
		{"coarse", 0.3e5, 0.5e5, false, springBand, 0.2e5, false},
		{"its own", 0.02e5, 0.08e5, false, 0.02e5, 0.08e5, false},
		{"on a bench", 0.3e5, 0.5e5, true, reliefBand, 0.06e5, true},
	} {
		l := relieved(c.tolerance, c.wide)
		needs := l.SealedSoak(l.Working().High)
		list := (&sieve{fine: c.fine}).follow(l, bandsOf(l))
		got := map[string]follower{}
		for _, f := range list {
			got[f.key[strings.LastIndexByte(f.key, '.')+1:]] = f
		}
		set, full := got["set_pressure"], got["full_flow_pressure"]
		assert.InDelta(t, c.wantBand, set.tolerance, 1, c.name)
		assert.InDelta(t, c.wantFull, full.value-set.value, 1, c.name)
		assert.Greater(t, set.value-set.tolerance, needs, c.name)
		assert.Equal(t, c.part, set.part != "", c.name)
	}
}

// A pump that cannot push far is itself what limits the pressure: its dead head is turned, and neither a switch nor a relief valve
// is bought. One that can push further is no such pump.
func TestAWeakPumpLimitsThePressure(t *testing.T) {
	weak := sample.Plain(func(l *launcher.Launcher) {
		l.Switch = nil
		l.Supply.DeadHead = sample.Between("supply.dead_head", 0.2e5, 0.24e5)
	})
	first, then := layouts(weak)
	assert.Equal(t, []layout{weakly}, first)
	assert.Empty(t, then)
	require.NotNil(t, pressureDial(weak))
	assert.Equal(t, []string{"supply.dead_head"}, pressureDial(weak).keys)
	b := newDraft(blank{weak}, nil)
	lay(b, weakly)
	for _, c := range b.list {
		assert.False(t, strings.HasPrefix(c.Key, "pressure_switch.") || strings.HasPrefix(c.Key, "paths.relief"), c.Key)
	}
	strong := sample.Plain(func(l *launcher.Launcher) { l.Switch = nil })
	assert.Nil(t, pressureDial(strong))
	first, _ = layouts(strong)
	assert.NotContains(t, first, weakly)
}

// A tank behind the firing valve gets a dose first; a small vessel is one already.
func TestATankGetsADose(t *testing.T) {
	first, then := layouts(sample.Plain())
	assert.Equal(t, [][]layout{{withDose}, {asBuilt}}, [][]layout{first, then})
	first, then = layouts(sample.Plain(func(l *launcher.Launcher) {
		l.Volumes[0].Volume = launcher.Exact("volumes.tank.volume", 0.3e-3)
	}))
	assert.Equal(t, [][]layout{{asBuilt, withDose}, nil}, [][]layout{first, then})
}

// The vessel that the firing valve opens is the air of one shot, also where the supply feeds it directly: it is turned, unless it is a
// tank, which stays and gets a dose. A pump that limits itself has none behind it.
func TestAVesselThatIsFedDirectlyIsTurned(t *testing.T) {
	of := func(litres float64, edit ...func(*launcher.Launcher)) *dial {
		return volumeDial(sample.Plain(append(edit, func(l *launcher.Launcher) {
			l.Volumes[0].Volume = launcher.Exact("volumes.tank.volume", litres*1e-3)
		})...))
	}
	weak := func(l *launcher.Launcher) {
		l.Switch, l.Supply.DeadHead = nil, sample.Between("supply.dead_head", 0.2e5, 0.24e5)
	}
	require.NotNil(t, of(0.2))
	assert.Equal(t, []string{"volumes.tank.volume"}, of(0.2).keys)
	assert.Nil(t, of(2), "a tank")
	assert.NotNil(t, of(2, weak))
}

// A gauge that is bought before the pressure is turned down has that pressure on its scale: the reader refuses another.
func TestABoughtGaugeHoldsThePressure(t *testing.T) {
	l := sample.Plain(sample.CutOut(3e5), func(l *launcher.Launcher) {
		l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("gauge.range", 10e5), Class: 4}}
	})
	b := newDraft(blank{l}, nil)
	b.gauge()
	found := false
	for _, c := range b.list {
		if c.Key == "gauge.range" {
			found = true
			assert.GreaterOrEqual(t, c.To.Number.Value, 3e5)
		}
	}
	assert.True(t, found)
}

// High pressures cost: what a guard holds back grows with them.
func TestPressureCostsFromHalfABarOn(t *testing.T) {
	d := pressureDial(sample.Plain())
	assert.InDelta(t, 0.15, d.costs(1e5, 1e5)-d.costs(0.5e5, 0.5e5), 1e-12, "a doubling")
	assert.Zero(t, d.costs(0.4e5, 0.4e5))
}

// What screening hears of one shot is no more than the report of the same launcher gives as the upper end over all of them, and not
// far below: the report looks at other start pressures, from half of which a burst is 6 dB quieter.
func TestScreeningHearsWhatIsReported(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Event = &launcher.EventSpec{EarToMuzzle: launcher.Exact("event.ear_to_muzzle", 1)}
	})
	high, ok := l.SoakedHigh()
	require.True(t, ok)
	b := worst.NewBox(l, worst.EnergyQuestion(l, high))
	e := b.Evaluator()
	r := e.Run(b.Carry(nil, nil, 1))
	require.Equal(t, pneumatics.Left, r.Outcome)
	heard := sound.Burst(l, &e.Circuit, r)
	report, err := sound.Compute(sample.Weakly(), sound.Input{Launcher: l, High: high})
	require.NoError(t, err)
	for _, s := range report.Sources {
		if s.ID == "burst" {
			assert.LessOrEqual(t, heard, s.Upper+0.1, "the steps of its pulse are coarser")
			assert.Greater(t, heard, s.Upper-6)
		}
	}
	l.Event.EarToMuzzle = launcher.Exact("event.ear_to_muzzle", 2)
	assert.InDelta(t, heard-6.02, sound.Burst(l, &e.Circuit, r), 0.01, "20 log10 of twice the distance")
}

// Where a pump comes to rest against its bleed far below its dead head, one that delivers more is looked for: then it rests nearer to
// it. By the balance of flows (launcher.Resting) twenty litres a minute rest at nine tenths of the dead head at least, where three rest
// at less than that. Without a bleed, or with a switch, nothing is gained by it.
func TestAPumpThatDeliversMore(t *testing.T) {
	l := sample.Rocket()
	l.Supply.FreeAir.Key = "supply.free_air"
	d := pumpDial(l)
	require.NotNil(t, d)
	assert.Equal(t, []string{"supply.free_air"}, d.keys)
	assert.InEpsilon(t, 3*sample.LitreMinute, d.low, 1e-12)
	share := func() float64 { return l.Working().Nominal / l.Supply.DeadHead.Nominal }
	assert.Less(t, share(), 0.9)
	d.turn(bandsOf(l), d.high)
	assert.InEpsilon(t, 20*sample.LitreMinute, l.Supply.FreeAir.Nominal, 1e-12)
	assert.Greater(t, share(), 0.9)
	shut := sample.Rocket()
	shut.Paths = shut.Paths[:1]
	assert.Nil(t, pumpDial(shut))
	assert.Nil(t, pumpDial(sample.Plain()))
}
