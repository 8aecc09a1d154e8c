package design

import (
	"bytes"
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/quantity"
)

// templateWidth is the longest comment line of the template, in characters.
const templateWidth = 78

const templateHead = `# A design file for puffproof: one launcher, to be edited line by line.
# Every figure below is invented and says "template": while one does, nothing
# holds. Replace each by your own, and say how you know it: measured, datasheet,
# label or estimated; "declared" is a promise: what rests on it is conditional.
# "?" says that you do not know: the strict side is taken, and check lists it
# among what is to be found out. What only you can say of your launcher is "?".
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
	known := keys.New()
	var b bytes.Buffer
	b.WriteString(headIn(units))
	taught := map[*keys.Key]bool{}
	opened := map[string]bool{}
	for _, t := range sample() {
		row := known.Row(t.row)
		b.WriteByte('\n')
		if !opened[t.row] {
			comment(&b, row.Teach)
		}
		comment(&b, t.about)
		if t.header != "" {
			fmt.Fprintf(&b, "[%s]\n", t.header)
		}
		given := map[string]bool{}
		selected := ""
		for _, v := range t.values {
			given[v[0]] = true
			if v[0] == row.Selector {
				selected = strings.Trim(v[1], `"`)
			}
			k := known.Index[t.row][v[0]]
			templateKey(&b, units, k, blankValue(k, units.Example(v[1])), taught)
		}
		if t.row == "projectile" {
			selected = "in bore"
		}
		offer(&b, units, known.Of(t.row), given, selected, taught)
		opened[t.row] = true
	}
	optionalTables(&b, units, known, opened)
	return b.Bytes()
}

// templateKey writes a key with its value, and how to find it the first time.
func templateKey(b *bytes.Buffer, u quantity.System, k *keys.Key, value string, taught map[*keys.Key]bool) {
	if !taught[k] {
		comment(b, k.TeachIn(u))
		taught[k] = true
	}
	line := k.Name + " = " + value
	if k.Claim() {
		line += "  # such as " + k.ExampleIn(u)
	}
	fmt.Fprintln(b, line)
}

// offer lists the keys that were left out, as comments, each once.
func offer(b *bytes.Buffer, u quantity.System, rows []*keys.Key, given map[string]bool, selected string, taught map[*keys.Key]bool) {
	for _, k := range rows {
		if given[k.Name] || taught[k] || !k.Belongs(selected) {
			continue
		}
		taught[k] = true
		without := ""
		if k.Missing != "" {
			without = " Without it: " + k.MissingIn(u) + "."
		}
		comment(b, k.TeachIn(u)+without)
		fmt.Fprintf(b, "#%s = %s\n", k.Name, k.ExampleIn(u))
	}
}

// optionalTables lists the tables that the sample does not have.
func optionalTables(b *bytes.Buffer, u quantity.System, known *keys.Table, opened map[string]bool) {
	for _, row := range known.Tables {
		if opened[row.Name] || row.Nested() {
			continue
		}
		b.WriteByte('\n')
		comment(b, row.Teach)
		header := "[" + row.Name + "]"
		switch {
		case row.List:
			header = "[[" + row.Name + "]]"
		case row.Name == "checklist":
			header = `[checklist."confirm.shots"]`
		}
		fmt.Fprintf(b, "#%s\n", header)
		for _, k := range known.Of(row.Name) {
			fmt.Fprintf(b, "#%s = %s\n", k.Name, k.ExampleIn(u))
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
