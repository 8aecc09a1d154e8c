package design

import (
	"slices"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/launcher"
)

// launcher fills a launcher from the tree. It goes on behind faults, so that all
// of them are found; the launcher is of use only where there was none.
func (r *reader) launcher(root *toml.Table) *launcher.Launcher {
	l := &launcher.Launcher{}
	r.unknownTables(root)
	top := r.section("", "", root, 0, "")
	l.Name, l.Revision, l.Description = top.texts["name"], top.texts["revision"], top.texts["description"]
	l.Serial = top.texts["serial"]
	l.Owner, l.InCharge = top.texts["owner"], top.texts["adult_in_charge"]
	l.Ambient = r.ambientSpec(root)
	r.ambient = l.Ambient.Pressure
	l.Gas = r.gas(root)
	l.Volumes = r.volumes(root)
	l.Paths = r.paths(root)
	l.Supply = r.supply(root)
	l.Control = r.control(root)
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
	if r.Sound() {
		inOrder(l.InTurn())
	}
	r.bench(root, l)
	l.Narrow, l.TooGood = r.narrow, r.tooGood
	l.Declared, l.Template, l.ToFind = once(r.declared), once(r.template), once(r.toFind)
	return l
}

// once sorts keys and has each of them once.
func once(list []string) []string {
	slices.Sort(list)
	return slices.Compact(list)
}

// unknownTables reports top-level names that no row of the key table has.
func (r *reader) unknownTables(root *toml.Table) {
	for _, e := range root.Entries {
		if r.keys.Index[""][e.Name] != nil {
			continue
		}
		if p, ok := r.another(root, e); ok {
			r.Fault(e.Offset, p)
			continue
		}
		row := r.keys.Row(e.Name)
		if row == nil {
			row = r.keys.Row(e.Name + ".*")
		}
		switch {
		case row == nil || row.Name == "":
			what := "unknown table"
			if e.Value.Kind != toml.IsTable && e.Value.Kind != toml.IsTables {
				what = "unknown key"
			}
			r.Fault(e.Offset, Problem{Key: e.Name, Message: what, Found: e.Name,
				Want: "ambient, gas, volumes, paths, supply, barrel, projectile and others", Hint: r.keys.SuggestTable(e.Name)})
		case e.Value.Kind == toml.IsTable || row.List && r.isTableList(e.Value):
		case e.Value.Kind == toml.IsTables:
			r.Fault(e.Offset, Problem{Key: e.Name, Message: "is a list of tables", Want: "one table: [" + keys.ShownTable(row.Name) + "]"})
		default:
			r.Fault(e.Value.Offset, Problem{Key: e.Name, Message: "is not a table", Found: e.Value.Show(),
				Want: "a table: [" + keys.ShownTable(row.Name) + "]"})
		}
	}
	if r.Partial {
		return
	}
	for i := range r.keys.Tables {
		row := &r.keys.Tables[i]
		if row.Required && row.Name != "" && root.Get(row.TopName()) == nil {
			r.Fault(r.End(), Problem{Key: row.TopName(), Message: "missing", Want: "a table [" + keys.ShownTable(row.Name) + "]",
				Hint: firstSentence(row.Teach)})
		}
	}
}
