package design

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/advise"
)

// Holding is what a key holds, as a form asks for it.
type Holding uint8

// What keys hold.
const (
	AFigure   Holding = iota // a number with its unit, tolerance and origin
	OneWord                  // one of Field.Words
	YesOrNo                  // true, false, or one of Field.Words
	ADay                     // an ISO date
	ALine                    // free text
	AsWritten                // a list, or a bare number: as TOML writes it
)

// Field is one key of a design, as a form asks for it.
type Field struct {
	Key       string // dotted, such as "volumes.tank.volume"
	Holds     Holding
	Words     []string       // that it may hold; of OneWord, YesOrNo and, between quotes, some that are AsWritten
	Stated    bool           // it stands in the file
	Text      string         // what the file says: of a text without its quotes
	Needed    bool           // it must stand
	Dimension unit.Dimension // of AFigure
	Reference manual.KeyReference
}

// FieldTable is a table of a design with its keys.
type FieldTable struct {
	Name   string // dotted, such as "volumes.tank"; "" the top of the file
	Teach  string
	Stated bool
	Fields []Field // in the order of the reference, those only that belong here
}

// Forms knows what forms ask for; it is made once, for many design files.
type Forms struct {
	keys      *keys.Table
	reference map[string]manual.TableReference // by the name of a table's row
}

// NewForms makes forms whose teaching texts have their figures in units of a system.
func NewForms(units quantity.System) *Forms {
	f := &Forms{keys.New(), map[string]manual.TableReference{}}
	for i := range f.keys.Tables {
		f.reference[f.keys.Tables[i].Name] = manual.Refer(f.keys, &f.keys.Tables[i], units)
	}
	return f
}

// Tables lists the tables of a design file with their keys: those of the file, and those of which there may be one and that
// it lacks. The bench tests and the answers of the checklist are left out: they are entered as they are read. The file may have
// problems; the error says that it is no TOML.
func (forms *Forms) Tables(data []byte) ([]FieldTable, error) {
	f, err := edit.Open(data)
	if err != nil {
		return nil, err
	}
	known := forms.keys
	stated := map[string]edit.Stated{}
	names := map[string][]string{} // of each row, the tables that stand
	for _, s := range f.All() {
		parts := edit.Split(s.Key)
		name := strings.Join(parts[:len(parts)-1], ".")
		row := known.Row(rowOf(parts[:len(parts)-1]))
		if row == nil {
			continue
		}
		stated[s.Key] = s
		if !slices.Contains(names[row.Name], name) {
			names[row.Name] = append(names[row.Name], name)
		}
	}
	var out []FieldTable
	for i := range known.Tables {
		row := &known.Tables[i]
		if row.Name == "bench" || row.Name == "checklist" || row.Name == "model" {
			continue
		}
		all := names[row.Name]
		if len(all) == 0 && !strings.Contains(row.Name, "*") && row.Name != "objects" {
			all = []string{row.Name}
		}
		for _, name := range all {
			out = append(out, forms.fields(row, name, stated))
		}
	}
	return out, nil
}

// rowOf is the name of the row of a table's dotted name.
func rowOf(parts []string) string {
	parts = slices.Clone(parts)
	for i, p := range parts {
		if at := strings.IndexByte(p, '['); at > 0 {
			parts[i] = p[:at]
		}
	}
	if len(parts) >= 2 && slices.Contains([]string{"volumes", "paths", "control"}, parts[0]) {
		parts[1] = "*"
	}
	return strings.Join(parts, ".")
}

// fields are the keys of one table that belong to it as it stands.
func (forms *Forms) fields(row *keys.Row, name string, stated map[string]edit.Stated) FieldTable {
	prefix := name + "."
	if name == "" {
		prefix = ""
	}
	out := FieldTable{Name: name, Teach: row.Teach}
	selected := ""
	if row.Selector != "" {
		selected = alike(stated[prefix+row.Selector].Value, forms.keys.Index[row.Name][row.Selector].Words)
	}
	ref := forms.reference[row.Name]
	for i, one := range forms.keys.Of(row.Name) {
		s, stands := stated[prefix+one.Name]
		for _, alias := range one.Aliases {
			if other, is := stated[prefix+alias]; is {
				s, stands = other, true
			}
		}
		out.Stated = out.Stated || stands
		if one.Kind == keys.Subtable || one.ByProgram || !stands && !one.Belongs(selected) {
			continue
		}
		field := Field{Key: prefix + one.Name, Holds: holding(one), Words: one.AllWords(), Stated: stands, Text: s.Value,
			Needed: one.Needed(selected), Dimension: one.Dimension, Reference: ref.Keys[i]}
		if stands {
			field.Key = s.Key
		}
		switch one.Kind {
		case keys.Answer:
			field.Words = []string{"true", "false", "unknown", "declared yes", "declared no"}
		case keys.States:
			field.Words = keys.StateNames()
		}
		if len(field.Words) > 0 && !field.Needed && !one.OutIsNone {
			field.Words = append(slices.Clone(field.Words), keys.NotKnown)
		}
		out.Fields = append(out.Fields, field)
	}
	return out
}

// holding is what a key holds.
func holding(k *keys.Key) Holding {
	switch k.Kind {
	case keys.Number:
		if !strings.HasPrefix(k.Example, `"`) {
			return AsWritten
		}
		return AFigure
	case keys.Word:
		return OneWord
	case keys.Answer:
		return YesOrNo
	case keys.Date:
		return ADay
	case keys.Text:
		return ALine
	}
	return AsWritten
}

// TOML is what is entered at a field as the file writes it. The error says why it cannot be: more than a line of text.
func (f *Field) TOML(entered string) (string, error) {
	switch {
	case f.Holds == AsWritten && entered == keys.NotKnown:
	case f.Holds == AsWritten, f.Holds == YesOrNo && (entered == "true" || entered == "false"):
		return entered, nil
	case strings.ContainsFunc(entered, unicode.IsControl):
		return "", fmt.Errorf("%s: is more than a line of plain text", f.Key)
	}
	return advise.Quoted(entered), nil
}
