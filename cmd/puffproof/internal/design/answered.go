package design

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/cmd/puffproof/internal/rests"
	"puffproof/limits/advise"
)

// Given is an answer to an item of the checklist.
type Given struct {
	Item             string
	Who, Date, Value string
	Build            string // of what it rests on; "" what the file now says
	Record           string // the reading of the record that it came from; "" none
}

// Answered is the file with an answer of the checklist. An answer to the same item that stands is written over, and what it
// was valid until goes with it. What it rests on is written down with it. The error says why the file would not be read.
func (e *Editable) Answered(g Given) (*Editable, error) {
	f, err := edit.Open(e.data)
	if err != nil {
		return nil, err
	}
	if g.Build == "" {
		flat, err := rests.Flatten(string(e.data))
		if err != nil {
			return nil, err
		}
		g.Build = rests.BuildOf(flat, g.Item)
	}
	if err := g.into(f); err != nil {
		return nil, err
	}
	out, problems := e.in.Open(e.name, f.Bytes())
	if len(problems) > 0 {
		return nil, fmt.Errorf("the design would no longer be read: %s", problems[0])
	}
	return out, nil
}

// into writes an answer into a file.
func (g *Given) into(f *edit.File) error {
	table := answerTable(f, g.Item)
	for _, key := range []struct{ name, text string }{{"who", g.Who}, {"date", g.Date}, {"value", g.Value}, {"build", g.Build},
		{"record", g.Record}} {
		if !utf8.ValidString(key.text) || strings.ContainsFunc(key.text, unicode.IsControl) {
			return fmt.Errorf("%s: %q is more than a line of plain text", key.name, key.text)
		}
		if key.text == "" && !f.Has(table+"."+key.name) {
			continue
		}
		if err := f.Set(table+"."+key.name, advise.Quoted(key.text)); err != nil {
			return err
		}
	}
	return f.Remove(table + ".valid_until")
}

// Under is the same file, held against another record.
func (e *Editable) Under(p *Proof) (*Editable, error) {
	in := e.in
	in.Proof = p
	out, problems := in.Open(e.name, e.data)
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
