package cells

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"puffproof/cmd/puffproof/internal/problem"
)

// MostProblems is how many problems of one file are listed.
const MostProblems = 30

// Cell is one cell. Its text has no blanks around it.
type Cell struct {
	Text         string
	Line, Column int // from 1; the column in characters
}

// Row is one line of the file. It has as many cells as the header: cells that are
// missing at its end are empty.
type Row struct {
	Line  int
	Given int  // how many cells the file has on it
	Fresh bool // an empty line, or one of empty cells, stands before it
	Cells []Cell
}

// Table is a file under reading.
type Table struct {
	Head     []Cell // nil: there is no line but comments
	Rows     []Row
	Problems []problem.Problem

	name  string
	raw   []byte
	lines []int // offset of each line's first byte
	comma rune
	style decimals
}

// Read parts a file of at most mostLines lines into cells. What is wrong with it stands
// in Problems; what could be understood is there all the same.
func Read(name string, data []byte, mostLines int) *Table {
	t := &Table{name: name, raw: lineEnds(bytes.TrimPrefix(data, []byte("\ufeff"))), lines: []int{0}}
	if !utf8.Valid(t.raw) {
		t.Fault(Cell{Line: 1, Column: 1}, problem.Problem{Message: "the file is not UTF-8 text", Want: "UTF-8 text",
			Hint: "save it as CSV UTF-8"})
		return t
	}
	for i, b := range t.raw {
		if b == '\n' && i+1 < len(t.raw) {
			t.lines = append(t.lines, i+1)
		}
	}
	if len(t.lines) > mostLines {
		t.Fault(Cell{Line: mostLines + 1, Column: 1}, problem.Problem{Message: fmt.Sprintf("more than %d lines: a wrong file", mostLines),
			Want: fmt.Sprintf("at most %d lines", mostLines), Hint: "leave out lines that say the same, such as readings at rest"})
		return t
	}
	t.comma = t.separator()
	t.records()
	t.style = t.decimals()
	return t
}

// lineEnds turns the line ends of old spreadsheets, a carriage return alone, into
// line feeds.
func lineEnds(data []byte) []byte {
	if bytes.IndexByte(data, '\n') >= 0 {
		return data
	}
	return bytes.ReplaceAll(data, []byte{'\r'}, []byte{'\n'})
}

// Fault adds a problem at a cell.
func (t *Table) Fault(at Cell, p problem.Problem) {
	p.File, p.Line, p.Column = t.name, at.Line, at.Column
	if len(t.Problems) < MostProblems {
		t.Problems = append(t.Problems, p)
	}
}

// separator tells what parts the columns: the first line that is no comment has most of
// it.
func (t *Table) separator() rune {
	for l := range bytes.Lines(t.raw) {
		if len(bytes.TrimSpace(l)) == 0 || l[0] == '#' {
			continue
		}
		best, most := ',', 0
		for _, c := range []rune{',', ';', '\t'} {
			if n := bytes.Count(l, []byte(string(c))); n > most {
				best, most = c, n
			}
		}
		return best
	}
	return ','
}

// records parts the lines into cells.
func (t *Table) records() {
	c := csv.NewReader(bytes.NewReader(t.raw))
	c.Comma, c.Comment, c.FieldsPerRecord = t.comma, '#', -1
	c.TrimLeadingSpace = t.comma != '\t' // a tab is a blank too: empty cells would vanish
	fresh := false
	for {
		fresh = fresh || t.emptyLineAt(c.InputOffset())
		fields, err := c.Read()
		if errors.Is(err, io.EOF) {
			return
		}
		if bad := (*csv.ParseError)(nil); errors.As(err, &bad) {
			t.Fault(t.cell("", bad.Line, bad.Column), problem.Problem{Message: bad.Err.Error(),
				Want: `cells such as 0.5 or "a note, with a comma"`,
				Hint: "a text with a comma or a quote in it stands in double quotes, quotes in it are doubled"})
			continue
		}
		row := Row{Fresh: fresh}
		empty := true
		for i, f := range fields {
			line, column := c.FieldPos(i)
			row.Cells = append(row.Cells, t.cell(f, line, column))
			empty = empty && row.Cells[i].Text == ""
		}
		row.Line = row.Cells[0].Line
		switch {
		case empty:
			fresh = true
			continue
		case t.Head == nil:
			t.Head = row.Cells
		case t.fits(&row):
			t.Rows = append(t.Rows, row)
		}
		fresh = false
	}
}

// cell makes a cell of what encoding/csv found at a byte of a line.
func (t *Table) cell(text string, line, column int) Cell {
	start := t.lines[min(line, len(t.lines))-1]
	end := min(max(start+column-1, start), len(t.raw))
	return Cell{Text: strings.TrimSpace(text), Line: line, Column: utf8.RuneCount(t.raw[start:end]) + 1}
}

// emptyLineAt tells whether an empty line stands before the next cells.
func (t *Table) emptyLineAt(offset int64) bool {
	for l := range bytes.Lines(t.raw[offset:]) {
		if len(bytes.TrimSpace(l)) == 0 {
			return true
		}
		if l[0] != '#' {
			return false
		}
	}
	return false
}

// fits fills a row up to the header's columns, and refuses one that has more.
func (t *Table) fits(row *Row) bool {
	for i := len(t.Head); i < len(row.Cells); i++ {
		if c := row.Cells[i]; c.Text != "" {
			t.Fault(c, problem.Problem{Message: "more fields than the header names", Found: c.Text,
				Want: fmt.Sprintf("%d fields", len(t.Head)),
				Hint: "a comma inside a number or a note? Numbers take a decimal point; a note with a comma stands in double quotes"})
			return false
		}
	}
	row.Given = len(row.Cells)
	row.Cells = row.Cells[:min(len(row.Cells), len(t.Head))]
	for len(row.Cells) < len(t.Head) {
		row.Cells = append(row.Cells, Cell{Line: row.Line, Column: 1})
	}
	return true
}
