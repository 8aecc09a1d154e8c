package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
)

// whole is an assessment made by hand in which all verdicts that need no figure are
// given, with the logs of tests.
func whole(t *testing.T, logs assessment.Logs) Report {
	t.Helper()
	a := assessed.WithFaults(sample.Plain())
	a.Emptying, a.Loading, a.Logs = &vent.Report{Target: 5000, Trouble: finding.Words("not asked")}, &vent.Loading{Rest: []float64{0},
		Empty: []bool{true}}, logs
	a.Energy.Basis = finding.OnModel
	return ReportOf(a)
}

// A test that went wrong decides, whatever the model and the checklist say; one
// that shows too little is not a pass either. What fails goes first, what is good last.
func TestLogsDecide(t *testing.T) {
	without := whole(t, assessment.Logs{})
	for status, want := range map[stopwatch.Status]finding.Status{
		stopwatch.Agrees: finding.Pass, stopwatch.Slower: finding.Fail, stopwatch.Returns: finding.Fail, stopwatch.Stays: finding.Fail,
		stopwatch.SettlesOff: finding.Fail, stopwatch.Faster: finding.Fail, stopwatch.GaugeBlind: finding.Fail, stopwatch.NotInTime: finding.Fail,
		stopwatch.TooFew: finding.Unknown, stopwatch.StopsEarly: finding.Unknown, stopwatch.StartsLate: finding.Unknown,
		stopwatch.Inconsistent: finding.Unknown,
	} {
		r := whole(t, assessment.Logs{Vent: &stopwatch.Answer{Name: "log.csv", Status: status, Says: finding.Words("it says."), Runs: 2}})
		v := assessed.Verdict(t, r.Verdicts, finding.MeasuredEmptying)
		assert.Equal(t, want, v.Status, status)
		assert.Equal(t, string(status)+": it says", v.Why.String())
		assert.Equal(t, want != finding.Pass, len(v.Advice) != 0, status)
		place := 0
		if want == finding.Pass {
			place = len(r.Verdicts) - 1
		}
		assert.Equal(t, finding.MeasuredEmptying, r.Verdicts[place].ID, status)
		assert.Equal(t, want == finding.Pass, assessed.Item(t, r.Items, finding.ItemVentTest).Done != nil, status)
		closed := 0
		if want == finding.Pass {
			closed = 1
		}
		assert.Equal(t, without.OpenItems-closed, r.OpenItems, status)
	}
	for status, want := range map[vent.LeakStatus]finding.Status{vent.LeakTight: finding.Pass, vent.LeakLeaks: finding.Fail,
		vent.LeakCannotTell: finding.Unknown, vent.LeakInconsistent: finding.Unknown} {
		r := whole(t, assessment.Logs{Leak: &vent.LeakAnswer{Name: "leak.csv", Status: status, Says: finding.Words("it says.")}})
		assert.Equal(t, want, assessed.Verdict(t, r.Verdicts, finding.MeasuredLeak).Status, status)
		assert.Equal(t, want == finding.Pass, assessed.Item(t, r.Items, finding.ItemLeakDown).Done != nil, status)
	}
	r := whole(t, assessment.Logs{Vent: &stopwatch.Answer{Status: stopwatch.TooFew}, Leak: &vent.LeakAnswer{Status: vent.LeakLeaks}})
	assert.Equal(t, []string{finding.MeasuredLeak, finding.MeasuredEmptying}, []string{r.Verdicts[0].ID, r.Verdicts[1].ID},
		"what fails goes first")
}

// The five answers come in their order, conditions are counted, and only failures and
// unknowns keep a design from holding.
func TestReportConcludes(t *testing.T) {
	of := func(statuses ...finding.Status) Report {
		var r Report
		for _, st := range statuses {
			r.Verdicts = append(r.Verdicts, finding.Verdict{ID: string(st), Status: st})
		}
		r.conclude(true)
		return r
	}
	r := of(finding.NotApplicable, finding.Pass, finding.Conditional, finding.Unknown, finding.Conditional, finding.Fail)
	var got []finding.Status
	for _, v := range r.Verdicts {
		got = append(got, v.Status)
	}
	assert.Equal(t, []finding.Status{finding.Fail, finding.Unknown, finding.Conditional, finding.Conditional, finding.Pass,
		finding.NotApplicable}, got)
	assert.Equal(t, 2, r.Conditions)
	assert.False(t, r.Holds)
	assert.False(t, of(finding.Pass, finding.Unknown).Holds)
	assert.False(t, of(finding.Pass, finding.Fail).Holds)
	r = of(finding.Pass, finding.Conditional, finding.NotApplicable)
	assert.True(t, r.Holds)
	assert.True(t, r.Confirmed)
	open := Report{Verdicts: r.Verdicts, Items: []finding.Item{{ID: "a"}, {ID: "b", Done: &finding.Confirmation{}}}}
	open.conclude(true)
	assert.Equal(t, 1, open.OpenItems)
	assert.False(t, open.Confirmed)
	unmeasured := Report{Verdicts: r.Verdicts}
	unmeasured.conclude(false)
	assert.False(t, unmeasured.Confirmed)

	// One answer behind which nothing but words stands takes the confirmation away; a record, or a file of readings, bears it out.
	for c, confirmed := range map[*finding.Confirmation]bool{{Item: "a"}: false, {Item: "a", Recorded: true}: true,
		{Item: "a", Shows: finding.Words("tight")}: true} {
		closed := Report{Verdicts: r.Verdicts, Items: []finding.Item{{ID: "a", Done: c}}}
		closed.weighProof(sample.VentedTank())
		closed.conclude(true)
		assert.Equal(t, confirmed, closed.Confirmed, "%+v", c)
		assert.Zero(t, closed.OpenItems)
	}
}
