package edit

import (
	"bytes"
	"strings"

	"puffproof/cmd/puffproof/internal/toml"
)

// add writes a key that does not stand yet; t is its table, nil where that does not stand
// either.
func (f *File) add(key, name, value string, t *toml.Table) {
	line := written(name) + " = " + value
	if t == nil {
		f.addTable(key, line)
		return
	}
	if f.braced(t) {
		at := f.endOfList(f.opening(t)) - 1
		text := line + " "
		if len(t.Entries) > 0 {
			_, at = f.span(t.Entries[len(t.Entries)-1])
			text = ", " + line
		}
		f.replace(at, at, text)
		return
	}
	if last := f.lastOf(t); last != nil {
		start := f.startOfLine(last.Offset)
		_, end := f.span(last)
		f.insert(f.endOfLine(end), string(f.data[start:last.Offset])+line) // with its indent, and the names before a dotted key
		return
	}
	if t == f.root {
		f.insert(f.firstHeader(), line)
		return
	}
	if f.hasHeader(t) {
		f.insert(f.endOfLine(t.Offset), line)
		return
	}
	f.addTable(key, line)
}

// lastOf is the last key of a table that stands as a line of its own; nil: none.
func (f *File) lastOf(t *toml.Table) *toml.Entry {
	for i := len(t.Entries) - 1; i >= 0; i-- {
		e := t.Entries[i]
		if e.Value.Kind == toml.IsTables || e.Value.Kind == toml.IsTable && !f.inline(e) {
			continue
		}
		if line := f.data[f.startOfLine(e.Offset):e.Offset]; bytes.IndexByte(line, '{') < 0 {
			return e
		}
	}
	return nil
}

// hasHeader tells that a table is opened by a line [name] or [[name]].
func (f *File) hasHeader(t *toml.Table) bool {
	if t == f.root {
		return false
	}
	line := bytes.TrimLeft(f.data[f.startOfLine(t.Offset):], " \t")
	return len(line) > 0 && line[0] == '['
}

// braced tells that a table is written within braces.
func (f *File) braced(t *toml.Table) bool {
	at := f.opening(t)
	return at < len(f.data) && f.data[at] == '{'
}

// opening is where the value of a table would begin that is written as one.
func (f *File) opening(t *toml.Table) int {
	if t == f.root || f.hasHeader(t) {
		return len(f.data)
	}
	if f.data[t.Offset] == '{' {
		return t.Offset
	}
	return f.behindKey(t.Offset)
}

// firstHeader is where the first line of a table begins; the end of the file where there is none.
func (f *File) firstHeader() int {
	first := len(f.data)
	for _, e := range f.root.Entries {
		if (e.Value.Kind == toml.IsTable || e.Value.Kind == toml.IsTables) && !f.inline(e) {
			first = min(first, f.startOfLine(e.Offset))
		}
	}
	return first
}

// addTable opens the table of a key: behind the last of its family, such as [paths.fire] for
// [paths.feed], else at the end of the file.
func (f *File) addTable(key, line string) {
	parts := Split(key)
	parts = parts[:len(parts)-1]
	if outer := f.outer(parts); outer != nil {
		value := "{ " + line + " }"
		f.add("", parts[len(parts)-1], value, outer)
		return
	}
	names := make([]string, len(parts))
	for i, p := range parts {
		names[i] = written(p)
	}
	header := "[" + strings.Join(names, ".") + "]"
	at := len(f.data)
	if len(parts) > 1 {
		at = f.behindFamily(parts[0])
	}
	if at < len(f.data) {
		f.insert(at, header, line, "")
		return
	}
	f.insert(at, "", header, line)
}

// outer is the table within braces that a new one must stand in; nil: none.
func (f *File) outer(parts []string) *toml.Table {
	t := f.root
	for _, p := range parts[:len(parts)-1] {
		if t = f.child(t, p); t == nil {
			return nil
		}
		if f.braced(t) {
			return t
		}
	}
	return nil
}

// behindFamily is where the next header stands behind the last table of a family; the end of the
// file where none does. Comments just above that header belong to it.
func (f *File) behindFamily(name string) int {
	last := -1
	var walk func(t *toml.Table)
	walk = func(t *toml.Table) {
		if f.hasHeader(t) {
			last = max(last, t.Offset)
		}
		for _, e := range t.Entries {
			if e.Value.Kind == toml.IsTable && !f.inline(e) {
				walk(e.Value.Table)
			}
		}
	}
	if e := f.root.Get(name); e != nil && e.Value.Kind == toml.IsTable {
		walk(e.Value.Table)
	}
	if last < 0 {
		return len(f.data)
	}
	next := len(f.data)
	consider := func(t *toml.Table) {
		if f.hasHeader(t) && t.Offset > last {
			next = min(next, f.startOfLine(t.Offset))
		}
	}
	for _, e := range f.root.Entries {
		switch e.Value.Kind {
		case toml.IsTable:
			f.eachTable(e.Value.Table, consider)
		case toml.IsTables:
			for _, item := range e.Value.Items {
				f.eachTable(item.Table, consider)
			}
		}
	}
	if next == len(f.data) {
		return next
	}
	for next > 0 { // comments above a header are about it
		above := f.startOfLine(next - 1)
		if line := bytes.TrimLeft(f.data[above:next], " \t"); line[0] != '#' || above <= last {
			break
		}
		next = above
	}
	return next
}

// eachTable visits a table and those within it.
func (f *File) eachTable(t *toml.Table, visit func(*toml.Table)) {
	visit(t)
	for _, e := range t.Entries {
		if e.Value.Kind == toml.IsTable {
			f.eachTable(e.Value.Table, visit)
		}
	}
}
