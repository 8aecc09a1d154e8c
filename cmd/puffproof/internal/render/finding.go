package render

import (
	"fmt"
	"puffproof/limits"
	"puffproof/limits/finding"
	"strings"
)

// Finding is the answer of a report in one line: the same words on every screen
// and on every paper.
func Finding(r limits.Report) string {
	fails, unknown := 0, 0
	for _, v := range r.Verdicts {
		switch v.Status {
		case finding.Fail:
			fails++
		case finding.Unknown:
			unknown++
		}
	}
	switch {
	case !r.Holds:
		return fmt.Sprintf("DOES NOT HOLD: %s%s, %d unknown.", measuredWords(r), plural(fails, "verdict fails", "verdicts fail"), unknown)
	case !r.Confirmed && r.OpenItems == 0:
		return holdsOn(r) + " NOT yet confirmed by measured shots: not to be used yet."
	case !r.Confirmed:
		return fmt.Sprintf("%s NOT yet confirmed: %s open: not to be used yet.", holdsOn(r), plural(r.OpenItems, "item", "items"))
	}
	return "Holds, confirmed by measurement."
}

// measuredWords name the tests of the real launcher that went wrong.
func measuredWords(r limits.Report) string {
	t := ""
	for _, v := range r.Verdicts {
		if v.Status != finding.Fail && v.Status != finding.Unknown {
			continue
		}
		status, _, _ := strings.Cut(v.Why, ":")
		switch v.ID {
		case finding.MeasuredEmptying:
			t += "the measured emptying does not agree (" + status + "); "
		case finding.MeasuredLeak:
			t += "the measured leak-down is not tight (" + status + "); "
		}
	}
	return t
}

// holdsOn names the basis of the energy.
func holdsOn(r limits.Report) string {
	if e := r.Energy; e != nil && e.Basis == finding.OnMeasured {
		return "Holds on measured shots."
	}
	return "Holds on the model."
}
