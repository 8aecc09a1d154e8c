package readings

import (
	"fmt"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/cells"
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/unit"
)

// column is one column that a log may have.
type column struct {
	name     string
	synonyms []string
	example  string
	measured bool // its numbers are read, in a unit of the dimension
	of       unit.Dimension
}

// columns lists them. The figures of a sheet beside those that were read are not
// looked at: the program has computed them itself.
func columns() []column {
	return []column{
		{name: "time", synonyms: []string{"t", "stopwatch", "clock"}, example: "time [s]", measured: true, of: unit.Time},
		{name: "gauge", synonyms: []string{"reading", "pressure", "p", "read"}, example: "gauge [bar]", measured: true, of: unit.Pressure},
		{name: "run", synonyms: []string{"test", "try"}, example: "run"},
		{name: "volume", example: "volume"},
		{name: "scenario", example: "scenario"},
		{name: "lowest", example: "lowest [Pa gauge]"},
		{name: "expected", example: "expected [Pa gauge]"},
		{name: "highest", example: "highest [Pa gauge]"},
		{name: "note", synonyms: []string{"notes", "remark", "remarks", "comment"}, example: "note"},
	}
}

// find gives the column of a name.
func find(name string) (column, bool) {
	for _, c := range columns() {
		if f := unit.Fold(name); c.name == f || slices.Contains(c.synonyms, f) {
			return c, true
		}
	}
	return column{}, false
}

// header finds the columns and their units, and tells whether lines can be read.
func (r *reader) header() bool {
	before := len(r.Problems)
	for i, cell := range r.Head {
		if p := r.column(i, cell); p != nil {
			r.Fault(cell, *p)
		}
	}
	for _, c := range columns()[:2] {
		if _, ok := r.at[c.name]; !ok && r.Head != nil && len(r.Problems) == before {
			r.Fault(r.Head[0], problem.Problem{Message: "the first line does not name a time and a gauge column",
				Want: `"time [s],gauge [bar]"`, Hint: "add a column " + c.example})
		}
	}
	return r.Head != nil && len(r.Problems) == before
}

// column understands one header cell.
func (r *reader) column(i int, cell cells.Cell) *problem.Problem {
	name, u, p := cells.Head(cell)
	if p != nil {
		return p
	}
	c, ok := find(name)
	if under := strings.LastIndexByte(name, '_'); !ok && u == "" && under > 0 { // gauge_bar
		if c, ok = find(name[:under]); ok {
			u = name[under+1:]
		}
	}
	if !ok {
		return unknown(cell)
	}
	if first, twice := r.at[c.name]; twice {
		return &problem.Problem{Message: "the column stands twice", Found: cell.Text, Want: "each column once",
			Hint: fmt.Sprintf("%s is column %d already; keep one of the two", r.Head[first].Text, first+1)}
	}
	r.at[c.name] = i
	if !c.measured {
		return nil
	}
	r.units[c.name], p = unitOf(c, cell, u)
	return p
}

// unknown is the fault of a column that no log has.
func unknown(cell cells.Cell) *problem.Problem {
	var names []string
	for _, c := range columns() {
		names = append(names, c.name)
	}
	return &problem.Problem{Message: "no such column", Found: cell.Text, Want: strings.Join(names, ", "),
		Hint: "what else you wrote down belongs in a column note; a second gauge is a log of its own"}
}

// unitOf understands the unit of a column.
func unitOf(c column, cell cells.Cell, u string) (unit.Unit, *problem.Problem) {
	if u == "" {
		return unit.Unit{}, &problem.Problem{Message: "the column has no unit", Found: cell.Text, Want: c.example,
			Hint: "write the unit you read: " + unit.Accepted(c.of)}
	}
	known, err := cells.Unit(u, c.of)
	if err != nil {
		hint := err.Hint
		if hint == "" {
			hint = "write " + c.example
		}
		return unit.Unit{}, &problem.Problem{Message: fmt.Sprintf("%q is no unit of %s", problem.Clip(u), c.of), Found: cell.Text,
			Want: unit.Accepted(c.of), Hint: hint}
	}
	return known, nil
}
