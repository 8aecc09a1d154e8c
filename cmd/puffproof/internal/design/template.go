package design

import (
	"bytes"
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
)

// templateWidth is the longest comment line of the template, in characters.
const templateWidth = 78

const templateHead = `# A design file for puffproof: one launcher, to be edited line by line.
# Every figure below is invented. Replace each by your own, and say how you know
# it: measured, datasheet, label or estimated; "declared" is a promise, and what
# rests on it is conditional.
#
# A quantity is text: {volume}, {mass},
# "15 ms -15/+10 ms, estimated", {force}. Decimal point, no comma. Without a
# tolerance the default of its key is taken and printed as assumed; "± 0" claims
# that it is exact. Pressures are gauge readings unless the unit says abs.
#
# A line that begins with "#key =" is a key you may add: take the # away.
`

// headIn is the head of the template with its examples in units of a system.
func headIn(u quantity.System) string {
	volume, mass, force := `"2.0 L ± 3 %"`, `"12 g +/- 0.5 g, measured"`, `"2 to 4 N"`
	if u == quantity.US {
		volume, mass, force = `"120 in3 ± 3 %"`, `"0.4 oz +/- 0.02 oz, measured"`, `"0.5 to 0.9 lbf"`
	}
	return strings.NewReplacer("{volume}", volume, "{mass}", mass, "{force}", force).Replace(templateHead)
}

// Template gives a complete, commented design file to start from, its figures in units of a
// system. Read accepts it without problems.
func Template(units quantity.System) []byte {
	keys := newKeyTable()
	var b bytes.Buffer
	b.WriteString(headIn(units))
	taught := map[*key]bool{}
	opened := map[string]bool{}
	for _, t := range sample() {
		row := keys.row(t.row)
		b.WriteByte('\n')
		if !opened[t.row] {
			comment(&b, row.teach)
		}
		comment(&b, t.about)
		if t.header != "" {
			fmt.Fprintf(&b, "[%s]\n", t.header)
		}
		given := map[string]bool{}
		selected := ""
		for _, v := range t.values {
			given[v[0]] = true
			if v[0] == row.selector {
				selected = strings.Trim(v[1], `"`)
			}
			templateKey(&b, units, keys.index[t.row][v[0]], units.Example(v[1]), taught)
		}
		if t.row == "projectile" {
			selected = "in bore"
		}
		offer(&b, units, keys.of(t.row), given, selected, taught)
		opened[t.row] = true
	}
	optionalTables(&b, units, keys, opened)
	return b.Bytes()
}

// templateKey writes a key with its value, and how to find it the first time.
func templateKey(b *bytes.Buffer, u quantity.System, k *key, value string, taught map[*key]bool) {
	if !taught[k] {
		comment(b, k.teachIn(u))
		taught[k] = true
	}
	fmt.Fprintf(b, "%s = %s\n", k.name, value)
}

// offer lists the keys that were left out, as comments, each once.
func offer(b *bytes.Buffer, u quantity.System, rows []*key, given map[string]bool, selected string, taught map[*key]bool) {
	for _, k := range rows {
		if given[k.name] || taught[k] || !k.belongs(selected) {
			continue
		}
		taught[k] = true
		without := ""
		if k.missing != "" {
			without = " Without it: " + k.missingIn(u) + "."
		}
		comment(b, k.teachIn(u)+without)
		fmt.Fprintf(b, "#%s = %s\n", k.name, k.exampleIn(u))
	}
}

// optionalTables lists the tables that the sample does not have.
func optionalTables(b *bytes.Buffer, u quantity.System, keys *keyTable, opened map[string]bool) {
	for _, row := range keys.tables {
		if opened[row.name] || row.nested() {
			continue
		}
		b.WriteByte('\n')
		comment(b, row.teach)
		header := "[" + row.name + "]"
		switch {
		case row.list:
			header = "[[" + row.name + "]]"
		case row.name == "checklist":
			header = `[checklist."confirm.shots"]`
		}
		fmt.Fprintf(b, "#%s\n", header)
		for _, k := range keys.of(row.name) {
			if !k.byProgram {
				fmt.Fprintf(b, "#%s = %s\n", k.name, k.exampleIn(u))
			}
		}
	}
}

// comment writes text as comment lines.
func comment(b *bytes.Buffer, text string) {
	for _, line := range wrap(text, templateWidth-2) {
		fmt.Fprintf(b, "# %s\n", line)
	}
}

// wrap breaks text at blanks into lines of at most width characters; a longer
// word stays whole.
func wrap(text string, width int) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(text) {
		switch {
		case line == "":
			line = w
		case len([]rune(line))+1+len([]rune(w)) > width:
			lines = append(lines, line)
			line = w
		default:
			line += " " + w
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
