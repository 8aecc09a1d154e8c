package design

import "fmt"

// valueKind is the type of a TOML value.
type valueKind uint8

const (
	isString valueKind = iota
	isNumber
	isBool
	isDate
	isArray
	isTable
	isTables // an array of tables written with [[...]]
)

func (k valueKind) String() string {
	return [...]string{"text", "a bare number", "true or false", "a date or time", "a list", "a table", "a list of tables"}[k]
}

// value is one TOML value with its place.
type value struct {
	kind   valueKind
	text   string // decoded string, or the raw text of a number, bool or date
	plain  bool   // text stands in the file byte for byte, from offset+1 on
	items  []*value
	table  *table
	offset int
}

// show gives the value as it can stand in a message.
func (v *value) show() string {
	switch v.kind {
	case isArray, isTable, isTables:
		return v.kind.String()
	}
	return v.text
}

// entry is one key of a table.
type entry struct {
	name   string
	offset int // of the key
	value  *value
}

// table is one TOML table with its keys in the order of the file.
type table struct {
	path    string // dotted
	offset  int
	defined bool // by a [header] or as an inline table
	inline  bool
	entries []*entry
	index   map[string]*entry
}

func newTable(path string, offset int) *table {
	return &table{path: path, offset: offset, index: map[string]*entry{}}
}

// dotted gives the full name of a key of this table.
func (t *table) dotted(name string) string {
	if t.path == "" {
		return name
	}
	return t.path + "." + name
}

func (t *table) get(name string) *entry {
	if t == nil {
		return nil
	}
	return t.index[name]
}

// put adds a key; a second one of the same name is a fault and is left out.
func (r *reader) put(t *table, e *entry) {
	if old := t.index[e.name]; old != nil {
		r.fault(e.offset, Problem{Key: t.dotted(e.name), Message: fmt.Sprintf("written twice; first in line %d", r.line(old.offset)),
			Found: e.name, Want: "each key once"})
		return
	}
	t.entries = append(t.entries, e)
	t.index[e.name] = e
}

// part is one part of a dotted key with its place.
type part struct {
	name   string
	offset int
}

// descend finds or makes the table that a part of a dotted key names. It gives
// nil, with a fault, where the name holds a value already.
func (r *reader) descend(t *table, p part) *table {
	e := t.index[p.name]
	if e == nil {
		child := newTable(t.dotted(p.name), p.offset)
		r.put(t, &entry{p.name, p.offset, &value{kind: isTable, table: child, offset: p.offset}})
		return child
	}
	switch {
	case e.value.kind == isTable && !e.value.table.inline:
		return e.value.table
	case e.value.kind == isTables:
		return e.value.items[len(e.value.items)-1].table
	}
	r.fault(p.offset, Problem{Key: t.dotted(p.name), Found: p.name,
		Message: fmt.Sprintf("already has a value in line %d and cannot get more keys", r.line(e.offset)), Want: "each table in one place"})
	return nil
}

// header opens the table of a [header].
func (r *reader) header(root *table, parts []part) *table {
	t := root
	for _, p := range parts {
		if t = r.descend(t, p); t == nil {
			return newTable(p.name, p.offset)
		}
	}
	last := parts[len(parts)-1]
	if t.defined {
		p, one := writtenAgain(t.path, "["+t.path+"]")
		if !one {
			p = Problem{Key: t.path, Found: last.name, Want: "each table once",
				Message: fmt.Sprintf("table is written twice; first in line %d", r.line(t.offset))}
		}
		r.fault(last.offset, p)
		return newTable(t.path, last.offset)
	}
	t.defined, t.offset = true, last.offset
	return t
}

// arrayHeader opens a new table of a [[header]].
func (r *reader) arrayHeader(root *table, parts []part) *table {
	t := root
	for _, p := range parts[:len(parts)-1] {
		if t = r.descend(t, p); t == nil {
			return newTable(p.name, p.offset)
		}
	}
	last := parts[len(parts)-1]
	child := newTable(t.dotted(last.name), last.offset)
	child.defined = true
	item := &value{kind: isTable, table: child, offset: last.offset}
	if e := t.index[last.name]; e == nil {
		r.put(t, &entry{last.name, last.offset, &value{kind: isTables, items: []*value{item}, offset: last.offset}})
	} else if e.value.kind == isTables {
		e.value.items = append(e.value.items, item)
	} else if p, one := writtenAgain(t.dotted(last.name), "[["+last.name+"]]"); one {
		r.fault(last.offset, p)
	} else {
		r.fault(last.offset, Problem{Key: t.dotted(last.name), Found: last.name, Want: "each table in one place",
			Message: fmt.Sprintf("is already something else in line %d", r.line(e.offset))})
	}
	return child
}
