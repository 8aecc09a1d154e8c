package inputfile

import (
	"slices"
	"strings"
)

// Instead says of a text that is given as a design and is a sheet or a record of this program what it is, and of a sheet the words that
// read it, name being that of the file and DESIGN standing for the design's; "" it is none of these. Papers know themselves.
func Instead(name, text string) string {
	head := ""
	for line := range strings.Lines(strings.TrimPrefix(text, "\ufeff")) {
		if head = strings.TrimSpace(line); head != "" && head[0] != '#' {
			break
		}
	}
	if strings.HasPrefix(head, `{"n":`) && strings.Contains(head, `"program":`) {
		return "is the record of a commissioning, not a design; name the design beside it: puffproof commission DESIGN goes on with it"
	}
	var columns []string
	for cell := range strings.FieldsFuncSeq(head, func(r rune) bool { return r == ',' || r == ';' || r == '\t' }) {
		before, _, _ := strings.Cut(strings.Trim(cell, ` "`), "[")
		columns = append(columns, strings.ToLower(strings.TrimSpace(before)))
	}
	has := func(names ...string) bool {
		return slices.ContainsFunc(names, func(n string) bool { return slices.Contains(columns, n) })
	}
	pressure := has("pressure", "gauge", "gauge_pressure", "reading")
	switch {
	case len(columns) < 2:
		return ""
	case pressure && has("time", "stopwatch"):
		option := "--log"
		if strings.Contains(text, "leak-down") {
			option = "--leak-log"
		}
		return "is a sheet of gauge readings, not a design; puffproof vent DESIGN " + option + " " + name + " reads it"
	case has("speed", "projectile") && (pressure || has("chronograph_distance")):
		return "is a sheet of measured shots, not a design; puffproof calibrate DESIGN --shots " + name + " reads it"
	}
	return ""
}
