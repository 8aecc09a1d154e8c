package show

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits"
)

// The first line of every screen and paper says what stands behind the answers of the checklist, whatever the design is worth.
func TestTheFindingSaysWhatIsProved(t *testing.T) {
	for _, c := range []struct {
		report limits.Report
		says   string
	}{
		{limits.Report{Holds: true, Confirmed: true}, "Holds, confirmed by measurement."},
		{limits.Report{Holds: true, Confirmed: true, Said: 1}, "Holds on 1 answer that is said, not recorded. " +
			"NOT confirmed by measurement: not to be used yet."},
		{limits.Report{Holds: true, Said: 39, Conditions: 1}, "Holds on 39 answers that are said, not recorded. " +
			"NOT confirmed by measurement: not to be used yet. It holds on 1 condition that people keep."},
		{limits.Report{Holds: true, OpenItems: 3, Unproved: 2, Said: 4},
			"Holds on the model. NOT yet confirmed: 3 items open: not to be used yet. " +
				"2 answers count no more: their record is missing, was altered or says something else. 4 answers are said, not recorded."},
		{limits.Report{Altered: true, Unproved: 1}, "DOES NOT HOLD: 0 verdicts fail, 0 unknown. The record of the commissioning was ALTERED. " +
			"1 answer counts no more: its record is missing, was altered or says something else."},
	} {
		words, _ := Finding(c.report)
		assert.Equal(t, c.says, words)
	}
}
