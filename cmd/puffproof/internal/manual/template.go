package manual

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

// Part is one table of a file to start from.
type Part struct {
	Row    string // of the table of keys, such as "paths.*"
	Header string // as it is written, "" for the top
	About  string // a remark above it; "" none
	Values []Value
}

// Value is one key of a Part.
type Value struct {
	Key  string
	Text string // TOML
	Own  bool   // as its builder gave it; else the template's
}

// Template gives a complete, commented design file to start from, its figures in units of a
// system. Read accepts it without problems.
func Template(units quantity.System) []byte {
	return Compose(headIn(units), sample(), units)
}

// Compose writes a commented design file of parts: each key is explained where it stands first, and what the parts leave
// out is offered as a comment. What is not the builder's own is marked as the template's, or blank.
func Compose(head string, parts []Part, units quantity.System) []byte {
	known := keys.New()
	var b bytes.Buffer
	b.WriteString(head)
	taught := map[*keys.Key]bool{}
	opened := map[string]bool{}
	fit := ""
	for _, p := range parts {
		row := known.Row(p.Row)
		b.WriteByte('\n')
		if !opened[p.Row] {
			comment(&b, row.Teach)
		}
		comment(&b, p.About)
		if p.Header != "" {
			fmt.Fprintf(&b, "[%s]\n", p.Header)
		}
		given := map[string]bool{}
		selected := ""
		for _, v := range p.Values {
			given[v.Key] = true
			if v.Key == row.Selector {
				selected = strings.Trim(v.Text, `"`)
			}
			k, text := known.Index[p.Row][v.Key], v.Text
			if !v.Own {
				text = blankValue(k, units.Example(text))
			}
			templateKey(&b, units, k, text, taught)
		}
		if p.Row == "barrel" {
			fit = selected
		}
		if p.Row == "projectile" {
			selected = fit
		}
		offer(&b, units, known.Of(p.Row), given, selected, taught)
		opened[p.Row] = true
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
	text := k.Name + " = " + value
	if value == quoted(keys.NotKnown) {
		text += "  # such as " + k.ExampleIn(u)
	}
	fmt.Fprintln(b, text)
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
		if row.Name == "control.*" {
			exampleWiring(b)
			continue
		}
		header := "[" + row.Name + "]"
		switch {
		case row.List:
			header = "[[" + row.Name + "]]"
		case row.Name == "checklist":
			header = `[checklist."confirm.shots"]`
		}
		fmt.Fprintf(b, "#%s\n", header)
		for _, k := range known.Of(row.Name) {
			if !k.ByProgram {
				fmt.Fprintf(b, "#%s = %s\n", k.Name, k.ExampleIn(u))
			}
		}
	}
}

// exampleWiring writes the wiring of the sample as comments.
func exampleWiring(b *bytes.Buffer) {
	for _, t := range sampleControl() {
		comment(b, t.about)
		fmt.Fprintf(b, "#[%s]\n", t.header)
		for _, v := range t.values {
			fmt.Fprintf(b, "#%s = %s\n", v[0], v[1])
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
