package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

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

func fineReport() *Report {
	return &Report{Holds: true, Confirmed: true, Verdicts: []Verdict{{ID: "energy.total", Status: Pass}}, Items: fineItems()}
}
