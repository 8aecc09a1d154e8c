package shots

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/measure"
)

// The most problems listed and lines read; more is a wrong file.
const (
	mostProblems = 30
	mostLines    = 5000
)

// reader reads one file.
type reader struct {
	name     string
	ambient  float64 // [Pa absolute], for absolute gauges
	all      []column
	head     []headed
	problems []Problem
	log      measure.ShotLog
}

// headed is one column of the file.
type headed struct {
	index int // in reader.all; -1: not understood
	unit  unit.Unit
}

// Read understands a shots file. ambient [Pa absolute] is taken off absolute
// pressures. Where there are problems the log is nil.
func Read(name string, data []byte, ambient float64) (*measure.ShotLog, []Problem) {
	r := &reader{name: name, ambient: ambient, all: columns()}
	r.log.Name = name
	data = lineEnds(bytes.TrimPrefix(data, []byte("\ufeff")))
	if !utf8.Valid(data) {
		r.problem(1, 1, Problem{Message: "the file is not UTF-8 text", Hint: "save it as CSV UTF-8"})
		return nil, r.problems
	}
	r.read(data)
	if len(r.problems) == 0 && len(r.log.Shots)+len(r.log.Bench) == 0 {
		r.problem(1, 1, Problem{Message: "the file has no shot and no test"})
	}
	if len(r.problems) > 0 {
		return nil, r.problems
	}
	return &r.log, nil
}

// lineEnds turns the line ends of old spreadsheets, a carriage return alone, into
// line feeds.
func lineEnds(data []byte) []byte {
	if bytes.IndexByte(data, '\n') >= 0 {
		return data
	}
	return bytes.ReplaceAll(data, []byte{'\r'}, []byte{'\n'})
}

func (r *reader) problem(line, col int, p Problem) {
	p.File, p.Line, p.Column = r.name, line, col
	if len(r.problems) < mostProblems {
		r.problems = append(r.problems, p)
	}
}

// separator guesses what parts the columns: the first line that is no comment
// tells.
func separator(data []byte) rune {
	for l := range bytes.Lines(data) {
		if t := bytes.TrimSpace(l); len(t) == 0 || t[0] == '#' {
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

func (r *reader) read(data []byte) {
	c := csv.NewReader(bytes.NewReader(data))
	c.Comma, c.Comment, c.FieldsPerRecord, c.TrimLeadingSpace = separator(data), '#', -1, true
	for n := 0; n <= mostLines; n++ {
		fields, err := c.Read()
		if errors.Is(err, io.EOF) {
			return
		}
		var bad *csv.ParseError
		if errors.As(err, &bad) {
			r.problem(bad.Line, bad.Column, Problem{Message: bad.Err.Error(),
				Hint: "a text with a comma or a quote in it stands in double quotes, quotes in it are doubled"})
			return
		}
		place := func(i int) (int, int) {
			if i < len(fields) {
				return c.FieldPos(i)
			}
			line, _ := c.FieldPos(0)
			return line, 1
		}
		switch {
		case slices.IndexFunc(fields, func(f string) bool { return strings.TrimSpace(f) != "" }) < 0:
		case r.head == nil:
			r.header(fields, place)
		default:
			r.line(fields, place)
		}
		if len(r.problems) >= mostProblems {
			return
		}
	}
	r.problem(mostLines, 1, Problem{Message: "the file has more than 5000 lines and so is no shots file"})
}

// header understands the first line.
func (r *reader) header(fields []string, place func(int) (int, int)) {
	r.head = make([]headed, len(fields))
	seen := map[int]bool{}
	for i, f := range fields {
		line, col := place(i)
		h, p := r.headOf(f)
		if p != nil {
			r.problem(line, col, *p)
		} else if h.index >= 0 && seen[h.index] {
			r.problem(line, col, Problem{Message: "the column stands twice", Found: f})
		}
		if h.index >= 0 {
			seen[h.index] = true
		}
		r.head[i] = h
	}
}

// headOf understands one header cell, such as "pressure [bar]".
func (r *reader) headOf(cell string) (headed, *Problem) {
	name, u := cell, ""
	for _, pair := range []string{"[]", "()"} {
		if i := strings.IndexByte(cell, pair[0]); i >= 0 && strings.HasSuffix(strings.TrimSpace(cell), pair[1:]) {
			name, u = cell[:i], strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(cell[i+1:]), pair[1:]))
			break
		}
	}
	none := headed{index: -1}
	if strings.TrimSpace(name) == "" {
		return none, &Problem{Message: "a column has no name", Found: cell}
	}
	i, ok := find(r.all, name)
	if !ok {
		return none, r.unknownColumn(cell, name)
	}
	c := &r.all[i]
	switch c.kind {
	case text, word:
		if u != "" {
			return none, &Problem{Message: c.name + " has no unit", Found: cell, Want: c.example}
		}
		return headed{index: i}, nil
	case rate:
		if !slices.Contains([]string{"", "1/s", "fps", "Hz", "/s", "frames/s"}, u) {
			return none, &Problem{Message: c.name + " is in frames a second", Found: cell, Want: c.example}
		}
		return headed{index: i, unit: unit.Unit{Factor: 1}}, nil
	case count:
		switch u {
		case "", "-", "frames":
			return headed{index: i, unit: unit.Unit{Factor: 1}}, nil
		case "%":
			return headed{index: i, unit: unit.Unit{Factor: 0.01}}, nil
		}
		return none, &Problem{Message: c.name + " is a plain number", Found: cell, Want: c.example}
	}
	return r.quantityHead(i, cell, u)
}

func (r *reader) quantityHead(i int, cell, u string) (headed, *Problem) {
	c := &r.all[i]
	if u == "" {
		return headed{index: -1}, &Problem{Message: c.name + " has no unit in the header", Found: cell, Want: c.example}
	}
	// The unit reader of the design files knows the workshop's spellings: it is
	// given a one in this unit.
	q, err := unit.Parse("1 "+u, c.dimension)
	if err != nil {
		hint := err.Hint
		if c.dimension == unit.Speed && strings.EqualFold(u, "fps") {
			hint = "fps is frames a second in frame_rate; a speed in feet a second is in ft/s"
		}
		return headed{index: -1}, &Problem{Message: "the unit of " + c.name + " is not understood", Found: u, Want: unit.Accepted(c.dimension),
			Hint: hint}
	}
	known, ok := unit.Lookup(u)
	if !ok {
		known = unit.Unit{Factor: q.Nominal, Dimension: c.dimension, Reference: q.Reference}
	}
	return headed{index: i, unit: known}, nil
}

func (r *reader) unknownColumn(cell, name string) *Problem {
	p := &Problem{Message: "no such column", Found: cell}
	var names []string
	for i := range r.all {
		names = append(names, r.all[i].name)
		if slices.Contains(r.all[i].synonyms, unit.Fold(name)) {
			p.Hint = "did you mean " + r.all[i].example + "?"
		}
	}
	p.Want = strings.Join(names, ", ")
	return p
}

// line understands one line of readings.
func (r *reader) line(fields []string, place func(int) (int, int)) {
	first, _ := place(0)
	if len(fields) > len(r.head) {
		_, col := place(len(r.head))
		r.problem(first, col, Problem{Message: "more fields than the header names", Found: fields[len(r.head)],
			Hint: "a comma inside a number or a note? Numbers take a decimal point; a note with a comma stands in double quotes"})
		return
	}
	l := &line{}
	filled := map[string]int{}
	before := len(r.problems)
	for i, f := range fields {
		f = strings.TrimSpace(f)
		h := r.head[i]
		if f == "" || h.index < 0 {
			continue
		}
		row, col := place(i)
		c := &r.all[h.index]
		v, t, p := r.value(c, h.unit, f)
		if p != nil {
			r.problem(row, col, *p)
			continue
		}
		filled[c.name] = i
		if c.says != nil {
			c.says(l, t)
		} else {
			*c.to(l) = v
		}
	}
	if len(r.problems) == before {
		r.keep(l, first, filled, place)
	}
}

// value reads one cell in the unit of its column.
func (r *reader) value(c *column, u unit.Unit, cell string) (float64, string, *Problem) {
	switch c.kind {
	case text:
		return 0, cell, nil
	case word:
		w := strings.ToLower(cell)
		w = map[string]string{"y": "yes", "true": "yes", "1": "yes", "x": "yes", "n": "no", "false": "no", "0": "no"}[w] + w
		for _, known := range c.words {
			if strings.HasPrefix(w, known) {
				return 0, known, nil
			}
		}
		return 0, "", &Problem{Message: c.name + " is one word", Found: cell, Want: strings.Join(c.words, " or ")}
	}
	n, err := strconv.ParseFloat(cell, 64)
	// Go's own spellings, 5_1 and 0x5, are typing errors here.
	if err != nil || math.IsNaN(n) || math.IsInf(n, 0) || strings.ContainsAny(cell, "_xXpP") {
		return 0, "", r.notANumber(c, cell)
	}
	v := u.ToSI(n)
	if c.dimension == unit.Pressure && c.kind == quantity && u.Reference == unit.Absolute {
		v -= r.ambient
	}
	switch {
	case v < 0:
		return 0, "", &Problem{Message: c.name + " is below zero", Found: cell}
	case v == 0 && !c.zero:
		return 0, "", &Problem{Message: c.name + " is zero", Found: cell, Hint: "leave the field empty where it was not measured"}
	case v == 0 || v >= c.smallest() && v <= c.most:
		return v, "", nil
	}
	size := "smaller"
	if v > c.most {
		size = "larger"
	}
	return 0, "", &Problem{Message: c.name + " is " + size + " than can be meant", Found: cell,
		Hint: "is the unit in the header right? It says " + u.Name}
}

func (r *reader) notANumber(c *column, cell string) *Problem {
	p := &Problem{Message: c.name + " is not a number", Found: cell, Want: "digits with at most one decimal point, such as 0.45"}
	q, err := unit.Parse(cell, unit.Dimensionless)
	switch {
	case err != nil && err.Kind == unit.CommaNumber:
		p.Hint = err.Hint
	case err != nil && strings.ContainsAny(cell, "0123456789"):
		p.Hint = "the unit stands in the header only: " + c.example
	case err == nil && q.Stated:
		p.Hint = "a measured value stands without its tolerance"
	}
	return p
}

// keep finds out what a line is and keeps it.
func (r *reader) keep(l *line, row int, filled map[string]int, place func(int) (int, int)) {
	var is []reading
	for _, one := range readings() {
		if _, ok := filled[one.signature]; ok {
			is = append(is, one)
		}
	}
	switch {
	case len(is) == 0 && l.shot.Misfire:
		r.need(row, "a misfire", []string{"pressure"}, filled)
	case len(is) == 0:
		var names []string
		for _, one := range readings() {
			names = append(names, one.signature)
		}
		r.problem(row, 1, Problem{Message: "the line has no reading", Want: "a value in one of " + strings.Join(names, ", "),
			Hint: "a shot that did not come out: misfire yes"})
		return
	case len(is) > 1:
		_, col := place(filled[is[1].signature])
		r.problem(row, col, Problem{Message: "the line has two readings, " + is[0].signature + " and " + is[1].signature,
			Hint: "one line for each way to measure"})
		return
	default:
		r.need(row, "a line with "+is[0].signature, is[0].needs, filled)
	}
	if len(is) == 1 && is[0].isBench {
		l.bench.Line, l.bench.Kind, l.bench.Gauge = row, is[0].bench, l.shot.Gauge
		r.log.Bench = append(r.log.Bench, l.bench)
		return
	}
	l.shot.Line = row
	if len(is) == 1 {
		l.shot.Method = is[0].method
	}
	r.log.Shots = append(r.log.Shots, l.shot)
}

// need reports the columns that a reading cannot do without.
func (r *reader) need(row int, what string, names []string, filled map[string]int) {
	for _, n := range names {
		if _, ok := filled[n]; ok {
			continue
		}
		i, _ := find(r.all, n)
		r.problem(row, 1, Problem{Message: what + " needs " + n, Want: r.all[i].example + ", " + r.all[i].teach})
	}
}

// Reference lists the columns for the help, one a line.
func Reference() []string {
	var out []string
	for _, c := range columns() {
		out = append(out, c.example+": "+c.teach)
	}
	return out
}
