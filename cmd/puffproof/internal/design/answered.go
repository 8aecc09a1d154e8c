package design

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"puffproof/cmd/puffproof/internal/edit"
)

// Answered is the file with an answer of the checklist. An answer to the same item that stands is written over, and what it
// was valid until goes with it. What it rests on is written down with it. The error says why the file would not be read.
func (e *Editable) Answered(item, who, date, value string) (*Editable, error) {
	f, err := edit.Open(e.data)
	if err != nil {
		return nil, err
	}
	table := answerTable(f, item)
	flat, err := Flatten(string(e.data))
	if err != nil {
		return nil, err
	}
	for _, key := range []struct{ name, text string }{{"who", who}, {"date", date}, {"value", value}, {"build", BuildOf(flat, item)}} {
		if !utf8.ValidString(key.text) || strings.ContainsFunc(key.text, unicode.IsControl) {
			return nil, fmt.Errorf("%s: %q is more than a line of plain text", key.name, key.text)
		}
		if key.text == "" && !f.Has(table+"."+key.name) {
			continue
		}
		if err := f.Set(table+"."+key.name, line(key.text)); err != nil {
			return nil, err
		}
	}
	if err := f.Remove(table + ".valid_until"); err != nil {
		return nil, err
	}
	out, problems := e.in.Open(e.name, f.Bytes())
	if len(problems) > 0 {
		return nil, fmt.Errorf("the design would no longer be read: %s", problems[0])
	}
	return out, nil
}

// OfBuild is the file with what an answer rests on as it was written down with it elsewhere.
func (e *Editable) OfBuild(item, build string) (*Editable, error) {
	f, err := edit.Open(e.data)
	if err != nil {
		return nil, err
	}
	if err := f.Set(answerTable(f, item)+".build", line(build)); err != nil {
		return nil, err
	}
	out, problems := e.in.Open(e.name, f.Bytes())
	if len(problems) > 0 {
		return nil, fmt.Errorf("the design would no longer be read: %s", problems[0])
	}
	return out, nil
}

// answerTable is the table of an item: as it stands, its id in quotes or as dotted tables, else in quotes.
func answerTable(f *edit.File, item string) string {
	if dotted := "checklist." + item; f.Has(dotted+".who") || f.Has(dotted+".date") {
		return dotted
	}
	return "checklist." + strconv.Quote(item)
}
