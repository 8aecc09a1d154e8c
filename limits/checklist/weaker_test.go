package checklist

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/measure"
	"puffproof/limits/vent"
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

// Each step of shots of a whole checklist is asked at its pressure of the plan, and one file of shots answers the three at theirs.
func TestEachStepOfShotsHasItsPressureOfThePlan(t *testing.T) {
	l := sample.Whale()
	gauges := measure.PlanGauges(l)
	require.Len(t, gauges, 3)
	of := func(measured *measure.Report) *assessment.Assessment {
		limits, err := l.EnergyLimits("")
		require.NoError(t, err)
		return &assessment.Assessment{Launcher: l, Stated: l, Limits: limits, Measured: measured, Emptying: new(vent.Report),
			Faults: new(fault.Report), Loading: vent.LoadingOf(l, 5000)}
	}
	steps := []string{finding.ItemShotsWeak, finding.ItemShotsMiddle, finding.ItemShots}
	items := Answered(of(nil))
	for n, id := range steps {
		i := finding.IndexOfItem(items, id)
		require.GreaterOrEqual(t, i, 0, id)
		assert.Equal(t, ShotPressure(gauges[n]), items[i].Asks, id)
		assert.Nil(t, items[i].Done, id)
	}
	bound, shot := 0.1, &measure.Report{Log: "s.csv"}
	shot.Bound = &bound
	for _, gauge := range gauges {
		shot.Groups = append(shot.Groups, measure.SpeedGroup{Gauge: gauge, Shots: 5, Fastest: 4})
	}
	shot.Group = &shot.Groups[len(gauges)-1]
	items = Answered(of(shot))
	for _, id := range steps {
		assert.NotNil(t, items[finding.IndexOfItem(items, id)].Done, id)
	}
}
