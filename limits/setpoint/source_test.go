package setpoint

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// The dead head lies below the relief valve: it never opens, its window has no upper
// end that means anything, and the rungs are in the order of the pressures.
func TestDeadHeadBelowTheReliefValve(t *testing.T) {
	s := solverFor(sample.Plain(sample.Orderly, func(l *launcher.Launcher) {
		l.Supply.DeadHead = sample.Between("supply.dead_head", 0.45*sample.Bars, 0.5*sample.Bars)
	}))
	for i := 1; i < len(s.out.Ladder); i++ {
		assert.GreaterOrEqual(t, s.out.Ladder[i].Gauge, s.out.Ladder[i-1].Gauge, s.out.Ladder[i].Name)
	}
	if s.out.ReliefSetMax != nil {
		assert.LessOrEqual(t, *s.out.ReliefSetMax, *s.out.ReliefFullFlowMax)
	}
}

// A switch that can be turned up to where nothing holds is said first, until the
// item that seals it is confirmed as check takes it: by the day of the question, signed,
// with a reading within the switch's band, 0.38 to 0.42 bar here.
func TestEndOfRange(t *testing.T) {
	const day = "2026-11-28"
	up := func(l *launcher.Launcher) {
		l.Switch.AdjustableTo = launcher.Exact("pressure_switch.adjustable_to", 3*sample.Bars)
	}
	assert.Contains(t, solverFor(sample.Plain(sample.Orderly, up)).out.Unmet.String(), "seal")
	reading := func(p float64) []finding.Figure { return []finding.Figure{{Value: p, Unit: finding.InPascalGauge}} }
	good := finding.Confirmation{Item: finding.ItemSwitchTest, Who: "A", Date: day, Value: "ten cycles, 0.40 to 0.40 bar",
		Figures: slices.Repeat(reading(0.40*sample.Bars), 2)}
	for name, c := range map[string]struct {
		change func(*finding.Confirmation)
		closes bool
	}{
		"on the day":      {func(*finding.Confirmation) {}, true},
		"before":          {func(c *finding.Confirmation) { c.Date = "2026-11-01" }, true},
		"the day after":   {func(c *finding.Confirmation) { c.Date = "2026-11-29" }, false},
		"in 2099":         {func(c *finding.Confirmation) { c.Date = "2099-01-01" }, false},
		"nobody's":        {func(c *finding.Confirmation) { c.Who = "" }, false},
		"without reading": {func(c *finding.Confirmation) { c.Figures = nil }, false},
		"too high":        {func(c *finding.Confirmation) { c.Figures = slices.Repeat(reading(0.5*sample.Bars), 2) }, false},
		"three cycles":    {func(c *finding.Confirmation) { c.Value = "three cycles, 0.40 bar" }, false},
		"another item's":  {func(c *finding.Confirmation) { c.Item = finding.ItemReliefTest }, false},
	} {
		answer := good
		c.change(&answer)
		s := &solver{l: sample.Plain(sample.Orderly, up, func(l *launcher.Launcher) { l.Checklist = []finding.Confirmation{answer} }),
			o: Options{Day: day}}
		s.out.Works = true
		s.out.Source.Turned = []Turned{{What: finding.Words(turnedSwitch), Pressure: 3 * sample.Bars}}
		s.endOfRange()
		assert.Equal(t, c.closes, len(s.out.Unmet) == 0, name)
	}
}

// heated makes a launcher that is filled at 278.15 K and left at 318.15 K.
func heated(l *launcher.Launcher) {
	l.Ambient.Temperature, l.Ambient.Hottest = launcher.Exact("t", 278.15), launcher.Exact("h", 318.15)
}

// soaked is the gauge pressure after that, by Gay-Lussac [Pa].
func soaked(p float64) float64 { return (p+101325)*318.15/278.15 - 101325 }

// What the supply can do is judged after the heat: at a limit of 1.1 bar a dead head of
// 0.8 bar is below it even then (1.06 bar), one of 1.0 bar is not (1.29 bar): a switch that welds
// leaves that in the sun, so a relief valve is asked for, and switch and valve not yet chosen, with their
// wide bands, find no room below 1.1 bar.
func TestTheSourceIsLeftInTheHeat(t *testing.T) {
	for dead, limited := range map[float64]bool{0.8 * sample.Bars: true, 1.0 * sample.Bars: false} {
		l := sample.Plain(heated, func(l *launcher.Launcher) {
			l.Switch = nil
			l.Supply.DeadHead = launcher.Exact("supply.dead_head", dead)
		})
		require.Equal(t, limited, soaked(dead) <= 1.1*sample.Bars)
		s := solverFor(l)
		assert.Equal(t, limited, s.out.Source.Limited, "%v Pa", dead)
		assert.Equal(t, limited, s.chain.source, "%v Pa", dead)
		assert.Equal(t, limited, s.out.Binding == "source.limited", "%v Pa", dead)
		assert.InDelta(t, dead, s.out.Source.DeadHead, 0)
		assert.Equal(t, !limited, s.chain.relief == reliefAdded, "%v Pa", dead)
		assert.Nil(t, s.out.CutOut, "%v Pa", dead)
	}
}

// The tolerance of the dead head counts: 1.05 ± 0.1 bar may exceed 1.1 bar.
func TestTheSourceAtTheTopOfItsTolerance(t *testing.T) {
	dead := func(low, high float64) *launcher.Launcher {
		return sample.Plain(func(l *launcher.Launcher) {
			l.Supply.DeadHead = sample.Between("supply.dead_head", low*sample.Bars, high*sample.Bars)
		})
	}
	assert.Equal(t, reliefNone, solverFor(dead(0.95, 1.09)).chain.relief)
	assert.Equal(t, reliefAdded, solverFor(dead(0.95, 1.15)).chain.relief)
}

// A regulator set low is no source that cannot exceed a limit: failed open, what stands before it can.
func TestARegulatedSourceCountsWithItsRegulatorOpen(t *testing.T) {
	s := solverFor(sample.Plain(func(l *launcher.Launcher) {
		l.Switch, l.Supply.Kind = nil, launcher.ShopAir
		l.Supply.DeadHead, l.Supply.SourcePressure = launcher.Exact("", 0.5*sample.Bars), launcher.Exact("", 8*sample.Bars)
	}))
	assert.False(t, s.out.Source.Limited)
	assert.Equal(t, 8*sample.Bars, s.out.Source.DeadHead)
	require.Len(t, s.out.Source.Turned, 1)
	assert.Contains(t, s.out.Source.Turned[0].What.String(), "failed open")
	assert.False(t, s.out.Source.Turned[0].Holds)
}

// Where things that are turned up end, by hand: a pump half as strong again and the end of
// the switch's range, with the gauge's error, left in the heat; the top of the pressures
// looked at. Air sealed lower by the heat just reaches a limit. 1e-9: bisection.
func TestWhereTurnedUpPressuresEnd(t *testing.T) {
	l := sample.Plain(sample.Orderly, heated, func(l *launcher.Launcher) {
		l.Supply.DeadHead = sample.Between("supply.dead_head", 0.4*sample.Bars, 0.5*sample.Bars)
		l.Switch.AdjustableTo = launcher.Exact("pressure_switch.adjustable_to", 3*sample.Bars)
		l.Switch.GaugeError = sample.Between("", -0.1*sample.Bars, 0.1*sample.Bars)
	})
	ends := map[string]float64{}
	for _, one := range solverFor(l).out.Source.Turned {
		ends[one.What.String()] = one.Pressure
	}
	assert.InEpsilon(t, soaked(0.75*sample.Bars), ends["a pump half as strong again swapped in, no working relief valve, left in the "+
		"heat"], 1e-9)
	assert.InEpsilon(t, soaked(3.1*sample.Bars), ends[turnedSwitch], 1e-9)
	top, _ := topPressure(l)
	assert.InEpsilon(t, soaked(0.5*sample.Bars), top, 1e-9)
	assert.InEpsilon(t, 0.5*sample.Bars, unsoak(l, soaked(0.5*sample.Bars)), 1e-9)
}

// A gauge has room for twice the working pressure and for all that a test reaches (EN
// 837-1, preferred ranges, from memory).
func TestRangeOfTheGauge(t *testing.T) {
	for want, c := range map[string][2]float64{"0 to 1 bar": {0.4, 0.5}, "0 to 0.6 bar": {0.3, 0.6}, "0 to 1.6 bar": {0.1, 1.01},
		"more than 16 bar": {8.1, 9}} {
		assert.Equal(t, want, gaugeRange(c[0]*sample.Bars, c[1]*sample.Bars).String())
	}
}
