package proving

import (
	"context"
	"strconv"
	"strings"
	"unicode"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/rests"
	"puffproof/cmd/puffproof/internal/usage"
	"puffproof/limits/commission"
	"puffproof/limits/finding"
	"puffproof/limits/vent"
)

// Reading is what somebody says of a step.
type Reading struct {
	Step, Value, Who, Date string
	Log                    *vent.Log // of a file; nil: none
	Source                 string    // its name and fingerprint
	As                     string    // what it was given by, as what is said of it begins; "" nothing
	Failing                Failing
}

// Failing is what becomes of a reading that did not pass.
type Failing uint8

// It is written down, and stops all later steps; or it is refused, as no answer.
const (
	Kept Failing = iota
	Refused
)

// errorf is an error about a reading: nothing was written.
func (r *Reading) errorf(format string, args ...any) error {
	return usage.Errorf(strings.TrimSpace(r.As+" "+r.Step)+": "+format+"; nothing was written", args...)
}

// WhoWanted is what is accepted as the people of a reading; found is what was given instead.
func WhoWanted(found string) string {
	wanted := "the initials or names of who did it and of who watched, as \"AB, CD\""
	if found = strings.TrimSpace(found); found != "" {
		return wanted + "; " + strconv.Quote(found) + " names nobody"
	}
	return wanted
}

// Take judges a reading and writes it down. The error says why it cannot be one, with what would be accepted, and then nothing was
// written; or which file could not be written. Compute goes before it.
func (b *Book) Take(ctx context.Context, r *Reading) (*record.Wrote, error) {
	step, err := b.allowed(r)
	if err != nil {
		return nil, err
	}
	c := finding.Confirmation{Item: r.Step, Who: r.Who, Date: r.Date, Value: r.Value, Figures: design.FiguresIn(r.Value),
		Beside: design.BesideIn(r.Value), Odd: design.OddIn(r.Value)}
	judged, err := b.Way.Run.Judge(step, &c, r.Log)
	switch {
	case err != nil:
		return nil, err
	case judged.Outcome == finding.Void || judged.Outcome == finding.Unusable || judged.Outcome == finding.Failing && r.Failing == Refused:
		hint := ""
		if judged.Outcome == finding.Unusable { // a figure that was read well needs no word on its unit
			hint = b.unitHint(step, r.Value)
		}
		return nil, r.errorf("%s%s%s", b.words(judged.Says), hint, b.asked(step, judged.Outcome))
	}
	hurried, why := b.hurried(step, r)
	if len(why) != 0 {
		return nil, r.errorf("%s", b.words(why))
	}
	wrote := &record.Wrote{Step: r.Step, Result: record.Failed, Says: judged.Says, Note: hurried}
	if judged.Outcome == finding.Closes {
		wrote.Result = record.Passed
	}
	e := b.entry(step, r, judged, wrote.Result)
	if len(hurried) != 0 {
		e.Takes = step.Takes
	}
	after, err := b.with(e)
	if err != nil {
		return nil, err
	}
	if err := after.compute(ctx); err != nil {
		return nil, err
	}
	if wrote.Result == record.Passed {
		if err := after.closes(r); err != nil {
			return nil, err
		}
	}
	if err := after.write(ctx); err != nil {
		return nil, err
	}
	*b = *after
	return wrote, nil
}

// words is a text as a part of a sentence.
func (b *Book) words(t finding.Text) string { return strings.TrimRight(b.host.Units.Text(t), ".") }

// asked is what would be accepted in the place of a reading that is refused.
func (b *Book) asked(step *commission.Step, outcome finding.Outcome) string {
	switch outcome {
	case finding.Failing:
		return lead("; expected is: ", b.words(step.Expect))
	case finding.Unusable:
		return lead("; asked is ", b.words(step.Read))
	}
	return ""
}

// allowed is a step that may be taken, now or again, by who took it on the day.
func (b *Book) allowed(r *Reading) (*commission.Step, error) {
	run := &b.Way.Run
	if b.foreign && !b.host.OwnRecord {
		return nil, r.errorf("%s", strings.TrimRight(b.log.ForeignWords(RecordName(b.name), b.name), "."))
	}
	step := run.Step(r.Step)
	if step == nil {
		return nil, b.noStep(r)
	}
	if first := run.Before(r.Step); first != nil {
		return nil, r.errorf("not yet: first %s (%s)%s", b.words(first.Title), first.ID, lead(": ", b.words(first.OpenWhy)))
	}
	if stop := run.Stops(r.Step); len(stop) != 0 {
		return nil, r.errorf("not yet: %s", b.words(stop))
	}
	if finding.People(r.Who) < step.People {
		return nil, r.errorf("it takes two people, who did it and who watched, as \"AB, CD\"; found %q", r.Who)
	}
	if last := run.LastBefore(r.Step); last != nil && r.Date < last.Done.Date {
		return nil, r.errorf("%s lies before %s (%s), which goes before it and was done on %s; accepted is that day or later", r.Date,
			b.words(last.Title), last.ID, last.Done.Date)
	}
	if e := b.log.Newest(r.Step); e != nil && r.Date < e.Date {
		return nil, r.errorf("%s lies before its newest reading, of %s; accepted is that day or later", r.Date, e.Date)
	}
	if r.Log == nil && !strings.ContainsFunc(r.Value, func(c rune) bool { return unicode.IsLetter(c) || unicode.IsDigit(c) }) {
		return nil, r.errorf("the reading, %q, says nothing; asked is %s", r.Value, b.words(step.Read))
	}
	return step, nil
}

// lead is a text behind what leads to it; "" where there is none.
func lead(before, text string) string {
	if text == "" {
		return ""
	}
	return before + text
}

// noStep says why a launcher has no step of a name.
func (b *Book) noStep(r *Reading) error {
	what, list := "this launcher has no step %q", "puffproof commission --all lists its steps"
	if r.Failing == Refused {
		what, list = "this design does not ask for %q", "puffproof items lists what it asks for"
	}
	for _, l := range b.Way.Run.LeftOut {
		if l.ID == r.Step {
			return r.errorf(what+": %s", r.Step, b.words(l.Why))
		}
	}
	return r.errorf(what+"; %s", r.Step, list)
}

// closes tells whether the answer that the design now has closes its item; the error says why it does not.
func (b *Book) closes(r *Reading) error {
	it := b.Way.Report.Items[finding.IndexOfItem(b.Way.Report.Items, r.Step)]
	switch {
	case it.Done != nil && it.Done.Shows == nil:
		return nil
	case it.Done != nil:
		return r.errorf("the answer does not close it, %s does", it.Done.Who)
	}
	why := it.OpenWhy
	if len(why) == 0 {
		why = it.Why
	}
	return r.errorf("%s%s", b.words(why), lead("; expected is: ", b.words(it.Expect)))
}

// entry is the line of a reading.
func (b *Book) entry(step *commission.Step, r *Reading, judged commission.Judged, result string) record.Entry {
	e := record.Entry{Kind: record.Reading, File: fingerprintOf(b.file), Step: r.Step, Title: step.Title.String(),
		Expect: step.Expect.String(), Reading: r.Value, Source: r.Source, Who: r.Who, Date: r.Date, Result: result,
		Says: judged.Says.String(), Value: judged.Value}
	if r.Log != nil {
		for _, one := range r.Log.Readings {
			e.Series = append(e.Series, [2]float64{one.Time, one.Gauge})
		}
	}
	if flat, err := rests.Flatten(string(b.file)); err == nil {
		e.Build = rests.BuildOf(flat, r.Step)
	}
	return e
}
