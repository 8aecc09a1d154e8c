package record

import (
	"crypto/sha256"
	"encoding/hex"
	"maps"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/rests"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// PendingNumbers are the numbers of the readings that are pending.
func (l *Log) PendingNumbers() (out []int) {
	for _, e := range l.Pending() {
		out = append(out, e.N)
	}
	return out
}

// Hurried counts the steps whose newest reading was written down sooner after the one before than the step takes.
func (l *Log) Hurried() (n int) {
	for _, e := range l.Readings() {
		if e.Takes > 0 && l.Newest(e.Step).N == e.N {
			n++
		}
	}
	return n
}

// Foreign tells whether the readings of a record are those of another design, or of another launcher, as far as can be told: the design
// has the answer of none of them, and they stand in some design already, or were taken of one of another name. A design that was taken
// back to before its first reading looks like that too.
func (l *Log) Foreign(of *launcher.Launcher) bool {
	readings := l.Readings()
	if len(readings) == 0 {
		return false
	}
	for _, c := range of.Checklist {
		if slices.ContainsFunc(readings, func(e Entry) bool {
			return e.Step == c.Item && (c.Record == e.Name() || c.Record == "" && e.is(&c))
		}) {
			return false
		}
	}
	named := l.LastDesign()
	return len(l.Pending()) < len(readings) || named != nil && named["name"] != of.Name
}

// Restore gives a design the answers of the readings that are pending, and the steps whose answers it lacked. A reading that is
// older than the answer which stands there was overtaken by hand; of a record that was altered, or is foreign, nothing is taken.
func (l *Log) Restore(d *design.Editable) (*design.Editable, []string) {
	var restored []string
	if len(l.Altered) > 0 || l.Foreign(d.Launcher()) {
		return d, nil // what was written in afterwards proves nothing, nor what was read of something else
	}
	for _, e := range l.Pending() {
		answers := d.Launcher().Checklist
		i := slices.IndexFunc(answers, func(c finding.Confirmation) bool { return c.Item == e.Step })
		if i >= 0 && (answers[i].Date > e.Date || e.is(&answers[i])) {
			continue
		}
		with, err := d.Answered(e.Answer()) // of the build of which it was given
		if err != nil {
			continue // an item that no design has any more
		}
		d, restored = with, append(restored, e.Step)
	}
	return d, restored
}

// is tells whether an answer came from this reading.
func (e *Entry) is(c *finding.Confirmation) bool {
	return c.Value == e.Value && c.Date == e.Date && c.Who == e.Who && (c.Record == "" || c.Record == e.Name())
}

// Answer is a reading as the answer that a design's checklist gets.
func (e *Entry) Answer() design.Given {
	return design.Given{Item: e.Step, Who: e.Who, Date: e.Date, Value: e.Value, Build: e.Build, Record: e.Name()}
}

// Proof is what the readings of the record bear out.
func (l *Log) Proof() *design.Proof {
	p := &design.Proof{Altered: l.Altered}
	for _, e := range l.Readings() {
		p.Readings = append(p.Readings, design.Proven{Name: e.Name(), Item: e.Step, Who: e.Who, Date: e.Date, Value: e.Value, Build: e.Build,
			Passed: e.Result == Passed, Whole: !e.Altered})
	}
	return p
}

// DesignOf is the entry of what the bytes of a design file say, to be written before the next reading; nil: the last such entry
// says the same. The error is that of a file that is no TOML.
func (l *Log) DesignOf(file []byte) (*Entry, error) {
	flat, err := rests.Flatten(string(file))
	if err != nil {
		return nil, err
	}
	maps.DeleteFunc(flat, func(k, _ string) bool { return strings.HasPrefix(k, "checklist.") })
	if maps.Equal(flat, l.LastDesign()) {
		return nil, nil
	}
	sum := sha256.Sum256(file)
	return &Entry{Kind: Design, File: hex.EncodeToString(sum[:]), Keys: flat}, nil
}

// Changed is one key of the design that changed; "" where it is not there.
type Changed struct{ Key, Before, After string }

// Due says of each step whose answer was given of another build than a design file describes what was changed since.
func (l *Log) Due(answers []finding.Confirmation, file []byte) map[string][]Changed {
	out := map[string][]Changed{}
	now, err := rests.Flatten(string(file))
	if err != nil {
		return out
	}
	for _, c := range answers {
		e := l.Newest(c.Item)
		if !c.Changed || e == nil {
			continue
		}
		was := l.DesignBefore(e.N)
		for _, k := range rests.Differing(was, now) {
			if was != nil && rests.Bears(k, c.Item) {
				out[c.Item] = append(out[c.Item], Changed{k, was[k], now[k]})
			}
		}
	}
	return out
}
