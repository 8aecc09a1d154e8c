package toml

import (
	"fmt"

	"puffproof/cmd/puffproof/internal/problem"
)

// Kind is the type of a TOML value.
type Kind uint8

const (
	IsString Kind = iota
	IsNumber
	IsBool
	IsDate
	IsArray
	IsTable  // written with [...] or inline
	IsTables // an array of tables written with [[...]]
)

func (k Kind) String() string {
	return [...]string{"text", "a bare number", "true or false", "a date or time", "a list", "a table", "a list of tables"}[k]
}

// Value is one TOML value with its place.
type Value struct {
	Kind   Kind
	Text   string // decoded string, or the raw text of a number, bool or date
	Plain  bool   // text stands in the file byte for byte, from Offset+1 on
	Items  []*Value
	Table  *Table
	Offset int
}

// Show gives the value as it can stand in a message.
func (v *Value) Show() string {
	switch v.Kind {
	case IsArray, IsTable, IsTables:
		return v.Kind.String()
	}
	return v.Text
}

// Entry is one key of a table.
type Entry struct {
	Name   string
	Offset int // of the key
	Value  *Value
}

// Table is one TOML table with its keys in the order of the file.
type Table struct {
	path    string // dotted
	Offset  int
	defined bool // by a [header] or as an inline table
	inline  bool
	Entries []*Entry
	index   map[string]*Entry
}

func newTable(path string, offset int) *Table {
	return &Table{path: path, Offset: offset, index: map[string]*Entry{}}
}

// dotted gives the full name of a key of this table.
func (t *Table) dotted(name string) string {
	if t.path == "" {
		return name
	}
	return t.path + "." + name
}

// Get gives a key of the table; nil where it does not stand, or where there is no table.
func (t *Table) Get(name string) *Entry {
	if t == nil {
		return nil
	}
	return t.index[name]
}

// put adds a key; a second one of the same name is a fault and is left out.
func (f *File) put(t *Table, e *Entry) {
	if old := t.index[e.Name]; old != nil {
		f.Fault(e.Offset, problem.Problem{Key: t.dotted(e.Name), Message: fmt.Sprintf("written twice; first in line %d", f.Line(old.Offset)),
			Found: e.Name, Want: "each key once"})
		return
	}
	t.Entries = append(t.Entries, e)
	t.index[e.Name] = e
}

// part is one part of a dotted key with its place.
type part struct {
	name   string
	offset int
}

// descend finds or makes the table that a part of a dotted key names. It gives
// nil, with a fault, where the name holds a value already.
func (f *File) descend(t *Table, p part) *Table {
	e := t.index[p.name]
	if e == nil {
		child := newTable(t.dotted(p.name), p.offset)
		f.put(t, &Entry{p.name, p.offset, &Value{Kind: IsTable, Table: child, Offset: p.offset}})
		return child
	}
	switch {
	case e.Value.Kind == IsTable && !e.Value.Table.inline:
		return e.Value.Table
	case e.Value.Kind == IsTables:
		return e.Value.Items[len(e.Value.Items)-1].Table
	}
	f.Fault(p.offset, problem.Problem{Key: t.dotted(p.name), Found: p.name,
		Message: fmt.Sprintf("already has a value in line %d and cannot get more keys", f.Line(e.Offset)), Want: "each table in one place"})
	return nil
}

// header opens the table of a [header].
func (f *File) header(parts []part) *Table {
	t := f.Root
	for _, p := range parts {
		if t = f.descend(t, p); t == nil {
			return newTable(p.name, p.offset)
		}
	}
	last := parts[len(parts)-1]
	if t.defined {
		p, one := f.again(t.path, "["+t.path+"]")
		if !one {
			p = problem.Problem{Key: t.path, Found: last.name, Want: "each table once",
				Message: fmt.Sprintf("table is written twice; first in line %d", f.Line(t.Offset))}
		}
		f.Fault(last.offset, p)
		return newTable(t.path, last.offset)
	}
	t.defined, t.Offset = true, last.offset
	return t
}

// arrayHeader opens a new table of a [[header]].
func (f *File) arrayHeader(parts []part) *Table {
	t := f.Root
	for _, p := range parts[:len(parts)-1] {
		if t = f.descend(t, p); t == nil {
			return newTable(p.name, p.offset)
		}
	}
	last := parts[len(parts)-1]
	child := newTable(t.dotted(last.name), last.offset)
	child.defined = true
	item := &Value{Kind: IsTable, Table: child, Offset: last.offset}
	if e := t.index[last.name]; e == nil {
		f.put(t, &Entry{last.name, last.offset, &Value{Kind: IsTables, Items: []*Value{item}, Offset: last.offset}})
	} else if e.Value.Kind == IsTables {
		e.Value.Items = append(e.Value.Items, item)
	} else if p, one := f.again(t.dotted(last.name), "[["+last.name+"]]"); one {
		f.Fault(last.offset, p)
	} else {
		f.Fault(last.offset, problem.Problem{Key: t.dotted(last.name), Found: last.name, Want: "each table in one place",
			Message: fmt.Sprintf("is already something else in line %d", f.Line(e.Offset))})
	}
	return child
}
