package setpoint

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// The test with the switch bridged names what the design's relief valve is expected
// to do: set from 0.55 bar, full flow up to 0.75 bar; not the 1.1 bar that would hold.
func TestBridgedStepNamesTheValveOfTheDesign(t *testing.T) {
	s := solverFor(sample.Plain(sample.Orderly))
	last := s.out.Procedure[len(s.out.Procedure)-1].String()
	assert.Contains(t, last, "between 0.550 bar and 0.750 bar")
	s.l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("gauge.range", 0.7*sample.Bars), Class: 1}}
	s.chain.launcher.Gauges = s.l.Gauges
	assert.Contains(t, s.bridgedStep(0).String(), "ends at 0.70 bar")
}

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
	good := finding.Confirmation{Item: finding.ItemSwitchTest, Who: "A", Date: day, Value: "0.40 bar", Figures: reading(0.40 * sample.Bars)}
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
		"too high":        {func(c *finding.Confirmation) { c.Figures = reading(0.5 * sample.Bars) }, false},
		"another item's":  {func(c *finding.Confirmation) { c.Item = finding.ItemReliefTest }, false},
	} {
		answer := good
		c.change(&answer)
		s := &solver{l: sample.Plain(sample.Orderly, up, func(l *launcher.Launcher) { l.Checklist = []finding.Confirmation{answer} }), o: Options{Day: day}}
		s.out.Works = true
		s.out.Source.Turned = []Turned{{What: finding.Words(turnedSwitch), Pressure: 3 * sample.Bars}}
		s.endOfRange()
		assert.Equal(t, c.closes, len(s.out.Unmet) == 0, name)
	}
}
