package view

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/catalogue"
	"puffproof/limits/launcher"
)

// Table is one part of the launcher with its figures.
type Table struct {
	ID, Name, Teach string
	Stated          bool
	Faults          int
	Altered         int
	ToDo            int // fields that are still the template's, or not known yet
	Groups          []Group
}

// Tables are all of them, with what is still to be filled in.
type Tables struct {
	All   []*Table
	ToDo  string // how much that is; "" nothing
	First string // the id of the first field of it
}

// Group are the fields of a table, or of one within it such as its hose.
type Group struct {
	Name           string // "" the table's own
	Fields, Absent []Field
}

// Field is one figure.
type Field struct {
	ID, Key, Name string
	Holds         string // "figure", "words", "text", "day", "raw"
	Text          string
	Words         []Choice
	Needed        bool
	Stated        bool
	Was           string // of a field that differs, what the file says
	Band          string // what the tolerance comes to, and how it is known
	Assumed       bool
	ToDo          bool // it is still the template's, or not known yet
	Slider        *Slider
	Teach         string
	Accepted      string
	Missing       string
	Tolerance     string
	Example       string
	Problems      []problem.Problem
}

// Choice is one word of several.
type Choice struct {
	Word string
	Is   bool
}

// Slider moves the first figure of a text and leaves the rest of it.
type Slider struct {
	Low, High, Step, At string
	Lead, Tail          string
	Decimals            int
}

// tables are the list of tables and each table.
func tables(st *State) []one {
	bands, was := map[string]launcher.Band{}, map[string]string{}
	if st.Launcher != nil {
		for _, b := range catalogue.Machine(st.Launcher) {
			bands[b.Key] = *b
		}
	}
	for _, d := range st.Changed {
		was[d.Key] = said(d.A)
	}
	faults := map[string][]problem.Problem{}
	for _, p := range st.Problems {
		faults[p.Key] = append(faults[p.Key], p)
	}
	var all []*Table
	var todo Tables
	for i := range st.Tables {
		t := &st.Tables[i]
		group := Group{Name: ""}
		into := (*Table)(nil)
		if outer, inner, nested := nestedIn(t.Name); nested {
			if !t.Stated {
				continue
			}
			group.Name = inner
			for _, other := range all {
				if other.Name == outer {
					into = other
				}
			}
		}
		if into == nil {
			into = &Table{ID: partID(t.Name), Name: t.Name, Teach: t.Teach, Stated: t.Stated}
			all = append(all, into)
		}
		for j := range t.Fields {
			f := fieldOf(st, &t.Fields[j], bands, was, faults)
			into.Faults += len(f.Problems)
			if f.ToDo {
				into.ToDo++
				if todo.First == "" {
					todo.First = f.ID
				}
			}
			if f.Was != "" {
				into.Altered++
			}
			if f.Stated || f.Needed && t.Stated || len(f.Problems) > 0 {
				group.Fields = append(group.Fields, f)
			} else {
				group.Absent = append(group.Absent, f)
			}
		}
		into.Groups = append(into.Groups, group)
	}
	todo.All = all
	if l := st.Launcher; l != nil && todo.First != "" {
		todo.ToDo = stillTo(len(l.Template), len(l.ToFind))
	}
	out := []one{plain("tables", todo)}
	for _, t := range all {
		out = append(out, one{id: t.ID, template: "table", data: t})
	}
	return out
}

// isTemplate tells that a figure is still that of the file to start from.
func isTemplate(st *State, key string) bool {
	return st.Launcher != nil && slices.Contains(st.Launcher.Template, key)
}

// isToFind tells that a value is not known yet.
func isToFind(st *State, key string) bool {
	return st.Launcher != nil && slices.Contains(st.Launcher.ToFind, key)
}

// stillTo says how much is still to be filled in; "" nothing.
func stillTo(template, toFind int) string {
	var out []string
	if template > 0 {
		out = append(out, show.Plural(template, "figure is the template's", "figures are the template's"))
	}
	if toFind > 0 {
		out = append(out, show.Plural(toFind, "value is to be found out", "values are to be found out"))
	}
	return strings.Join(out, ", ")
}

// nestedIn splits the name of a table that stands in another one.
func nestedIn(name string) (outer, inner string, nested bool) {
	if !strings.HasPrefix(name, "paths.") {
		return "", "", false
	}
	at := strings.LastIndexByte(name, '.')
	if at <= len("paths.")-1 || strings.HasSuffix(name, `"`) {
		return "", "", false
	}
	return name[:at], name[at+1:], true
}

// fieldOf is one field as it is shown.
func fieldOf(st *State, f *design.Field, bands map[string]launcher.Band, was map[string]string, faults map[string][]problem.Problem) Field {
	r := &f.Reference
	out := Field{ID: "f-" + partID(f.Key), Key: f.Key, Name: r.Key, Text: f.Text, Needed: f.Needed, Stated: f.Stated, Was: was[f.Key],
		Teach: r.Teach, Accepted: r.Accepted, Missing: r.Missing, Tolerance: r.Tolerance, Example: strings.Trim(r.Example, `"`),
		Problems: faults[f.Key]}
	switch {
	case isToFind(st, f.Key):
		out.ToDo, out.Band, out.Assumed = true, "not known yet"+show.Lead(": ", r.Missing), true
	case isTemplate(st, f.Key):
		out.ToDo = true
	}
	switch f.Holds {
	case design.AFigure:
		out.Holds, out.Slider = "figure", sliderOf(f.Text)
		if b, is := bands[f.Key]; is && b.Set && !isToFind(st, f.Key) { // what is not known counts as nothing, least of all as 0
			out.Band, out.Assumed = bandText(st, f, b), b.Assumed
		}
	case design.OneWord, design.YesOrNo:
		out.Holds = "words"
		known := f.Text == ""
		for _, w := range f.Words {
			out.Words = append(out.Words, Choice{w, w == f.Text})
			known = known || w == f.Text
		}
		if !known { // what the file says, though it is wrong
			out.Words = append(out.Words, Choice{f.Text, true})
		}
	case design.ADay:
		out.Holds = "day"
	case design.ALine:
		out.Holds = "text"
	default:
		out.Holds = "raw"
	}
	return out
}

// bandText says what a tolerance comes to and how it is known.
func bandText(st *State, f *design.Field, b launcher.Band) string {
	kind := quantity.Of(f.Dimension)
	low, high := st.Units.Words(kind, b.Low, quantity.Down), st.Units.Words(kind, b.High, quantity.Up)
	t := "counts as " + low + " to " + high
	if low == high {
		t = "counts as " + low + " exactly"
	}
	if b.Assumed {
		return t + ": assumed" + show.Lead(", ", st.text(b.Reason))
	}
	switch b.Origin {
	case launcher.Unstated:
	case launcher.Template:
		t += ", the template's: write your own, and how you know it instead of \"template\""
	default:
		t += ", " + b.Origin.String()
	}
	return t
}

// figureFirst finds the figure that a text begins with.
var figureFirst = regexp.MustCompile(`^(\s*)([+-]?[0-9]+(?:\.[0-9]+)?)(\s*[^0-9\s].*)$`)

// sliderOf is the slider of a text that begins with a figure; nil where it does not. It reaches from nothing to twice the figure,
// so that a hand finds a half and a double.
func sliderOf(text string) *Slider {
	m := figureFirst.FindStringSubmatch(text)
	if m == nil {
		return nil
	}
	v, err := strconv.ParseFloat(m[2], 64)
	if err != nil || v == 0 || math.Abs(v) > 1e9 {
		return nil
	}
	const steps = 20 // of the figure's own power of ten: half a digit more than it takes to tell two figures apart
	size := math.Pow(10, math.Floor(math.Log10(math.Abs(v))))
	step := size / steps
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	if step >= 1 {
		step, decimals = math.Max(1, math.Floor(step)), 0
	}
	low, high := math.Min(0, 2*v), math.Max(0, 2*v)
	write := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	return &Slider{Low: write(low), High: write(high), Step: strconv.FormatFloat(step, 'f', decimals, 64), At: m[2], Lead: m[1], Tail: m[3],
		Decimals: decimals}
}

// Caption counts what there is in a table.
func (t *Table) Caption() string {
	switch {
	case t.Faults > 0:
		return show.Plural(t.Faults, "mistake", "mistakes")
	case t.Altered > 0:
		return show.Joined("; ", fmt.Sprintf("%d changed", t.Altered), t.toFillIn())
	case !t.Stated:
		return "not stated"
	}
	return t.toFillIn()
}

// toFillIn counts what is still to be filled in; "" nothing.
func (t *Table) toFillIn() string {
	if t.ToDo == 0 {
		return ""
	}
	return fmt.Sprintf("%d to fill in", t.ToDo)
}
