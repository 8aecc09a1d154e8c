// Package edit changes a design file and leaves all else in it as it stands: it puts the
// bytes of single values in the place of others, adds keys and tables, and keeps comments,
// blanks, line ends and order. It knows TOML, not what a key means.
//
// Start reading at File.Set.
package edit

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/toml"
)

var byteOrderMark = []byte("\xef\xbb\xbf")

// File is a TOML file under change.
type File struct {
	mark bool // a byte order mark stands before it
	data []byte
	root *toml.Table
}

// Open takes the bytes of a TOML file. The error says that it is none.
func Open(data []byte) (*File, error) {
	f := &File{mark: bytes.HasPrefix(data, byteOrderMark), data: slices.Clone(bytes.TrimPrefix(data, byteOrderMark))}
	return f, f.read()
}

// Bytes gives the file as it stands now.
func (f *File) Bytes() []byte {
	if f.mark {
		return slices.Concat(byteOrderMark, f.data)
	}
	return slices.Clone(f.data)
}

// read makes the tree anew: every change moves what stands behind it.
func (f *File) read() error {
	again := func(string, string) (problem.Problem, bool) { return problem.Problem{}, false }
	t := toml.Read("the design", f.data, again)
	if !t.Sound() {
		return fmt.Errorf("%s", t.Problems()[0])
	}
	f.root = t.Root
	return nil
}

// Value gives the text of the value of a dotted key, as it stands in the file; false where there
// is none. A table of a list is named as messages name it: gauge[2].range.
func (f *File) Value(key string) (string, bool) {
	t, name := f.within(key)
	e := t.Get(name)
	if e == nil || e.Value.Kind == toml.IsTables || e.Value.Kind == toml.IsTable && !f.inline(e) {
		return "", false
	}
	from, to := f.span(e)
	return string(f.data[from:to]), true
}

// Has tells whether a key or a table of that name stands: by its dotted name, or by the last part of a table's.
func (f *File) Has(name string) bool {
	if t, last := f.within(name); t.Get(last) != nil {
		return true
	}
	for _, family := range f.root.Entries {
		if family.Value.Kind == toml.IsTable {
			if e := family.Value.Table.Get(name); e != nil && e.Value.Kind == toml.IsTable {
				return true
			}
		}
	}
	return false
}

// Names are the tables and keys that stand, by the names that Has takes.
func (f *File) Names() (out []string) {
	var list func(t *toml.Table, before string)
	list = func(t *toml.Table, before string) {
		for _, e := range t.Entries {
			out = append(out, before+e.Name)
			if e.Value.Kind == toml.IsTable {
				if before != "" {
					out = append(out, e.Name)
				}
				list(e.Value.Table, before+e.Name+".")
			}
		}
	}
	list(f.root, "")
	return out
}

// Set gives a dotted key a value, written as TOML. Where the key stands only the bytes of its
// value change; else it is added at the end of its table, and the table where it is missing.
// The error says why the file would no longer be TOML; it then stays as it was.
func (f *File) Set(key, value string) error {
	before := f.data
	t, name := f.within(key)
	if e := t.Get(name); e != nil {
		if e.Value.Kind == toml.IsTables || e.Value.Kind == toml.IsTable && !f.inline(e) {
			return fmt.Errorf("%s is a table", key)
		}
		from, to := f.span(e)
		f.replace(from, to, value)
	} else {
		f.add(key, name, value, t)
	}
	if err := f.read(); err != nil {
		f.data = before
		return fmt.Errorf("%s = %s: %w", key, value, err)
	}
	return nil
}

// Remove takes a key away with its line; what stands behind it on the line goes with it. It
// does nothing where the key does not stand.
func (f *File) Remove(key string) error {
	before := f.data
	t, name := f.within(key)
	e := t.Get(name)
	if e == nil {
		return nil
	}
	from := f.startOfLine(e.Offset)
	_, to := f.span(e)
	if rest := bytes.TrimLeft(f.data[to:], " \t"); len(rest) > 0 && (rest[0] == ',' || rest[0] == '}') {
		return fmt.Errorf("%s stands in a table within a line", key)
	}
	f.replace(from, f.endOfLine(to), "")
	if err := f.read(); err != nil {
		f.data = before
		return err
	}
	return nil
}

// within finds the table that a dotted key belongs to; nil where there is none.
func (f *File) within(key string) (t *toml.Table, name string) {
	parts := Split(key)
	t = f.root
	for _, p := range parts[:len(parts)-1] {
		t = f.child(t, p)
	}
	return t, parts[len(parts)-1]
}

// child is a table within another: by its name, or of a list by its number, counted from 1.
func (f *File) child(t *toml.Table, part string) *toml.Table {
	name, n := part, 1
	if at := strings.IndexByte(part, '['); at > 0 {
		name = part[:at]
		if _, err := fmt.Sscanf(part[at:], "[%d]", &n); err != nil || n < 1 {
			return nil
		}
	}
	e := t.Get(name)
	switch {
	case e == nil:
		return nil
	case e.Value.Kind == toml.IsTable && name == part:
		return e.Value.Table
	case (e.Value.Kind == toml.IsTables || e.Value.Kind == toml.IsArray) && n <= len(e.Value.Items):
		return e.Value.Items[n-1].Table
	}
	return nil
}

// Split gives the parts of a dotted key; a part in quotes may have dots.
func Split(key string) []string {
	var parts []string
	quoted, part := false, ""
	for _, r := range key {
		switch {
		case r == '"':
			quoted = !quoted
		case r == '.' && !quoted:
			parts, part = append(parts, part), ""
		default:
			part += string(r)
		}
	}
	return append(parts, part)
}

var bare = regexp.MustCompile(`^[A-Za-z0-9_-]+$`)

// written is a part of a key as TOML writes it.
func written(part string) string {
	if bare.MatchString(part) {
		return part
	}
	return `"` + part + `"`
}

// replace puts text in the place of some bytes.
func (f *File) replace(from, to int, text string) {
	f.data = slices.Concat(f.data[:from], []byte(text), f.data[to:])
}
