package checklist

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
)

// A bad log opens its item again, a good one leaves a person's answer alone; an item
// of another test stays as it is.
func TestLogsAnswerTheirItemsOnly(t *testing.T) {
	a := &assessment.Assessment{Launcher: &launcher.Launcher{Volumes: []launcher.VolumeSpec{{Name: "tank"}}},
		Logs: assessment.Logs{Leak: &vent.LeakAnswer{Status: vent.LeakLeaks, Says: finding.Words("leaks: a lot.")}}}
	items := fineItems()
	answeredByLogs(items, a)
	assert.NotNil(t, items[0].Done)
	assert.Nil(t, items[1].Done)
	assert.Equal(t, " Not done: the leak-down that was read: leaks: a lot.", items[1].Why.String())

	a.Logs = assessment.Logs{Leak: &vent.LeakAnswer{Name: "sealed.csv", Status: vent.LeakTight},
		Vent: &stopwatch.Answer{Name: "log.csv", Status: stopwatch.Agrees, Runs: 2, Says: finding.Say("empty after %s", finding.Second(9))}}
	items = fineItems()
	answeredByLogs(items, a)
	assert.Equal(t, fineItems(), items)
	items = []finding.Item{{ID: finding.ItemVentTest}, {ID: finding.ItemLeakDown}, {ID: finding.ItemOpenTag}}
	answeredByLogs(items, a)
	assert.Equal(t, "log.csv", items[0].Done.Who)
	assert.Equal(t, "empty after 9.0 s", items[0].Done.Says().String())
	assert.Equal(t, "sealed.csv", items[1].Done.Who)
	assert.Nil(t, items[2].Done)
}

// A good log answers what it shows and no more: one run of one of several gauges
// is not the test that the checklist asks for, and a bad one closes nothing.
func TestGoodLogsAnswerTheirItem(t *testing.T) {
	one, two := []launcher.VolumeSpec{{Name: "tank"}}, []launcher.VolumeSpec{{Name: "tank"}, {Name: "dose"}}
	for name, c := range map[string]struct {
		volumes []launcher.VolumeSpec
		runs    int
		status  stopwatch.Status
		want    bool
	}{"two runs, one vessel": {one, 2, stopwatch.Agrees, true}, "one run": {one, 1, stopwatch.Agrees, false}, "two vessels": {two, 2,
		stopwatch.Agrees, false},
		"slower": {one, 2, stopwatch.Slower, false}} {
		items := []finding.Item{{ID: finding.ItemVentTest}}
		answeredByLogs(items, &assessment.Assessment{Launcher: &launcher.Launcher{Volumes: c.volumes},
			Logs: assessment.Logs{Vent: &stopwatch.Answer{Name: "log.csv", Status: c.status, Runs: c.runs}}})
		assert.Equal(t, c.want, items[0].Done != nil, name)
	}
}

// fineItems are the items that logs answer, both done by a person.
func fineItems() []finding.Item {
	return []finding.Item{{ID: finding.ItemVentTest, Done: &finding.Confirmation{Who: "two", Date: "2026-05-01"}},
		{ID: finding.ItemLeakDown, Done: &finding.Confirmation{Who: "two", Date: "2026-05-01"}}}
}
