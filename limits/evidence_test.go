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

func fineReport() *Report {
	return &Report{Holds: true, Confirmed: true, Verdicts: []Verdict{{ID: "energy.total", Status: Pass}}, Items: fineItems()}
}

// A test that went wrong decides, whatever the model and the checklist say; one
// that shows too little is not a pass either.
func TestLogsDecide(t *testing.T) {
	for status, want := range map[LogStatus]Status{LogAgrees: Pass, LogSlower: Fail, LogReturns: Fail, LogStays: Fail, LogSettlesOff: Fail,
		LogFaster:     Fail,
		LogGaugeBlind: Fail, LogNotInTime: Fail, LogTooFew: Unknown, LogStopsEarly: Unknown, LogStartsLate: Unknown, LogInconsistent: Unknown} {
		v, there := ventMeasured(&Assessment{Logs: Logs{Vent: &LogAnswer{Name: "log.csv", Status: status, Says: "it says."}}})
		assert.True(t, there)
		assert.Equal(t, want, v.Status, status)
		assert.Equal(t, string(status)+": it says", v.Why)
		assert.Equal(t, want != Pass, v.Advice != "", status)
		r := fineReport()
		r.TakeLogs(&Launcher{}, &LogAnswer{Status: status, Says: "it says."}, nil)
		assert.Equal(t, want == Pass, r.Holds, status)
		assert.Equal(t, want == Pass, r.Confirmed, status)
		if want == Pass {
			assert.Zero(t, r.OpenItems)
			continue
		}
		assert.Equal(t, MeasuredEmptying, r.Verdicts[0].ID, status)
		assert.Equal(t, want, r.Verdicts[0].Status, status)
		assert.Nil(t, r.Items[0].Done, "the test was not passed")
		assert.Equal(t, 1, r.OpenItems)
	}
	for status, want := range map[LeakStatus]Status{LeakTight: Pass, LeakLeaks: Fail, LeakCannotTell: Unknown, LeakInconsistent: Unknown} {
		r := fineReport()
		r.TakeLogs(&Launcher{}, nil, &LeakAnswer{Status: status, Says: "it says."})
		assert.Equal(t, want == Pass, r.Holds, status)
		assert.Equal(t, want == Pass, r.Items[1].Done != nil, status)
	}
	r := fineReport()
	r.TakeLogs(&Launcher{}, &LogAnswer{Status: LogTooFew}, &LeakAnswer{Status: LeakLeaks})
	assert.Equal(t, []string{MeasuredLeak, MeasuredEmptying, "energy.total"}, []string{r.Verdicts[0].ID, r.Verdicts[1].ID, r.Verdicts[2].ID},
		"what fails goes first")
}

// A good log answers what it shows and no more: one run of one of several gauges
// is not the test that the checklist asks for.
func TestGoodLogsAnswerTheirItem(t *testing.T) {
	one, two := []VolumeSpec{{Name: "tank"}}, []VolumeSpec{{Name: "tank"}, {Name: "dose"}}
	for name, c := range map[string]struct {
		volumes []VolumeSpec
		runs    int
		want    bool
	}{"two runs, one vessel": {one, 2, true}, "one run": {one, 1, false}, "two vessels": {two, 2, false}} {
		r := &Report{Holds: true, Items: []Item{{ID: ItemVentTest}}}
		r.TakeLogs(&Launcher{Volumes: c.volumes}, &LogAnswer{Name: "log.csv", Status: LogAgrees, Runs: c.runs}, nil)
		assert.Equal(t, c.want, r.Items[0].Done != nil, name)
		assert.Equal(t, !c.want, r.OpenItems == 1, name)
	}
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
