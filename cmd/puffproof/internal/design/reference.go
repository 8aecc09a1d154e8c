package design

import (
	"fmt"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
	"strings"
)

// Reference gives every key of the design file as text of at most 78 columns:
// what it is, how to measure it, what it may be, what is assumed without it.
func Reference() string {
	keys := newKeyTable()
	var b strings.Builder
	fmt.Fprintf(&b, "Keys of the design file, version %s\n", Version)
	para(&b, "", "Default tolerances rest on "+practice+", unless a line says otherwise; they err wide. "+
		"A value's origin picks its default: measured, or any other.")
	for i := range keys.tables {
		row := &keys.tables[i]
		title := "[" + shownTable(row.name) + "]"
		switch {
		case row.name == "":
			title = "At the top of the file"
		case row.name == "paths.*.hose":
			title = "hose = { ... } in [paths.NAME]"
		case row.list:
			title += " or [[" + row.name + "]]"
		}
		fmt.Fprintf(&b, "\n%s\n", title)
		para(&b, "", row.teach)
		for _, k := range keys.of(row.name) {
			referKey(&b, row, k)
		}
	}
	return b.String()
}

func referKey(b *strings.Builder, row *tableRow, k *key) {
	fmt.Fprintf(b, "\n  %s = %s\n", k.name, k.example)
	para(b, "      ", k.teach)
	para(b, "      ", "Accepted: "+k.accepted()+".")
	switch {
	case contains(k.required, "*"):
		para(b, "      ", "Required.")
	case k.required != nil:
		para(b, "      ", "Required with "+selectorName(row)+" "+quoted(k.required)+".")
	}
	if k.in != nil {
		para(b, "      ", "Only with "+selectorName(row)+" "+quoted(k.in)+".")
	}
	if k.missing != "" {
		para(b, "      ", "Without it: "+k.missing+".")
	}
	if k.kind == quantity {
		para(b, "      ", "Without a tolerance: "+k.tolerance()+".")
	}
	if len(k.aliases) > 0 {
		para(b, "      ", "Also accepted as: "+strings.Join(k.aliases, ", ")+".")
	}
	if len(k.synonyms) > 0 {
		para(b, "      ", "Builders also say: "+strings.ReplaceAll(strings.Join(k.synonyms, ", "), "_", " ")+".")
	}
}

// accepted says in words what the key may hold.
func (k *key) accepted() string {
	switch k.kind {
	case word:
		return quoted(k.words)
	case text:
		return "text"
	case date:
		return "a date, year-month-day"
	case answer:
		return `true, false or "unknown"`
	case states:
		return "a list of " + quoted(stateNames())
	case controls:
		return quoted(append(objectControls(), "grid of 10 mm"))
	case curve:
		return "a list of pairs of gauge pressure and free air"
	case readings:
		return "a list of " + fmt.Sprint(k.least) + " or more readings of " + k.dimension.String() + ", each in quotes with its unit"
	case subtable:
		return "a table of its own"
	}
	s := k.dimension.String() + " in " + unit.Accepted(k.dimension)
	switch {
	case k.dimension == unit.Dimensionless:
		s = unit.Accepted(k.dimension)
	case k.dimension == unit.Pressure && k.pressure == asGauge:
		s = "gauge " + s + "; or the same with abs"
	case k.dimension == unit.Pressure && k.pressure == asAbsolute:
		s = "absolute " + s
	case k.dimension == unit.Pressure:
		s = "difference of " + s
	}
	low := unit.Format(k.min, k.dimension, unit.Metric)
	if k.min == 0 && k.sign == positive {
		low = "above 0"
	}
	return s + ", from " + low + " to " + unit.Format(k.max, k.dimension, unit.Metric)
}

// tolerance says in words what is taken without one.
func (k *key) tolerance() string {
	switch k.name {
	case "full_flow_pressure", "reseat_pressure":
		return "shifts with the set pressure"
	case "discharge_coefficient":
		return "measured ± 0.10; any other ± 0.10 and at least the band that is assumed without it"
	case "cut_in":
		return "as wide as cut_out's, where that has one; else " + k.bands.of(launcher.Unstated).words(k.dimension)
	}
	m, o := k.bands.of(launcher.Measured), k.bands.of(launcher.Unstated)
	if m == o {
		return o.words(k.dimension)
	}
	s := "measured " + m.words(k.dimension)
	if k.bands.datasheet != nil {
		s += "; datasheet " + k.bands.datasheet.words(k.dimension)
	}
	if k.bands.label != nil {
		s += "; label " + k.bands.label.words(k.dimension)
	}
	return s + "; any other " + o.words(k.dimension)
}

func para(b *strings.Builder, indent, text string) {
	for _, line := range wrap(text, 78-len(indent)) {
		b.WriteString(indent + line + "\n")
	}
}

// Teach says what the quantity of a dotted key is and how to find it at home,
// such as for "paths.fire.Cv"; "" for a key that is not known.
func Teach(dotted string) string {
	if k := lookUp(dotted); k != nil {
		return k.teach
	}
	return ""
}

// DimensionOf tells what the quantity at a dotted key of a design file measures;
// false where the key is unknown or holds no quantity.
func DimensionOf(dotted string) (unit.Dimension, bool) {
	k := lookUp(dotted)
	if k == nil || k.kind != quantity {
		return 0, false
	}
	return k.dimension, true
}

// lookUp finds the row of a dotted key such as "paths.fire.Cv"; nil: none.
func lookUp(dotted string) *key {
	keys := newKeyTable()
	parts := strings.Split(dotted, ".")
	for i, p := range parts {
		if at := strings.IndexByte(p, '['); at > 0 {
			parts[i] = p[:at]
		}
	}
	name, table := parts[len(parts)-1], parts[:len(parts)-1]
	if len(table) >= 2 && (table[0] == "volumes" || table[0] == "paths") {
		table[1] = "*"
	}
	if len(table) >= 1 && table[0] == "checklist" {
		table = table[:1]
	}
	return keys.index[strings.Join(table, ".")][name]
}
