package verdict

import (
	"fmt"
	"strings"
	"time"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
)

// datesPast judges the dates that the design itself states: of parts to retire and
// of confirmed items. Its value is how many are past on the day of the question; the
// day itself still counts. The yearly inspection of a paper is judged by whoever reads
// the paper.
func datesPast(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = fmt.Sprintf("dates stated in the design; a confirmed item holds %d months: own rule of this project (common practice, no "+
		"source)", finding.ItemValidMonths)
	v.Basis = finding.OnData
	if _, err := time.Parse(time.DateOnly, a.Day); err != nil {
		v.Unknown(finding.Words("missing: the day of the question"))
		return
	}
	var past []string
	next := ""
	dates := a.Stated.DueDates("")
	for _, d := range dates {
		switch {
		case d.Date < a.Day:
			past = append(past, d.What+", "+d.Date)
		case next == "":
			next = d.Date
		}
	}
	ahead := madeAhead(a)
	v.Judge(float64(len(past)+len(ahead)), 0)
	v.Why = finding.Say("%d dates are stated, the next is %s", len(dates), next)
	if len(past) > 0 {
		v.Why = finding.Say("past on %s: %s", a.Day, strings.Join(past, "; "))
		v.Advice = finding.Words("Replace the part, or do the test again and write its new date into the design.")
	}
	if len(ahead) > 0 {
		v.Why = finding.Say("made after %s, as the design has it: %s", a.Day, strings.Join(ahead, "; "))
		if v.Advice = finding.Words("State the date that is printed on the part."); len(past) > 0 {
			v.Why = v.Why.Say("; past: %s", strings.Join(past, "; "))
			v.Advice = v.Advice.Say(" Replace what is past its date, or do the test again and write its new date into the design.")
		}
	}
}

// madeAhead are the dates of manufacture that are still to come on the day of the question: whoever wrote them has not read them off.
// Without a day none is.
func madeAhead(a *assessment.Assessment) (out []string) {
	if _, err := time.Parse(time.DateOnly, a.Day); err != nil {
		return nil
	}
	for _, d := range a.Stated.DatesAfter(a.Day) {
		if strings.HasSuffix(d.Key, ".made_on") {
			out = append(out, d.Key+", "+d.Date)
		}
	}
	return out
}

// anyDate tells whether there are dates to judge.
func anyDate(a *assessment.Assessment) bool {
	return len(a.Stated.DueDates("")) > 0 || len(madeAhead(a)) > 0
}
