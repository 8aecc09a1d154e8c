package design

import (
	"regexp"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/cmd/puffproof/internal/unit"
)

// A file describes one barrel, one projectile, one supply and one pressure switch. What says that there are more is
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

// severalSupplies is the problem of a second supply.
func severalSupplies(found string) Problem {
	return Problem{Key: "supply", Message: "a file describes one supply", Found: found, Want: "one [supply] that does what they do together",
		Hint: "two are judged as one with the sum of both free_air and the higher dead_head, on the volume nearer the barrel: the stricter " +
			"side; its kind is \"regulated cylinder\" or \"shop air\" where one of them is that, with its source_pressure, else \"compressor\" " +
			"where a motor drives one"}
}

// severalSwitches is the problem of a second pressure switch.
func severalSwitches(found string) Problem {
	return Problem{Key: "pressure_switch", Message: "a file describes one pressure switch", Found: found,
		Want: "one [pressure_switch], that which stops the supply in normal use",
		Hint: "leave a second one that only cuts off at a high limit out: the first one welded is then judged up to the relief valve's full " +
			"flow or the dead head, which is the stricter side; what must hold at a fault is a relief valve"}
}

// severalGauges is the problem of gauges that are told apart otherwise than the file does it.
func severalGauges(found string) Problem {
	return Problem{Key: "gauge", Message: "several gauges are written otherwise", Found: found,
		Want: "[[gauge]] in double brackets above each of them",
		Hint: "each says by on = the volume that it reads, such as \"tank\" or \"dose\", and has its own range and class"}
}

// only are the tables of which a further one is a problem, and which.
func only() map[string]func(found string) Problem {
	return map[string]func(string) Problem{"barrel": severalBarrels, "projectile": severalProjectiles, "supply": severalSupplies,
		"pressure_switch": severalSwitches, "gauge": severalGauges}
}

// numbered is what follows the name of the one table in that of a further one: 2, _left, b.
var numbered = regexp.MustCompile(`^(_.*|[0-9]+|[a-r])$`)

// another gives the problem of a top-level table that describes a second of what a file has one of,
// such as [barrel2], [barrels.left] or [[supply]]; false where it does not.
func (r *reader) another(root *toml.Table, e *toml.Entry) (Problem, bool) {
	for _, name := range [...]string{"barrel", "projectile", "supply", "pressure_switch", "gauge"} {
		problem := only()[name]
		row := r.keys.Row(name)
		if e.Name == name {
			if e.Value.Kind == toml.IsTables && len(e.Value.Items) > 1 && !row.List {
				return problem("[[" + e.Name + "]]"), true
			}
			continue
		}
		f := unit.Fold(e.Name)
		rest, begins := strings.CutPrefix(f, name)
		switch plural := strings.TrimSuffix(f, "s"); {
		case begins && numbered.MatchString(rest):
		case plural == name && severalTables(e.Value):
		case e.Value.Kind == toml.IsTable && root.Get(name) != nil &&
			(slices.Contains(row.Synonyms, f) || slices.Contains(row.Synonyms, plural)):
		default:
			continue
		}
		return problem("[" + e.Name + "]"), true
	}
	return Problem{}, false
}

// anotherIn gives the problem of a table inside one of those, such as
// [barrel.left]; false where it is something else.
func anotherIn(table string, e *toml.Entry) (Problem, bool) {
	problem := only()[table]
	if problem == nil || e.Value.Kind != toml.IsTable && e.Value.Kind != toml.IsTables {
		return Problem{}, false
	}
	return problem("[" + table + "." + e.Name + "]"), true
}

// writtenAgain gives the problem of a table that stands twice, for a table that a
// file has one of; false for others.
func writtenAgain(table, found string) (Problem, bool) {
	problem := only()[table]
	if problem == nil {
		return Problem{}, false
	}
	return problem(found), true
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
