package limits

import (
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A test that went wrong decides, whatever the model and the checklist say; one
// that shows too little is not a pass either.
func TestLogsDecide(t *testing.T) {
	for status, want := range map[vent.LogStatus]finding.Status{vent.LogAgrees: finding.Pass, vent.LogSlower: finding.Fail, vent.LogReturns: finding.Fail, vent.LogStays: finding.Fail, vent.LogSettlesOff: finding.Fail,
		vent.LogFaster:     finding.Fail,
		vent.LogGaugeBlind: finding.Fail, vent.LogNotInTime: finding.Fail, vent.LogTooFew: finding.Unknown, vent.LogStopsEarly: finding.Unknown, vent.LogStartsLate: finding.Unknown, vent.LogInconsistent: finding.Unknown} {
		v, there := verdict.VentMeasured(&assessment.Assessment{Logs: assessment.Logs{Vent: &vent.LogAnswer{Name: "log.csv", Status: status, Says: finding.Words("it says.")}}})
		assert.True(t, there)
		assert.Equal(t, want, v.Status, status)
		assert.Equal(t, string(status)+": it says", v.Why.String())
		assert.Equal(t, want != finding.Pass, len(v.Advice) != 0, status)
		r := fineReport()
		r.TakeLogs(&launcher.Launcher{}, &vent.LogAnswer{Status: status, Says: finding.Words("it says.")}, nil)
		assert.Equal(t, want == finding.Pass, r.Holds, status)
		assert.Equal(t, want == finding.Pass, r.Confirmed, status)
		if want == finding.Pass {
			assert.Zero(t, r.OpenItems)
			continue
		}
		assert.Equal(t, finding.MeasuredEmptying, r.Verdicts[0].ID, status)
		assert.Equal(t, want, r.Verdicts[0].Status, status)
		assert.Nil(t, r.Items[0].Done, "the test was not passed")
		assert.Equal(t, 1, r.OpenItems)
	}
	for status, want := range map[vent.LeakStatus]finding.Status{vent.LeakTight: finding.Pass, vent.LeakLeaks: finding.Fail, vent.LeakCannotTell: finding.Unknown, vent.LeakInconsistent: finding.Unknown} {
		r := fineReport()
		r.TakeLogs(&launcher.Launcher{}, nil, &vent.LeakAnswer{Status: status, Says: finding.Words("it says.")})
		assert.Equal(t, want == finding.Pass, r.Holds, status)
		assert.Equal(t, want == finding.Pass, r.Items[1].Done != nil, status)
	}
	r := fineReport()
	r.TakeLogs(&launcher.Launcher{}, &vent.LogAnswer{Status: vent.LogTooFew}, &vent.LeakAnswer{Status: vent.LeakLeaks})
	assert.Equal(t, []string{finding.MeasuredLeak, finding.MeasuredEmptying, "energy.total"}, []string{r.Verdicts[0].ID, r.Verdicts[1].ID, r.Verdicts[2].ID},
		"what fails goes first")
}

// A good log answers what it shows and no more: one run of one of several gauges
// is not the test that the checklist asks for.
func TestGoodLogsAnswerTheirItem(t *testing.T) {
	one, two := []launcher.VolumeSpec{{Name: "tank"}}, []launcher.VolumeSpec{{Name: "tank"}, {Name: "dose"}}
	for name, c := range map[string]struct {
		volumes []launcher.VolumeSpec
		runs    int
		want    bool
	}{"two runs, one vessel": {one, 2, true}, "one run": {one, 1, false}, "two vessels": {two, 2, false}} {
		r := &Report{Holds: true, Items: []finding.Item{{ID: finding.ItemVentTest}}}
		r.TakeLogs(&launcher.Launcher{Volumes: c.volumes}, &vent.LogAnswer{Name: "log.csv", Status: vent.LogAgrees, Runs: c.runs}, nil)
		assert.Equal(t, c.want, r.Items[0].Done != nil, name)
		assert.Equal(t, !c.want, r.OpenItems == 1, name)
	}
}

func fineReport() *Report {
	return &Report{Holds: true, Confirmed: true, Verdicts: []finding.Verdict{{ID: "energy.total", Status: finding.Pass}}, Items: fineItems()}
}
