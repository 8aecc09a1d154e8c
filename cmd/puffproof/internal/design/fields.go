package design

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
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
	Reference KeyReference
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
	keys      *keyTable
	reference map[string]TableReference // by the name of a table's row
}

// NewForms makes forms whose teaching texts have their figures in units of a system.
func NewForms(units quantity.System) *Forms {
	f := &Forms{newKeyTable(), map[string]TableReference{}}
	for i := range f.keys.tables {
		f.reference[f.keys.tables[i].name] = f.keys.refer(&f.keys.tables[i], units)
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
	keys := forms.keys
	stated := map[string]edit.Stated{}
	names := map[string][]string{} // of each row, the tables that stand
	for _, s := range f.All() {
		parts := edit.Split(s.Key)
		name := strings.Join(parts[:len(parts)-1], ".")
		row := keys.row(rowOf(parts[:len(parts)-1]))
		if row == nil {
			continue
		}
		stated[s.Key] = s
		if !slices.Contains(names[row.name], name) {
			names[row.name] = append(names[row.name], name)
		}
	}
	var out []FieldTable
	for i := range keys.tables {
		row := &keys.tables[i]
		if row.name == "bench" || row.name == "checklist" || row.name == "model" {
			continue
		}
		all := names[row.name]
		if len(all) == 0 && !strings.Contains(row.name, "*") && row.name != "objects" {
			all = []string{row.name}
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
	if len(parts) >= 2 && (parts[0] == "volumes" || parts[0] == "paths") {
		parts[1] = "*"
	}
	return strings.Join(parts, ".")
}

// fields are the keys of one table that belong to it as it stands.
func (forms *Forms) fields(row *tableRow, name string, stated map[string]edit.Stated) FieldTable {
	prefix := name + "."
	if name == "" {
		prefix = ""
	}
	out := FieldTable{Name: name, Teach: row.teach}
	selected := ""
	if row.selector != "" {
		selected = stated[prefix+row.selector].Value
	}
	ref := forms.reference[row.name]
	for i, one := range forms.keys.of(row.name) {
		s, stands := stated[prefix+one.name]
		for _, alias := range one.aliases {
			if other, is := stated[prefix+alias]; is {
				s, stands = other, true
			}
		}
		out.Stated = out.Stated || stands
		if one.kind == subtable || !stands && !one.belongs(selected) {
			continue
		}
		field := Field{Key: prefix + one.name, Holds: holding(one), Words: one.words, Stated: stands, Text: s.Value, Needed: one.needed(selected),
			Dimension: one.dimension, Reference: ref.Keys[i]}
		if stands {
			field.Key = s.Key
		}
		switch one.kind {
		case answer:
			field.Words = []string{"true", "false", "unknown", "declared yes", "declared no"}
		case states:
			field.Words = stateNames()
		}
		out.Fields = append(out.Fields, field)
	}
	return out
}

// holding is what a key holds.
func holding(k *key) Holding {
	switch k.kind {
	case number:
		if !strings.HasPrefix(k.example, `"`) {
			return AsWritten
		}
		return AFigure
	case word:
		return OneWord
	case answer:
		return YesOrNo
	case date:
		return ADay
	case text:
		return ALine
	}
	return AsWritten
}

// TOML is what is entered at a field as the file writes it. The error says why it cannot be: more than a line of text.
func (f *Field) TOML(entered string) (string, error) {
	switch {
	case f.Holds == AsWritten, f.Holds == YesOrNo && (entered == "true" || entered == "false"):
		return entered, nil
	case strings.ContainsFunc(entered, unicode.IsControl):
		return "", fmt.Errorf("%s: is more than a line of plain text", f.Key)
	}
	return line(entered), nil
}
