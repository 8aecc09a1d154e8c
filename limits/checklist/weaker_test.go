package checklist

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/measure"
)

// A file of measured shots answers each of the weaker steps by a group of its own pressure only: shots at full pressure show nothing of
// what came before them.
func TestAFileOfShotsAnswersWhatItHas(t *testing.T) {
	l := sample.Whale()
	gauges := measure.PlanGauges(l)
	require.Len(t, gauges, 3)
	group := func(gauge float64, shots int) measure.SpeedGroup {
		return measure.SpeedGroup{Gauge: gauge, Shots: shots, Fastest: 4}
	}
	for name, c := range map[string]struct {
		groups       []measure.SpeedGroup
		weak, middle bool
	}{
		"strong ones alone": {[]measure.SpeedGroup{group(gauges[2], 10)}, false, false},
		"all three":         {[]measure.SpeedGroup{group(gauges[0], 5), group(gauges[1], 5), group(gauges[2], 5)}, true, true},
		"no middle":         {[]measure.SpeedGroup{group(gauges[0], 5), group(gauges[2], 5)}, true, false},
		"too few weak ones": {[]measure.SpeedGroup{group(gauges[0], 4), group(gauges[1], 5), group(gauges[2], 5)}, false, true},
	} {
		items := []finding.Item{{ID: finding.ItemShots, Done: &finding.Confirmation{Who: "s.csv", Shows: finding.Words("five")}},
			{ID: finding.ItemShotsWeak}, {ID: finding.ItemShotsMiddle}}
		weakerByShots(items, &assessment.Assessment{Launcher: l, Measured: &measure.Report{Groups: c.groups}}, measure.PlanGauges(l))
		assert.Equal(t, c.weak, items[1].Done != nil, name)
		assert.Equal(t, c.middle, items[2].Done != nil, name)
		if !c.weak {
			assert.Contains(t, items[1].OpenWhy.String(), "s.csv has no 5 shots at one pressure between", name)
		}
	}
}
