package show

import (
	"fmt"
	"strings"

	"puffproof/limits"
	"puffproof/limits/finding"
)

// Finding is the answer of a report in one line, and how it is meant: the same
// words on every screen and on every paper.
func Finding(r limits.Report) (string, Tone) {
	words, tone := worth(r)
	return words + proof(r), tone
}

// SaidOnly is what is said of an answer behind which no record stands.
const SaidOnly = "said, not recorded"

// proof says what stands behind the answers of the checklist; "" all of them are recorded, or there are none.
func proof(r limits.Report) (words string) {
	if r.Altered {
		words = " The record of the commissioning was ALTERED."
	}
	if n := r.Unproved; n > 0 {
		why := "is missing, was altered or says something else"
		if r.NoRecord != "" {
			why = "cannot be read, it " + r.NoRecord
		}
		words += " " + Plural(n, "answer counts no more: its", "answers count no more: their") + " record " + why + "."
	}
	if n := r.Said; n > 0 && !restsOnWords(r) {
		words += " " + Plural(n, "answer is", "answers are") + " " + SaidOnly + "."
	}
	return words
}

// restsOnWords tells whether a design holds and is complete by answers that no record bears out: the finding says so itself.
func restsOnWords(r limits.Report) bool { return r.Holds && r.OpenItems == 0 && r.Said > 0 }

// worth is what the design is worth.
func worth(r limits.Report) (string, Tone) {
	switch {
	case !r.Holds:
		return fmt.Sprintf("DOES NOT HOLD: %s%s%s.", templateWords(r), measuredWords(r), Troubles(r.Verdicts)), Bad
	case restsOnWords(r): // whatever was measured: nobody can hold these against a record
		return "Holds on " + Plural(r.Said, "answer that is", "answers that are") + " " + SaidOnly +
			". NOT confirmed by measurement: not to be used yet." + conditions(r), Open
	case !r.Confirmed && r.OpenItems == 0:
		return holdsOn(r) + " NOT yet confirmed by measured shots: not to be used yet." + conditions(r), Open
	case !r.Confirmed:
		return fmt.Sprintf("%s NOT yet confirmed: %s open: not to be used yet.%s", holdsOn(r), Plural(r.OpenItems, "item", "items"),
			conditions(r)), Open
	}
	return "Holds, confirmed by measurement." + conditions(r), Good
}

// conditions says how many conditions people have to keep for it to hold, and how many
// declarations it rests on; "" none.
func conditions(r limits.Report) (words string) {
	if r.Declared > 0 {
		words = " It holds only if " + Plural(r.Declared, "declaration proves", "declarations prove") + " true."
	}
	if r.Conditions > 0 {
		words += " It holds on " + Plural(r.Conditions, "condition", "conditions") + " that people keep."
	}
	return words
}

// Troubles counts what fails and what is unknown: "2 verdicts fail, 1 unknown".
func Troubles(verdicts []finding.Verdict) string {
	return fmt.Sprintf("%s, %d unknown", Plural(Tally(verdicts, finding.Fail), "verdict fails", "verdicts fail"),
		Tally(verdicts, finding.Unknown))
}

// templateWords say how many figures are nobody's.
func templateWords(r limits.Report) string {
	if len(r.Template) == 0 {
		return ""
	}
	return Plural(len(r.Template), "figure is", "figures are") + " still the template's: not your launcher; "
}

// measuredWords name the tests of the real launcher that went wrong.
func measuredWords(r limits.Report) string {
	t := ""
	for _, v := range Troubled(r.Verdicts) {
		status, _, _ := strings.Cut(v.Why.String(), ":")
		switch v.ID {
		case finding.MeasuredEmptying:
			t += "the measured emptying does not agree (" + status + "); "
		case finding.MeasuredLeak:
			t += "the measured leak-down is not tight (" + status + "); "
		}
	}
	return t
}

// holdsOn says that it holds and names the basis of the energy.
func holdsOn(r limits.Report) string {
	if e := r.Energy; e != nil && e.Basis == finding.OnMeasured {
		return "Holds on measured shots."
	}
	return "Holds on the model."
}
