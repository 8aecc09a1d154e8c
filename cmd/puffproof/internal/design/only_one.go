package design

import (
	"regexp"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/cmd/puffproof/internal/unit"
)

// A file describes one barrel and one projectile. What says that there are more is
// refused with the way to judge them, not with the name of the one.

// severalBarrels is the problem of a second barrel.
func severalBarrels(found string) Problem {
	return Problem{Key: "barrel", Message: "a file describes one barrel", Found: found, Want: "one [barrel], and a file for each further one",
		Hint: "judge each barrel by a file of its own, in which the valves of the others stay shut: all the air then goes into the one, " +
			"which is the stricter side; do not lead several valves into this one instead"}
}

// severalProjectiles is the problem of a second projectile.
func severalProjectiles(found string) Problem {
	return Problem{Key: "projectile", Message: "a file describes one kind of projectile", Found: found,
		Want: "one [projectile], and a file for each further kind",
		Hint: "judge each kind by a file of its own, and let the checklist keep them apart"}
}

// numbered is what follows the name of the one table in that of a further one: 2, _left, b.
var numbered = regexp.MustCompile(`^(_.*|[0-9]+|[a-r])$`)

// another gives the problem of a top-level table that describes a second barrel or
// projectile, such as [barrel2], [barrels.left] or [[barrel]]; false where it does not.
func (r *reader) another(root *toml.Table, e *toml.Entry) (Problem, bool) {
	for _, one := range []struct {
		name    string
		problem func(string) Problem
	}{{"barrel", severalBarrels}, {"projectile", severalProjectiles}} {
		row := r.keys.row(one.name)
		if e.Name == one.name {
			if e.Value.Kind == toml.IsTables && len(e.Value.Items) > 1 {
				return one.problem("[[" + e.Name + "]]"), true
			}
			continue
		}
		f := unit.Fold(e.Name)
		rest, begins := strings.CutPrefix(f, one.name)
		switch plural := strings.TrimSuffix(f, "s"); {
		case begins && numbered.MatchString(rest):
		case plural == one.name && severalTables(e.Value):
		case e.Value.Kind == toml.IsTable && root.Get(one.name) != nil &&
			(slices.Contains(row.synonyms, f) || slices.Contains(row.synonyms, plural)):
		default:
			continue
		}
		return one.problem("[" + e.Name + "]"), true
	}
	return Problem{}, false
}

// anotherIn gives the problem of a table inside [barrel] or [projectile], such as
// [barrel.left]; false where it is something else.
func anotherIn(table string, e *toml.Entry) (Problem, bool) {
	switch {
	case e.Value.Kind != toml.IsTable && e.Value.Kind != toml.IsTables:
	case table == "barrel":
		return severalBarrels("[barrel." + e.Name + "]"), true
	case table == "projectile":
		return severalProjectiles("[projectile." + e.Name + "]"), true
	}
	return Problem{}, false
}

// writtenAgain gives the problem of a table that stands twice, for a table that a
// file has one of; false for others.
func writtenAgain(table, found string) (Problem, bool) {
	switch table {
	case "barrel":
		return severalBarrels(found), true
	case "projectile":
		return severalProjectiles(found), true
	}
	return Problem{}, false
}

// severalTables tells whether a value holds tables rather than keys.
func severalTables(v *toml.Value) bool {
	if v.Kind != toml.IsTable {
		return v.Kind == toml.IsTables
	}
	return group(v.Table)
}

// group tells whether a table holds further tables only.
func group(t *toml.Table) bool {
	return len(t.Entries) > 0 && !slices.ContainsFunc(t.Entries, func(e *toml.Entry) bool { return e.Value.Kind != toml.IsTable })
}
