package edit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/toml"
)

// Stated is one key of a file with its value.
type Stated struct {
	Key    string // dotted; a table of a list of several is gauge[2].range
	Value  string // as it is written; a text without its quotes
	offset int
}

// All lists every key of the file that has a value, in the order of the file.
func (f *File) All() []Stated {
	out := f.below("", f.root)
	slices.SortStableFunc(out, func(a, b Stated) int { return cmp.Compare(a.offset, b.offset) })
	return out
}

// below lists what stands in a table of a dotted name.
func (f *File) below(prefix string, t *toml.Table) (out []Stated) {
	for _, e := range t.Entries {
		name := prefix + quotedPart(e.Name)
		switch {
		case e.Value.Kind == toml.IsTable:
			out = append(out, f.below(name+".", e.Value.Table)...)
		case e.Value.Kind == toml.IsTables || e.Value.Kind == toml.IsArray && ofTables(e.Value.Items):
			for i, item := range e.Value.Items {
				one := name
				if len(e.Value.Items) > 1 { // a list of one says the same as a table
					one = fmt.Sprintf("%s[%d]", name, i+1)
				}
				out = append(out, f.below(one+".", item.Table)...)
			}
		default:
			out = append(out, Stated{name, f.written(e), e.Offset})
		}
	}
	return out
}

// ofTables tells that a list holds tables, and nothing else.
func ofTables(items []*toml.Value) bool {
	return len(items) > 0 && !slices.ContainsFunc(items, func(v *toml.Value) bool { return v.Kind != toml.IsTable })
}

// written is the value of a key: of a text what it says, of all else the bytes of the file.
func (f *File) written(e *toml.Entry) string {
	if e.Value.Kind == toml.IsString {
		return e.Value.Text
	}
	from, to := f.span(e)
	return string(f.data[from:to])
}

// quotedPart is a part of a dotted key, in quotes where it has a dot.
func quotedPart(name string) string {
	if strings.Contains(name, ".") {
		return `"` + name + `"`
	}
	return name
}
