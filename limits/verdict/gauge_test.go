package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// gauge.range: a supply of 1 bar that nothing stops: at a fault and in normal use 1 bar. The end of the scale is at 1 bar
// or above, and three quarters of it (EN 837-2, from memory): the latter is the nearer one, 4/3 bar.
func TestTheGaugesRange(t *testing.T) {
	of := func(top float64, changes ...func(*launcher.Launcher)) finding.Verdict {
		return asked(t, sample.Plain(append([]func(*launcher.Launcher){func(l *launcher.Launcher) {
			l.Switch, l.Supply.DeadHead = nil, launcher.Exact("", 1*sample.Bars)
			l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("", top)}}
		}}, changes...)...), finding.GaugeRange)
	}
	v := of(1 * sample.Bars / 0.75)
	assert.Equal(t, finding.Pass, v.Status)
	assertFigure(t, 1*sample.Bars, v.Value, "the steady pressure")
	assert.Equal(t, finding.Fail, of(1.33*sample.Bars).Status)

	fault := func(l *launcher.Launcher) { // a switch at 0.4 bar, welded: 1 bar
		l.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: launcher.Exact("", 0.4*sample.Bars), CutIn: launcher.Exact("", 0.3*sample.Bars),
			Adjustable: launcher.No}
	}
	assert.Equal(t, finding.Pass, of(1*sample.Bars, fault).Status, "its scale just holds the fault")
	v = of(0.99*sample.Bars, fault)
	assert.Equal(t, finding.Fail, v.Status)
	assert.Contains(t, v.Why.String(), "at a single fault")
	for _, steady := range []bool{false, true} { // of a scale that is known within a band the lower end counts
		v = of(0, func(l *launcher.Launcher) {
			if !steady {
				fault(l)
			}
			l.Gauges[0].Range = sample.Between("", 0.99*sample.Bars, 3*sample.Bars)
		})
		assert.Equal(t, finding.Fail, v.Status)
	}

	assert.Equal(t, finding.NotApplicable, of(1, func(l *launcher.Launcher) { l.Gauges = nil }).Status)
	assert.Equal(t, finding.Unknown, of(1, func(l *launcher.Launcher) { l.Gauges[0].Range = launcher.Band{} }).Status)
	assert.Equal(t, finding.Unknown, of(1e6, func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} }).Status)
}

// Below the pressures at which the standards on relief valves begin, 15 psi and 0.1 bar, their figures are marks.
func TestBelowTheScopeOfTheReliefStandards(t *testing.T) {
	at := func(set float64) string {
		return belowScope(sample.Plain(sample.WithRelief(launcher.Exact("", set), launcher.Exact("", 2*set), 5e-3, 0.6))).String()
	}
	assert.Contains(t, at(0.09*sample.Bars), "ISO 4126-1 at 0.10 bar")
	assert.NotContains(t, at(0.1*sample.Bars), "ISO 4126")
	assert.Contains(t, at(103400), "marks, not rules", "15 psi are 103421 Pa")
	assert.Empty(t, at(103500))
	assert.Empty(t, belowScope(sample.Plain()))
}
