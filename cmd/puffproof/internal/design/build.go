package design

import (
	"fmt"
	"regexp"

	"puffproof/limits/launcher"
)

// The most parts that a design may have; a launcher has far fewer.
const (
	mostVolumes = 12
	mostPaths   = 40
)

// partName is what volumes and paths may be called.
var partName = regexp.MustCompile(`^[A-Za-z0-9_-]{1,40}$`)

// launcher fills a launcher from the tree. It goes on behind faults, so that all
// of them are found; the launcher is of use only where there was none.
func (r *reader) launcher(root *table) *launcher.Launcher {
	l := &launcher.Launcher{}
	r.unknownTables(root)
	top := r.section("", "", root, 0, "")
	l.Name, l.Revision, l.Description = top.texts["name"], top.texts["revision"], top.texts["description"]
	l.Owner, l.InCharge = top.texts["owner"], top.texts["adult_in_charge"]
	l.Ambient = r.ambientSpec(root)
	r.ambient = l.Ambient.Pressure
	l.Gas = r.gas(root)
	l.Volumes = r.volumes(root)
	l.Paths = r.paths(root)
	l.Supply = r.supply(root)
	l.Gauges = r.gauges(root)
	l.Switch = r.pressureSwitch(root, l.Gauges)
	r.barrelAndProjectile(root, l)
	r.eventAndMount(root, l)
	r.rules(root, l)
	l.Objects = r.objects(root)
	l.Checklist = r.checklist(root)
	if !r.partial {
		r.crossChecks(l)
	}
	r.bench(root, l)
	return l
}

// unknownTables reports top-level names that no row of the key table has.
func (r *reader) unknownTables(root *table) {
	for _, e := range root.entries {
		if r.keys.index[""][e.name] != nil {
			continue
		}
		if p, ok := r.another(root, e); ok {
			r.fault(e.offset, p)
			continue
		}
		row := r.keys.row(e.name)
		if row == nil {
			row = r.keys.row(e.name + ".*")
		}
		switch {
		case row == nil || row.name == "":
			what := "unknown table"
			if e.value.kind != isTable && e.value.kind != isTables {
				what = "unknown key"
			}
			r.fault(e.offset, Problem{Key: e.name, Message: what, Found: e.name,
				Want: "ambient, gas, volumes, paths, supply, barrel, projectile and others", Hint: r.keys.suggestTable(e.name)})
		case e.value.kind == isTable || row.list && r.isTableList(e.value):
		case e.value.kind == isTables:
			r.fault(e.offset, Problem{Key: e.name, Message: "is a list of tables", Want: "one table: [" + shownTable(row.name) + "]"})
		default:
			r.fault(e.value.offset, Problem{Key: e.name, Message: "is not a table", Found: e.value.show(),
				Want: "a table: [" + shownTable(row.name) + "]"})
		}
	}
	if r.partial {
		return
	}
	for i := range r.keys.tables {
		row := &r.keys.tables[i]
		if row.required && row.name != "" && root.get(topName(row)) == nil {
			r.fault(len(r.data), Problem{Key: topName(row), Message: "missing", Want: "a table [" + shownTable(row.name) + "]",
				Hint: firstSentence(row.teach)})
		}
	}
}

// isTableList tells whether a value is [[name]] or an inline list of tables.
func (r *reader) isTableList(v *value) bool {
	if v.kind != isTables && v.kind != isArray {
		return false
	}
	for _, item := range v.items {
		if item.kind != isTable {
			return false
		}
	}
	return true
}

func topName(row *tableRow) string {
	if n := len(row.name); n > 2 && row.name[n-2:] == ".*" {
		return row.name[:n-2]
	}
	return row.name
}

// single reads a table that stands at most once; nil where it does not stand.
func (r *reader) single(root *table, name, selected string) *section {
	e := root.get(name)
	if e == nil || e.value.kind != isTable {
		return nil
	}
	return r.section(name, name, e.value.table, e.value.table.offset, selected)
}

// named reads each table of a family, such as [volumes.NAME].
func (r *reader) named(root *table, family string, most int) []*section {
	e := root.get(family)
	if e == nil || e.value.kind != isTable {
		return nil
	}
	var list []*section
	entries := e.value.table.entries
	for _, one := range entries {
		path := family + "." + one.name
		switch {
		case one.value.kind != isTable:
			r.fault(one.offset, Problem{Key: path, Message: "is not a table", Found: one.value.show(),
				Want: "[" + family + ".NAME] with its keys below",
				Hint: r.familyHint(family, one.name)})
		case !partName.MatchString(one.name):
			r.fault(one.offset, Problem{Key: family, Message: "is no name for a part", Found: one.name, Want: "1 to 40 letters, digits, _ or -"})
		case one.name == "barrel" || one.name == "atmosphere":
			r.fault(one.offset, Problem{Key: path, Message: "has a name that is taken", Found: one.name, Want: "a name of your own"})
		default:
			list = append(list, r.section(family+".*", path, one.value.table, one.value.table.offset, ""))
		}
	}
	if len(entries) > most {
		r.fault(entries[most].offset, Problem{Key: family, Message: fmt.Sprintf("has %d entries", len(entries)), Want: fmt.Sprintf("at most %d",
			most)})
	}
	if len(entries) == 0 {
		r.fault(e.offset, Problem{Key: family, Message: "is empty", Want: "[" + family + ".NAME]"})
	}
	return list
}

// familyHint helps who wrote [volumes] volume = ... without a name.
func (r *reader) familyHint(family, name string) string {
	if r.keys.index[family+".*"][name] != nil {
		return "give the part a name: [" + family + ".dose]"
	}
	return ""
}

// tables reads [name] or each [[name]].
func (r *reader) tables(root *table, name string) []*section {
	e := root.get(name)
	if e == nil {
		return nil
	}
	if e.value.kind == isTable {
		return []*section{r.section(name, name, e.value.table, e.value.table.offset, "")}
	}
	var list []*section
	if r.isTableList(e.value) {
		for i, item := range e.value.items {
			list = append(list, r.section(name, fmt.Sprintf("%s[%d]", name, i+1), item.table, item.table.offset, ""))
		}
	}
	return list
}
