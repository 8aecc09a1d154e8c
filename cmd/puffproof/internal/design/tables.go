package design

import (
	"fmt"
	"regexp"
	"slices"

	"puffproof/cmd/puffproof/internal/toml"
)

// partName is what volumes and paths may be called.
var partName = regexp.MustCompile(`^[A-Za-z0-9_-]{1,40}$`)

// single reads a table that stands at most once; nil where it does not stand.
func (r *reader) single(root *toml.Table, name, selected string) *section {
	e := root.Get(name)
	if e == nil || e.Value.Kind != toml.IsTable {
		return nil
	}
	return r.section(name, name, e.Value.Table, e.Value.Table.Offset, selected)
}

// named reads each table of a family, such as [volumes.NAME].
func (r *reader) named(root *toml.Table, family string, most int) []*section {
	e := root.Get(family)
	if e == nil || e.Value.Kind != toml.IsTable {
		return nil
	}
	var list []*section
	entries := e.Value.Table.Entries
	for _, one := range entries {
		path := family + "." + one.Name
		switch {
		case one.Value.Kind != toml.IsTable:
			r.Fault(one.Offset, Problem{Key: path, Message: "is not a table", Found: one.Value.Show(),
				Want: "[" + family + ".NAME] with its keys below",
				Hint: r.familyHint(family, one.Name)})
		case !partName.MatchString(one.Name):
			r.Fault(one.Offset, Problem{Key: family, Message: "is no name for a part", Found: one.Name, Want: "1 to 40 letters, digits, _ or -"})
		case one.Name == "barrel" || one.Name == "atmosphere":
			r.Fault(one.Offset, Problem{Key: path, Message: "has a name that is taken", Found: one.Name, Want: "a name of your own"})
		default:
			list = append(list, r.section(family+".*", path, one.Value.Table, one.Value.Table.Offset, ""))
		}
	}
	if len(entries) > most {
		r.bounded(most, len(entries), family, entries[most].Offset)
	}
	if len(entries) == 0 {
		r.Fault(e.Offset, Problem{Key: family, Message: "is empty", Want: "[" + family + ".NAME]"})
	}
	return list
}

// familyHint helps who wrote [volumes] volume = ... without a name.
func (r *reader) familyHint(family, name string) string {
	if r.keys.Index[family+".*"][name] != nil {
		return "give the part a name: [" + family + ".dose]"
	}
	return ""
}

// tables reads [name] or each [[name]].
func (r *reader) tables(root *toml.Table, name string, most int) []*section {
	e := root.Get(name)
	if e == nil {
		return nil
	}
	if e.Value.Kind == toml.IsTable {
		return []*section{r.section(name, name, e.Value.Table, e.Value.Table.Offset, "")}
	}
	var list []*section
	if r.isTableList(e.Value) {
		if n := len(e.Value.Items); n > most {
			r.bounded(most, n, name, e.Value.Items[most].Table.Offset)
		}
		for i, item := range e.Value.Items {
			list = append(list, r.section(name, fmt.Sprintf("%s[%d]", name, i+1), item.Table, item.Table.Offset, ""))
		}
	}
	return list
}

// isTableList tells whether a value is [[name]] or an inline list of tables.
func (r *reader) isTableList(v *toml.Value) bool {
	return (v.Kind == toml.IsTables || v.Kind == toml.IsArray) &&
		!slices.ContainsFunc(v.Items, func(item *toml.Value) bool { return item.Kind != toml.IsTable })
}
