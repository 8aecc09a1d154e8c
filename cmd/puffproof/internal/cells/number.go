package cells

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/unit"
)

// The number forms, compiled once and never changed.
var (
	plain     = regexp.MustCompile(`^[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]+)?$`)
	comma     = regexp.MustCompile(`^[+-]?[0-9]+,[0-9]+$`)
	thousands = regexp.MustCompile(`^[+-]?[1-9][0-9]{0,2},[0-9]{3}$`) // or a decimal comma: 1,250
)

// decimals is how a file writes the decimals of its numbers.
type decimals uint8

const (
	byPoint decimals = iota
	byComma
)

// decimals finds out how the file writes decimals: by commas where no cell of it has a
// decimal point, commas do not part its columns, and one of them cannot mean thousands.
func (t *Table) decimals() decimals {
	if t.comma == ',' {
		return byPoint
	}
	found := byPoint
	for _, row := range t.Rows {
		for _, c := range row.Cells {
			switch {
			case strings.Contains(c.Text, ".") && plain.MatchString(c.Text):
				return byPoint
			case comma.MatchString(c.Text) && !thousands.MatchString(c.Text):
				found = byComma
			}
		}
	}
	return found
}

// Gap tells whether a cell says that there is no number.
func Gap(c Cell) bool {
	return slices.Contains([]string{"", "-", "–", "n/a"}, strings.ToLower(c.Text))
}

// Number reads a cell that holds a number and nothing else. Header is an example of the
// column's header, for the hint.
func (t *Table) Number(c Cell, header string) (float64, *problem.Problem) {
	text := c.Text
	if t.style == byComma && comma.MatchString(text) {
		text = strings.Replace(text, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(text, 64)
	if err == nil && plain.MatchString(text) && !math.IsInf(v, 0) {
		return v, nil
	}
	return 0, &problem.Problem{Message: "is not a number", Found: c.Text, Want: "digits with at most one decimal point, such as 0.45",
		Hint: numberHint(c.Text, header)}
}

// numberHint says what was probably meant.
func numberHint(cell, header string) string {
	q, err := unit.Parse(cell, unit.Dimensionless)
	switch {
	case err != nil && err.Kind == unit.CommaNumber:
		return err.Hint
	case err == nil && q.Stated:
		return "a measured value stands without its tolerance"
	case strings.ContainsAny(cell, ":") && strings.ContainsAny(cell, "0123456789"):
		return "a time is one number: 90 s, not 1:30; its unit stands in the header: " + header
	case strings.ContainsAny(cell, "_'"):
		return "a number has no marks between its digits"
	case strings.ContainsAny(cell, "0123456789"):
		return "the unit stands in the header only: " + header
	}
	return "leave the field empty where it was not measured; words belong in a column note"
}

// Head reads a header cell, such as "pressure [bar]" or "pressure (bar)": name and unit.
func Head(c Cell) (name, u string, fault *problem.Problem) {
	i := strings.IndexAny(c.Text, "[](){}")
	if i < 0 {
		return c.Text, "", named(c, c.Text)
	}
	name = strings.TrimSpace(c.Text[:i])
	for _, pair := range []string{"[]", "()"} {
		inside, closed := strings.CutSuffix(c.Text[i+1:], pair[1:])
		if c.Text[i] == pair[0] && closed && !strings.ContainsAny(inside, pair) {
			return name, strings.TrimSpace(inside), named(c, name)
		}
	}
	return "", "", &problem.Problem{Message: "the brackets of the unit do not close", Found: c.Text, Want: "a column such as pressure [bar]",
		Hint: fmt.Sprintf("write %s [%s]", name, strings.Trim(c.Text[i:], "[](){} "))}
}

// named refuses a column without a name.
func named(c Cell, name string) *problem.Problem {
	if strings.TrimSpace(name) != "" {
		return nil
	}
	return &problem.Problem{Message: "a column has no name", Found: c.Text, Want: "a column such as pressure [bar]",
		Hint: "name it, or take it out of the file with all that stands below it"}
}

// Unit understands the unit of a header as the reader of designs does, which knows the
// workshop's spellings: it is given a zero and a one in this unit.
func Unit(u string, d unit.Dimension) (unit.Unit, *unit.Error) {
	one, err := unit.Parse("1 "+u, d)
	if err != nil {
		return unit.Unit{}, err
	}
	if one.Stated || one.Range || one.Origin != unit.Unstated {
		return unit.Unit{}, &unit.Error{Kind: unit.Trailing, Text: u, Want: unit.Accepted(d), Hint: "a unit stands alone, without a tolerance"}
	}
	if known, ok := unit.Lookup(u); ok {
		return known, nil
	}
	zero, err := unit.Parse("0 "+u, d)
	if err != nil {
		return unit.Unit{}, err
	}
	return unit.Unit{Name: u, Factor: one.Nominal - zero.Nominal, Offset: zero.Nominal, Dimension: d, Reference: one.Reference}, nil
}
