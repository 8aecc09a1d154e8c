package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// fineItems are the items that logs answer, both done by a person.
func fineItems() []Item {
	return []Item{{ID: ItemVentTest, Done: &Confirmation{Who: "two", Date: "2026-05-01"}},
		{ID: ItemLeakDown, Done: &Confirmation{Who: "two", Date: "2026-05-01"}}}
}

// A bad log opens its item again, a good one leaves a person's answer alone; an item
// of another test stays as it is. No log, no verdict.
func TestLogsAnswerTheirItemsOnly(t *testing.T) {
	fine := fineItems()
	a := &Assessment{Launcher: &Launcher{Volumes: []VolumeSpec{{Name: "tank"}}},
		Logs: Logs{Leak: &LeakAnswer{Status: LeakLeaks, Says: "leaks: a lot."}}}
	items := answeredByLogs(fine, a)
	assert.NotNil(t, items[0].Done)
	assert.Nil(t, items[1].Done)
	assert.Equal(t, " Not done: the leak-down that was read: leaks: a lot.", items[1].Why)
	assert.NotNil(t, fine[1].Done, "the items given stay as they are")
	_, there := ventMeasured(a)
	assert.False(t, there)
	assert.Equal(t, "leaks: a lot", withLogs(nil, a)[0].Why)

	a.Logs = Logs{Leak: &LeakAnswer{Name: "sealed.csv", Status: LeakTight}, Vent: &LogAnswer{Name: "log.csv", Status: LogAgrees, Runs: 2}}
	assert.Equal(t, fine, answeredByLogs(fine, a))
	by := answeredByLogs([]Item{{ID: ItemVentTest}, {ID: ItemLeakDown}, {ID: ItemOpenTag}}, a)
	assert.Equal(t, "log.csv", by[0].Done.Who)
	assert.Equal(t, "sealed.csv", by[1].Done.Who)
	assert.Nil(t, by[2].Done)
	_, there = leakMeasured(&Assessment{})
	assert.False(t, there)
	others := []Verdict{{ID: "energy.total", Status: Pass}, {ID: "heat.soak", Status: NotApplicable}}
	assert.Equal(t, others, withLogs(others, &Assessment{}))
	assert.Equal(t, []string{"energy.total", "heat.soak", MeasuredEmptying, MeasuredLeak}, idsOf(withLogs(others, a)),
		"what is good goes to the end")
}

func idsOf(verdicts []Verdict) (ids []string) {
	for _, v := range verdicts {
		ids = append(ids, v.ID)
	}
	return ids
}
