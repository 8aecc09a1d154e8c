package design

import (
	"fmt"
	"regexp"

	"puffproof/cmd/puffproof/internal/toml"
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
func (r *reader) launcher(root *toml.Table) *launcher.Launcher {
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
	if !r.Partial {
		r.crossChecks(l)
	}
	r.bench(root, l)
	return l
}

// unknownTables reports top-level names that no row of the key table has.
func (r *reader) unknownTables(root *toml.Table) {
	for _, e := range root.Entries {
		if r.keys.index[""][e.Name] != nil {
			continue
		}
		if p, ok := r.another(root, e); ok {
			r.Fault(e.Offset, p)
			continue
		}
		row := r.keys.row(e.Name)
		if row == nil {
			row = r.keys.row(e.Name + ".*")
		}
		switch {
		case row == nil || row.name == "":
			what := "unknown table"
			if e.Value.Kind != toml.IsTable && e.Value.Kind != toml.IsTables {
				what = "unknown key"
			}
			r.Fault(e.Offset, Problem{Key: e.Name, Message: what, Found: e.Name,
				Want: "ambient, gas, volumes, paths, supply, barrel, projectile and others", Hint: r.keys.suggestTable(e.Name)})
		case e.Value.Kind == toml.IsTable || row.list && r.isTableList(e.Value):
		case e.Value.Kind == toml.IsTables:
			r.Fault(e.Offset, Problem{Key: e.Name, Message: "is a list of tables", Want: "one table: [" + shownTable(row.name) + "]"})
		default:
			r.Fault(e.Value.Offset, Problem{Key: e.Name, Message: "is not a table", Found: e.Value.Show(),
				Want: "a table: [" + shownTable(row.name) + "]"})
		}
	}
	if r.Partial {
		return
	}
	for i := range r.keys.tables {
		row := &r.keys.tables[i]
		if row.required && row.name != "" && root.Get(topName(row)) == nil {
			r.Fault(r.End(), Problem{Key: topName(row), Message: "missing", Want: "a table [" + shownTable(row.name) + "]",
				Hint: firstSentence(row.teach)})
		}
	}
}

// isTableList tells whether a value is [[name]] or an inline list of tables.
func (r *reader) isTableList(v *toml.Value) bool {
	if v.Kind != toml.IsTables && v.Kind != toml.IsArray {
		return false
	}
	for _, item := range v.Items {
		if item.Kind != toml.IsTable {
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
		r.Fault(entries[most].Offset, Problem{Key: family, Message: fmt.Sprintf("has %d entries", len(entries)), Want: fmt.Sprintf("at most %d",
			most)})
	}
	if len(entries) == 0 {
		r.Fault(e.Offset, Problem{Key: family, Message: "is empty", Want: "[" + family + ".NAME]"})
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
func (r *reader) tables(root *toml.Table, name string) []*section {
	e := root.Get(name)
	if e == nil {
		return nil
	}
	if e.Value.Kind == toml.IsTable {
		return []*section{r.section(name, name, e.Value.Table, e.Value.Table.Offset, "")}
	}
	var list []*section
	if r.isTableList(e.Value) {
		for i, item := range e.Value.Items {
			list = append(list, r.section(name, fmt.Sprintf("%s[%d]", name, i+1), item.Table, item.Table.Offset, ""))
		}
	}
	return list
}
