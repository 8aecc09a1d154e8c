package checklist

import (
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
	"testing"

	"github.com/stretchr/testify/assert"
)

// fineItems are the items that logs answer, both done by a person.
func fineItems() []finding.Item {
	return []finding.Item{{ID: finding.ItemVentTest, Done: &finding.Confirmation{Who: "two", Date: "2026-05-01"}},
		{ID: finding.ItemLeakDown, Done: &finding.Confirmation{Who: "two", Date: "2026-05-01"}}}
}

// A bad log opens its item again, a good one leaves a person's answer alone; an item
// of another test stays as it is. No log, no verdict.
func TestLogsAnswerTheirItemsOnly(t *testing.T) {
	fine := fineItems()
	a := &assessment.Assessment{Launcher: &launcher.Launcher{Volumes: []launcher.VolumeSpec{{Name: "tank"}}},
		Logs: assessment.Logs{Leak: &vent.LeakAnswer{Status: vent.LeakLeaks, Says: finding.Words("leaks: a lot.")}}}
	items := AnsweredByLogs(fine, a)
	assert.NotNil(t, items[0].Done)
	assert.Nil(t, items[1].Done)
	assert.Equal(t, " Not done: the leak-down that was read: leaks: a lot.", items[1].Why.String())
	assert.NotNil(t, fine[1].Done, "the items given stay as they are")
	_, there := verdict.VentMeasured(a)
	assert.False(t, there)
	assert.Equal(t, "leaks: a lot", verdict.WithLogs(nil, a)[0].Why.String())

	a.Logs = assessment.Logs{Leak: &vent.LeakAnswer{Name: "sealed.csv", Status: vent.LeakTight}, Vent: &vent.LogAnswer{Name: "log.csv", Status: vent.LogAgrees, Runs: 2}}
	assert.Equal(t, fine, AnsweredByLogs(fine, a))
	by := AnsweredByLogs([]finding.Item{{ID: finding.ItemVentTest}, {ID: finding.ItemLeakDown}, {ID: finding.ItemOpenTag}}, a)
	assert.Equal(t, "log.csv", by[0].Done.Who)
	assert.Equal(t, "sealed.csv", by[1].Done.Who)
	assert.Nil(t, by[2].Done)
	_, there = verdict.LeakMeasured(&assessment.Assessment{})
	assert.False(t, there)
	others := []finding.Verdict{{ID: "energy.total", Status: finding.Pass}, {ID: "heat.soak", Status: finding.NotApplicable}}
	assert.Equal(t, others, verdict.WithLogs(others, &assessment.Assessment{}))
	assert.Equal(t, []string{"energy.total", "heat.soak", finding.MeasuredEmptying, finding.MeasuredLeak}, idsOf(verdict.WithLogs(others, a)),
		"what is good goes to the end")
}

func idsOf(verdicts []finding.Verdict) (ids []string) {
	for _, v := range verdicts {
		ids = append(ids, v.ID)
	}
	return ids
}
