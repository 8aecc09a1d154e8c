package manual

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
)

// TableReference explains one table of the design file.
type TableReference struct {
	Table    string         `json:"table"`    // "volumes.NAME": one for each name of your own; "": the top of the file
	Repeats  bool           `json:"repeats"`  // may be written [[table]] several times
	Required bool           `json:"required"` // at least one must stand
	Teach    string         `json:"teach"`    // what it describes
	Synonyms []string       `json:"synonyms"` // what builders say instead
	Selector string         `json:"selector"` // the key that only_with and required_with mean; "": none
	Keys     []KeyReference `json:"keys"`     // in the order of the template
}

// KeyReference explains one key.
type KeyReference struct {
	Key          string   `json:"key"`
	Example      string   `json:"example"`       // as it stands behind the equals sign
	Teach        string   `json:"teach"`         // what it is, and how to find it at home
	Accepted     string   `json:"accepted"`      // what it may hold
	Required     bool     `json:"required"`      // it must stand, whatever the selector says
	RequiredWith []string `json:"required_with"` // words of the selector with which it must stand
	OnlyWith     []string `json:"only_with"`     // words of the selector with which it may stand; empty: all
	Missing      string   `json:"without_it"`    // what is assumed, or unknown, without it
	Tolerance    string   `json:"tolerance"`     // the default band of a value without one; "": no quantity
	Aliases      []string `json:"aliases"`       // other spellings that are accepted
	Synonyms     []string `json:"synonyms"`      // what builders say instead; refused with a hint
}

// Reference explains every key of the design file: what it is, how to measure it,
// what it may be, what is assumed without it, with its figures in units of a system.
func Reference(units quantity.System) []TableReference {
	known := keys.New()
	var all []TableReference
	for i := range known.Tables {
		all = append(all, Refer(known, &known.Tables[i], units))
	}
	return all
}

// TableNames lists the words by which Table knows the tables, in the order of
// Reference.
func TableNames() []string {
	var names []string
	for _, row := range keys.TableRows() {
		names = append(names, tableWord(row.Name))
	}
	return names
}

// Table explains the table of a word: its name without the part that is of your
// own, "hose", or "top" for the keys above the first table. The error says what
// was probably meant.
func Table(word string, units quantity.System) (TableReference, error) {
	known := keys.New()
	for i := range known.Tables {
		row := &known.Tables[i]
		if w := strings.Trim(word, "[]"); w == tableWord(row.Name) || w != "" && (w == row.Name || w == keys.ShownTable(row.Name)) {
			return Refer(known, row, units), nil
		}
	}
	return TableReference{}, errors.New(meantTable(known, word))
}

// meantTable says what a word that is no table probably means.
func meantTable(k *keys.Table, word string) string {
	unknown := fmt.Sprintf("unknown table %q", problem.Clip(word))
	of := func(one *keys.Key) string {
		return fmt.Sprintf("%s; %s is a key of the table %s", unknown, one.Name, tableWord(one.Table))
	}
	if one := LookUp(word); one != nil {
		return of(one)
	}
	for i := range k.Tables {
		if slices.Contains(k.Tables[i].Synonyms, unit.Fold(word)) {
			return unknown + "; " + keys.Meant(tableWord(k.Tables[i].Name))
		}
	}
	if parts := strings.Split(strings.Trim(word, "[]"), "."); len(parts) > 1 {
		parts[1] = "*" // the part of the name that is the builder's own
		for i := range k.Tables {
			if row := &k.Tables[i]; row.Name == strings.Join(parts, ".") {
				return fmt.Sprintf("%s; the names of the parts are your own: the keys of each stand under %s", unknown, tableWord(row.Name))
			}
		}
	}
	if near := keys.Nearest(word, TableNames()); near != "" {
		return unknown + "; " + keys.Meant(near)
	}
	for t := range k.Tables { // in the order of the tables: paths before their exhaust
		for i := range k.Keys {
			one := &k.Keys[i]
			if one.Table == k.Tables[t].Name && (strings.EqualFold(one.Name, unit.Fold(word)) || slices.Contains(one.Synonyms, unit.Fold(word))) {
				return of(one)
			}
		}
	}
	var names []string
	for i := range k.Keys {
		names = append(names, k.Keys[i].Name)
	}
	if near := keys.Nearest(word, names); near != "" {
		for i := range k.Keys {
			if k.Keys[i].Name == near {
				return of(&k.Keys[i])
			}
		}
	}
	return unknown + "; there are " + strings.Join(TableNames(), ", ")
}

// tableWord names a table in one word.
func tableWord(name string) string {
	if name == "" {
		return "top"
	}
	if within, ok := strings.CutPrefix(name, "paths.*."); ok {
		return within
	}
	return strings.TrimSuffix(name, ".*")
}

// Refer explains one table.
func Refer(k *keys.Table, row *keys.Row, u quantity.System) TableReference {
	t := TableReference{Table: keys.ShownTable(row.Name), Repeats: row.List, Required: row.Required, Teach: row.Teach,
		Synonyms: spoken(row.Synonyms), Selector: row.SelectorName()}
	for _, one := range k.Of(row.Name) {
		r := KeyReference{Key: one.Name, Example: one.ExampleIn(u), Teach: one.TeachIn(u), Accepted: one.Accepted(u),
			Required: slices.Contains(one.Required, "*"), RequiredWith: []string{}, OnlyWith: append([]string{}, one.In...),
			Missing: one.MissingIn(u), Aliases: append([]string{}, one.Aliases...), Synonyms: spoken(one.Synonyms)}
		if !r.Required {
			r.RequiredWith = append(r.RequiredWith, one.Required...)
		}
		if one.Kind == keys.Number {
			r.Tolerance = one.Tolerance(u)
		}
		t.Keys = append(t.Keys, r)
	}
	return t
}

// spoken writes words as builders say them.
func spoken(words []string) []string {
	out := []string{}
	for _, w := range words {
		out = append(out, strings.ReplaceAll(w, "_", " "))
	}
	return out
}

// WriteReference writes tables as text of at most 80 columns.
func WriteReference(w io.Writer, tables []TableReference) {
	fmt.Fprintf(w, "Keys of the design file, version %s\n", keys.Version)
	para(w, "", "Default tolerances rest on "+keys.Practice+", unless a line says otherwise; they err wide. "+
		"A value's origin picks its default: measured, or any other. The origin template marks a figure of a file to start from: while "+
		"there is one, nothing holds.")
	para(w, "", "A key may have \"?\" where its value is not known: it is then taken as if left out, and listed among what is to be found "+
		"out. One that is required, or whose absence says that there is no such thing, has to be known.")
	for _, t := range tables {
		title := "[" + t.Table + "]"
		switch {
		case t.Table == "":
			title = "At the top of the file"
		case strings.HasPrefix(t.Table, keys.ShownTable("paths.*.")):
			title = strings.TrimPrefix(t.Table, keys.ShownTable("paths.*.")) + " = { ... } in [paths.NAME]"
		case t.Repeats:
			title += " or [[" + t.Table + "]]"
		}
		fmt.Fprintf(w, "\n%s\n", title)
		para(w, "", t.Teach)
		if len(t.Synonyms) > 0 {
			para(w, "", "Builders also say: "+strings.Join(t.Synonyms, ", ")+".")
		}
		for _, k := range t.Keys {
			k.write(w, t.Selector)
		}
	}
}

func (k *KeyReference) write(w io.Writer, selector string) {
	// A long list breaks behind its commas, as the file allows.
	example := strings.NewReplacer(", ", ", ", " ", "\x00").Replace(k.Key + " = " + k.Example)
	for i, line := range wrap(example, 74) {
		fmt.Fprintln(w, [...]string{"\n  ", "      "}[min(i, 1)]+strings.ReplaceAll(line, "\x00", " "))
	}
	line := func(there bool, text string) {
		if there {
			para(w, "      ", text)
		}
	}
	line(true, k.Teach)
	line(true, "Accepted: "+k.Accepted+".")
	line(k.Required, "Required.")
	line(len(k.RequiredWith) > 0, "Required with "+selector+" "+keys.Quoted(k.RequiredWith)+".")
	line(len(k.OnlyWith) > 0, "Only with "+selector+" "+keys.Quoted(k.OnlyWith)+".")
	line(k.Missing != "", "Without it: "+k.Missing+".")
	line(k.Tolerance != "", "Without a tolerance: "+k.Tolerance+".")
	line(len(k.Aliases) > 0, "Also accepted as: "+strings.Join(k.Aliases, ", ")+".")
	line(len(k.Synonyms) > 0, "Builders also say: "+strings.Join(k.Synonyms, ", ")+".")
}

// para writes a paragraph; a tolerance stays on one line.
func para(w io.Writer, indent, text string) {
	text = strings.NewReplacer("± ", "±\x00", " %", "\x00%").Replace(text)
	for _, line := range wrap(text, 78-len(indent)) {
		fmt.Fprintln(w, indent+strings.ReplaceAll(line, "\x00", " "))
	}
}

// DimensionOf tells what the quantity at a dotted key of a design file measures;
// false where the key is unknown or holds no quantity.
func DimensionOf(dotted string) (unit.Dimension, bool) {
	if dotted == launcher.ElevationKey {
		return unit.Angle, true
	}
	k := LookUp(dotted)
	if k == nil || k.Kind != keys.Number {
		return 0, false
	}
	return k.Dimension, true
}

// LookUp finds the row of a dotted key such as "paths.fire.Cv"; nil: none.
func LookUp(dotted string) *keys.Key {
	known := keys.New()
	parts := strings.Split(dotted, ".")
	for i, p := range parts {
		if at := strings.IndexByte(p, '['); at > 0 {
			parts[i] = p[:at]
		}
	}
	name, table := parts[len(parts)-1], parts[:len(parts)-1]
	if len(table) >= 2 && slices.Contains([]string{"volumes", "paths", "control"}, table[0]) {
		table[1] = "*"
	}
	if len(table) >= 1 && table[0] == "checklist" {
		table = table[:1]
	}
	return known.Index[strings.Join(table, ".")][name]
}
