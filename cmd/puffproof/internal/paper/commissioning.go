package paper

import (
	"fmt"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/rests"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/vent"
)

// commissioning is the record of the commissioning, reading by reading, with those that did not pass.
func (b *builder) commissioning() {
	log := b.in.Record
	if log == nil {
		b.say("No record of a commissioning was laid beside the design: puffproof commission leads through its steps and writes it.")
		return
	}
	b.section("Record of the commissioning")
	all := log.Readings()
	failed := 0
	for _, e := range all {
		if e.Result != record.Passed {
			failed++
		}
	}
	b.say(fmt.Sprintf("%s in the order in which they were written down, %d of which did not pass. The record is a file of its own beside the "+
		"design, carried in this one; each of its lines is chained to the one before, so that one altered later is noticed.",
		show.Plural(len(all), "reading", "readings"), failed))
	if ends := log.Ends(); ends != "" {
		b.say(fmt.Sprintf("Its last line is chained as %s. The chain holds no secret: it shows a line that is not as it was written. It "+
			"does not show that a whole record was made anew, was taken back together with the design, or was copied with it for a second "+
			"launcher. Against that the second person writes these letters on page one by hand, as puffproof commission shows them that "+
			"day, compares the mark on the launcher, and keeps a copy of this file: a later record has that line, or is another one.", ends))
	}
	b.recordTroubles(log)
	flat, err := rests.Flatten(b.in.Text)
	t := document.Table{Caption: "As it was read. What an answer of the checklist above says is the newest line of its step.",
		Head: []string{"Step", "Read", "Expected", "Result", "Who", "Date"}, Widths: []int{20, 22, 24, 14, 10, 10}}
	for _, e := range all {
		tone, result := show.Good, document.Own("passed")
		if e.Result != record.Passed {
			tone, result = show.Bad, document.Join(document.AsStrong("did not pass"), ": ", document.AsGiven(e.Says))
		}
		if err != nil || e.Build != rests.BuildOf(flat, e.Step) {
			tone, result = show.Open, document.Join(result, "; of another build than this file describes")
		}
		if e.Takes > 0 {
			result = document.Join(result, "; written down sooner after the one before than it takes, ", b.in.Units.Text(finding.Say("%s",
				vent.Minutes(e.Takes))), " at least: ask when it was read")
		}
		t.Rows = append(t.Rows, []document.Text{document.Join(document.AsGiven(e.Title), " ", document.AsCode(document.AsGiven(e.Step).String())),
			document.AsGiven(readIn(&e)), document.AsGiven(dash(e.Expect)), result, document.AsGiven(e.Who), document.AsGiven(e.Date)})
		t.Tones = append(t.Tones, tone)
	}
	if len(t.Rows) > 0 {
		b.add(t)
	}
}

// recordTroubles says what is wrong with the record.
func (b *builder) recordTroubles(log *record.Log) {
	for _, a := range log.Altered {
		b.tell(show.Bad, document.AsStrong("The record was altered: "), document.AsGiven(a), ". What stands there proves nothing.")
	}
	if n := log.Cut; n > 0 || log.Torn > 0 {
		if log.Torn > 0 {
			n++
		}
		b.say(fmt.Sprintf("%s cut off by a run that ended while it wrote; every other line is whole.", show.Plural(n, "line is", "lines are")))
	}
}

// readIn is what was read: as it was given, or from which file.
func readIn(e *record.Entry) string {
	if e.Reading == "" {
		return fmt.Sprintf("%s of a file: %s", show.Plural(len(e.Series), "reading", "readings"), e.Value)
	}
	return e.Reading
}
