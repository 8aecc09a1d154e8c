package verdict

import (
	"math"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Barriers are counted by hand: shut valves on the weakest way, and one more for a vent
// between where at least one valve is shut.
func TestBarriersAreCountedByHand(t *testing.T) {
	loading := pneumatics.SetOf(pneumatics.Loading)
	open := func(names ...string) func(l *launcher.Launcher) {
		return func(l *launcher.Launcher) {
			for _, n := range names {
				sample.PathNamed(l, n).OpenIn |= loading
			}
		}
	}
	for _, c := range []struct {
		name        string
		change      func(l *launcher.Launcher)
		tank, dose  bool // are empty
		value       float64
		want        finding.Status
		says, never string
	}{
		{"all full", func(*launcher.Launcher) {}, false, false, 1, finding.Fail, "from dose to the barrel: 1 shut; it holds up to 0.80 bar while loading", "vent"},
		{"dose vented", func(*launcher.Launcher) {}, false, true, 3, finding.Pass, "from tank to the barrel: 2 shut and a vent between", "holds up"},
		{"tank vented, dose full", func(*launcher.Launcher) {}, true, false, 1, finding.Fail, "from dose to the barrel: 1 shut; it holds", ""},
		{"all vented", func(*launcher.Launcher) {}, true, true, 2, finding.Pass, "no volume holds air", ""},
		{"all vented, firing valve open", open("fire"), true, true, 1, finding.Fail, "no shut valve stands between", ""},
		{"feed open, dose vented", open("feed"), false, true, 2, finding.Pass, "1 shut and a vent between", ""},
		{"both open: a vent alone is no barrier", open("feed", "fire"), false, true, 0, finding.Fail, "0 shut and a vent between", ""},
		{"firing valve open, dose vented", open("fire"), false, true, 2, finding.Pass, "1 shut and a vent between", ""},
		{"a check valve against its direction", func(l *launcher.Launcher) {
			sample.PathNamed(l, "feed").Kind, sample.PathNamed(l, "feed").From, sample.PathNamed(l, "feed").To = pneumatics.Check, "dose", "tank"
		}, false, true, 3, finding.Pass, "2 shut and a vent", ""},
		{"a check valve in its direction", func(l *launcher.Launcher) { sample.PathNamed(l, "feed").Kind = pneumatics.Check }, false, true, 2, finding.Pass,
			"1 shut and a vent", ""},
		{"a relief valve is shut", func(l *launcher.Launcher) { sample.PathNamed(l, "feed").Kind = pneumatics.Relief }, false, true, 3, finding.Pass, "2 shut and a vent",
			""},
		{"the supply runs into what is empty", func(l *launcher.Launcher) { l.Supply.Feeds, l.Supply.RunsIn = "dose", loading }, true, true, 2, finding.Pass,
			"from dose to the barrel: 1 shut and a vent between", ""},
	} {
		l := tankAndDose()
		c.change(l)
		air := &vent.Loading{Known: true, Rest: []float64{1e5, 0.8e5}, Empty: []bool{c.tank, c.dose}}
		v := loadingEmpty(&assessment.Assessment{Launcher: l, Loading: air})
		assert.Equal(t, c.want, v.Status, "%s: %s", c.name, v.Why.String())
		assertFigure(t, c.value, v.Value, c.name)
		assert.Contains(t, v.Why.String(), c.says, c.name)
		if c.never != "" {
			assert.NotContains(t, v.Why.String(), c.never, c.name)
		}
		assert.Equal(t, c.want == finding.Fail, len(v.Advice) != 0, c.name)
	}
}

// The wait is said as it was computed, rounded up.
func TestTheWaitIsSaid(t *testing.T) {
	why := func(air vent.Loading) string {
		air.Rest, air.Empty = []float64{0}, []bool{true}
		return loadingEmpty(&assessment.Assessment{Launcher: sample.VentedTank(), Loading: &air}).Why.String()
	}
	assert.NotContains(t, why(vent.Loading{}), "wait")
	assert.Contains(t, why(vent.Loading{Names: []string{"tank", "dose"}, Wait: 12.01}), "wait 13.0 s after the last charge: tank, dose "+
		"empties that long")
	assert.Contains(t, why(vent.Loading{Names: []string{"tank"}, Wait: math.Inf(1)}), "tank does not get to the target")
}
