package paper

import (
	"fmt"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/hazard"
)

// troubles shows failures and unknowns in full. Where there is none it says so
// in one line and counts what was judged.
func (b *builder) troubles() {
	b.chapter(2, "What could hurt whom")
	b.section("What fails and what is not known")
	r := b.in.Report
	if r.Holds {
		b.say("Nothing that was judged fails and nothing is unknown: " + show.Plural(show.Tally(r.Verdicts, finding.Pass),
			"question passes",
			"questions pass") + ", " + conditions(r) +
			show.Plural(show.Tally(r.Verdicts, finding.NotApplicable), "does not apply", "do not apply") +
			". Every verdict stands in the appendix with its source. " +
			"Tests of the real launcher that failed are written into part 8 too.")
		b.notJudged()
		return
	}
	b.notJudged()
	t := document.Table{Caption: "Failures and unknowns, worst first",
		Head: []string{"Answer", "Question", "Value and limit", "Why", "What to do"}, Widths: []int{11, 21, 19, 25, 24}}
	for _, v := range show.Troubled(r.Verdicts) {
		t.AddToned(show.ToneOf(v.Status), document.AsStrong(show.PaperWord(v.Status)), document.Join(v.Title+" ", document.AsCode(v.ID)),
			dash(b.in.against(v))+" "+b.source(v.Source), dash(b.text(v.Why)), dash(b.text(v.Advice)))
	}
	b.add(t)
}

// notJudged says what no verdict asks: what two faults at once do; and what an answer rests on.
func (b *builder) notJudged() {
	if f := b.in.Faults; f != nil {
		open := 0
		for i := range f.Faults {
			if f.Faults[i].Status == finding.OpenItem {
				open++
			}
		}
		if open > 0 {
			b.say(show.Plural(open, "single fault holds only by an item that is still open",
				"single faults hold only by items that are still open") + "; they stand first in the table of the appendix.")
		}
	}
	if f := b.in.Faults; f != nil && len(f.Pairs) > 0 {
		above, onTest, not := pairsAbove(f.Pairs)
		t := "No verdict asks what two faults at once do. "
		if above > 0 {
			t += document.AsStrong(show.Plural(above, "pair exceeds a limit or is unknown", "pairs exceed a limit or are unknown")).String()
		} else {
			t += "No pair that was computed exceeds a limit"
		}
		if onTest > 0 {
			t += fmt.Sprintf("; %d more would, and rest on a test that is to find the first fault before a second one happens", onTest)
		}
		if not > 0 {
			t += fmt.Sprintf("; %d were not computed", not)
		}
		b.say(t + ". The appendix lists them.")
	}
	b.say("Basis says what an answer rests on: measured shots; the model, computed shots over all tolerances, fewer for a fault far below " +
		"the worst one and the limit; the ceiling, the most that the air could do; the circuit, what is joined to what; data, figures " +
		"that the design states; a rule; a procedure, which people keep.")
}

// pairsAbove counts the pairs of faults that exceed a limit or are unknown, those that a test holds, and those not computed.
func pairsAbove(all []fault.Result) (above, onTest, not int) {
	for i := range all {
		switch r := &all[i]; {
		case r.Effect == fault.NotComputed:
			not++
		case r.AsAlone():
		case r.Status == finding.Fail || r.Status == finding.Unknown:
			above++
		case r.OnTest():
			onTest++
		}
	}
	return above, onTest, not
}

// conditions counts what holds on a condition; "" nothing does.
func conditions(r limits.Report) string {
	if r.Conditions == 0 {
		return ""
	}
	return show.Plural(r.Conditions, "holds on a condition that people keep", "hold on conditions that people keep") + ", "
}

// risks is the hazard log: one row a hazard.
func (b *builder) risks() {
	b.section("Hazard log")
	b.say("One row for each hazard: severity and likelihood before anything is done, what is done in the three steps of ISO 12100 (design, " +
		"guard, information), what shows it, and what is left. A measure counts once its verdicts (in the appendix) hold and its items of part " +
		"8 are answered; one that is not proved takes nothing off. Severity: slight, serious, lasting, deadly; likelihood in a season: remote, " +
		"unlikely, possible, likely. The owner of a risk is the person who keeps its measures up: write the name in. List and scales are the " +
		"project's " +
		"own (common practice, no source): add what is special to your event.")
	t := document.Table{Caption: "Hazard log", Head: []string{"Hazard", "Before", "Measures, and what shows them", "Left", "What remains",
		"Owner"}, Widths: []int{21, 9, 38, 9, 15, 8}}
	for _, e := range hazard.Log(b.in.Launcher, b.in.Report.Verdicts, b.in.Report.Items) {
		t.AddToned(toneOf(e), document.Join(document.AsStrong(e.What), ". Who: "+e.Who+". Harm: "+e.Harm+"."), risk(e.Before), measures(e),
			risk(e.After), remains(e), nil)
	}
	b.add(t)
	b.add(document.Table{Caption: "Further hazards of this event", Head: []string{"Hazard", "Who", "Measure", "What remains", "Owner"},
		Rows: blanks(3, 5), Shape: document.Blanks})
}

// risk is a risk in words.
func risk(r hazard.Risk) string { return r.Severity.String() + ", " + r.Likelihood.String() }

// stepWord begins a measure.
var stepWord = map[hazard.Step]string{hazard.Design: "Design", hazard.Guard: "Guard", hazard.Information: "Information"}

// measures are what is done about a hazard, step by step, each with what shows it.
func measures(e hazard.Entry) document.Text {
	var out []any
	for i, m := range e.Held {
		if i > 0 {
			out = append(out, " ")
		}
		out = append(out, document.AsStrong(stepWord[m.Step]), ": "+m.What+". ")
		switch m.State {
		case hazard.Failing:
			out = append(out, document.AsStrong("FAILS"), ": "+strings.Join(m.Fails, ", ")+".")
		case hazard.Unproved:
			open := "nothing shows it"
			if len(m.Open) > 0 {
				open = strings.Join(m.Open, ", ")
			}
			out = append(out, document.AsStrong("OPEN"), ": "+open+".")
		}
		shown := slices.Clone(m.Shown)
		for _, id := range m.Conditions {
			shown = append(shown, show.PaperWord(finding.Conditional)+" "+id)
		}
		if len(shown) > 0 && m.State != hazard.Failing {
			out = append(out, " Shown: "+strings.Join(shown, ", ")+".")
		}
	}
	return document.Join(out...)
}

// toneOf marks a hazard of which a measure fails, or is not proved.
func toneOf(e hazard.Entry) show.Tone {
	tone := show.Neutral
	for _, m := range e.Held {
		switch {
		case m.State == hazard.Failing:
			return show.ToneOf(finding.Fail)
		case m.State == hazard.Unproved:
			tone = show.ToneOf(finding.Unknown)
		}
	}
	return tone
}

// remains is what is left of a hazard once its measures are there: where a verdict of it fails or is not known they are
// not, and what it does is what it did before.
func remains(e hazard.Entry) string {
	var failed, unknown []string
	for _, m := range e.Held {
		failed = append(failed, m.Fails...)
		for _, id := range m.Open {
			if !finding.IsItem(id) {
				unknown = append(unknown, id)
			}
		}
	}
	switch {
	case len(failed) > 0:
		return "all of it, " + e.Harm + ": " + strings.Join(failed, ", ") + verb(len(failed))
	case len(unknown) > 0:
		return "not known, as bad as " + e.Harm + " until it is: " + strings.Join(unknown, ", ")
	}
	return e.Remains
}

// verb is the word for one or several that fail.
func verb(n int) string {
	if n == 1 {
		return " fails"
	}
	return " fail"
}
