package shots

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"puffproof/cmd/puffproof/internal/cells"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/measure"
)

// mostLines is how many lines are read; more is a wrong file.
const mostLines = 5000

// reader reads one file.
type reader struct {
	*cells.Table
	ambient float64 // [Pa absolute], for absolute gauges
	day     string  // of the question, an ISO date
	all     []column
	head    []headed
	log     measure.ShotLog
}

// headed is one column of the file.
type headed struct {
	index int // in reader.all; -1: not understood
	unit  unit.Unit
}

// Read understands a shots file. ambient [Pa absolute] is taken off absolute
// pressures; no line is of a day after that of the question, an ISO date. Where
// there are problems the log is nil.
func Read(name string, data []byte, ambient float64, day string) (*measure.ShotLog, []Problem) {
	r := &reader{Table: cells.Read(name, data, mostLines), ambient: ambient, day: day, all: columns()}
	r.log.Name = name
	r.header()
	for _, row := range r.Rows {
		r.line(row)
	}
	if len(r.Problems) == 0 && len(r.log.Shots)+len(r.log.Bench) == 0 {
		r.Fault(cells.Cell{Line: 1, Column: 1}, Problem{Message: "the file has no shot and no test",
			Want: "a first line such as pressure [bar],speed [m/s],chronograph_distance [m], then one line a shot",
			Hint: "puffproof help calibrate lists the columns"})
	}
	if len(r.Problems) > 0 {
		return nil, r.Problems
	}
	return &r.log, nil
}

// header understands the first line.
func (r *reader) header() {
	seen := map[int]bool{}
	for _, cell := range r.Head {
		h, p := r.headOf(cell)
		switch {
		case p != nil:
			r.Fault(cell, *p)
		case seen[h.index]:
			r.Fault(cell, Problem{Message: "the column stands twice", Found: cell.Text, Want: "each column once",
				Hint: "keep one of the two; a second reading is a line of its own"})
		}
		if h.index >= 0 {
			seen[h.index] = true
		}
		r.head = append(r.head, h)
	}
}

// headOf understands one header cell, such as "pressure [bar]".
func (r *reader) headOf(at cells.Cell) (headed, *Problem) {
	none, cell := headed{index: -1}, at.Text
	name, u, p := cells.Head(at)
	if p != nil {
		return none, p
	}
	i, ok := find(r.all, name)
	if !ok {
		return none, r.unknownColumn(cell, name)
	}
	c := &r.all[i]
	switch c.kind {
	case text, word, date:
		if u != "" {
			return none, &Problem{Message: c.name + " has no unit", Found: cell, Want: c.example, Hint: "write " + c.example}
		}
		return headed{index: i}, nil
	case rate:
		if !slices.Contains([]string{"", "1/s", "fps", "Hz", "/s", "frames/s"}, u) {
			return none, &Problem{Message: c.name + " is in frames a second", Found: cell, Want: c.example, Hint: "write " + c.example}
		}
		return headed{index: i, unit: unit.Unit{Factor: 1}}, nil
	case count:
		switch u {
		case "", "-", "frames":
			return headed{index: i, unit: unit.Unit{Factor: 1}}, nil
		case "%":
			return headed{index: i, unit: unit.Unit{Factor: 0.01}}, nil
		}
		return none, &Problem{Message: c.name + " is a plain number", Found: cell, Want: c.example, Hint: "write " + c.example}
	}
	return r.quantityHead(i, cell, u)
}

func (r *reader) quantityHead(i int, cell, u string) (headed, *Problem) {
	c := &r.all[i]
	if u == "" {
		return headed{index: -1}, &Problem{Message: c.name + " has no unit in the header", Found: cell, Want: c.example,
			Hint: "write the unit you measured in: " + unit.Accepted(c.dimension)}
	}
	known, err := cells.Unit(u, c.dimension)
	if err != nil {
		hint := err.Hint
		switch {
		case c.dimension == unit.Speed && strings.EqualFold(u, "fps"):
			hint = "fps is frames a second in frame_rate; a speed in feet a second is in ft/s"
		case hint == "":
			hint = "write " + c.example
		}
		return headed{index: -1}, &Problem{Message: "the unit of " + c.name + " is not understood", Found: u, Want: unit.Accepted(c.dimension),
			Hint: hint}
	}
	return headed{index: i, unit: known}, nil
}

func (r *reader) unknownColumn(cell, name string) *Problem {
	p := &Problem{Message: "no such column", Found: cell, Hint: "what was different at a shot belongs in the column note"}
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
func (r *reader) line(row cells.Row) {
	l := &line{}
	filled := map[string]cells.Cell{}
	before := len(r.Problems)
	for i, f := range row.Cells {
		h := r.head[i]
		if f.Text == "" || h.index < 0 {
			continue
		}
		c := &r.all[h.index]
		if (c.says == nil || c.kind == date) && cells.Gap(f) {
			continue
		}
		v, t, p := r.value(c, h.unit, f)
		if p != nil {
			r.Fault(f, *p)
			continue
		}
		filled[c.name] = f
		if c.says != nil {
			c.says(l, t)
		} else {
			*c.to(l) = v
		}
	}
	if len(r.Problems) == before && r.understood() {
		r.keep(l, row.Cells[0], filled)
	}
}

// understood tells that no column of the header was lost: a line that lacks one lacks
// nothing of its own.
func (r *reader) understood() bool {
	return !slices.ContainsFunc(r.head, func(h headed) bool { return h.index < 0 })
}

// value reads one cell in the unit of its column.
func (r *reader) value(c *column, u unit.Unit, at cells.Cell) (float64, string, *Problem) {
	cell := at.Text
	switch c.kind {
	case text:
		return 0, cell, nil
	case date:
		return 0, cell, r.dated(c, cell)
	case word:
		w := strings.ToLower(cell)
		w = map[string]string{"y": "yes", "true": "yes", "1": "yes", "x": "yes", "n": "no", "false": "no", "0": "no"}[w] + w
		for _, known := range c.words {
			if strings.HasPrefix(w, known) {
				return 0, known, nil
			}
		}
		return 0, "", &Problem{Message: c.name + " is one word", Found: cell, Want: strings.Join(c.words, " or "),
			Hint: "anything else belongs in the column note"}
	}
	n, p := r.Number(at, c.example)
	if p != nil {
		p.Message = c.name + " " + p.Message
		return 0, "", p
	}
	v := u.ToSI(n)
	if c.dimension == unit.Pressure && c.kind == quantity && u.Reference == unit.Absolute {
		v -= r.ambient
	}
	switch {
	case v < 0:
		return 0, "", &Problem{Message: c.name + " is below zero", Found: cell, Want: "a figure above zero",
			Hint: "is it counted from the other side, or is the sign a slip?"}
	case v == 0 && !c.zero:
		return 0, "", &Problem{Message: c.name + " is zero", Found: cell, Want: "a figure above zero",
			Hint: "leave the field empty where it was not measured"}
	case v == 0 || v >= c.smallest() && v <= c.most:
		return v, "", nil
	}
	size := "smaller"
	if v > c.most {
		size = "larger"
	}
	return 0, "", &Problem{Message: c.name + " is " + size + " than can be meant", Found: cell, Want: r.meant(c, u),
		Hint: "is the unit in the header right? It says " + u.Name}
}

// dated says what is wrong with a day; nil: nothing.
func (r *reader) dated(c *column, cell string) *Problem {
	const want = "a date, year-month-day, such as 2026-05-31"
	switch _, err := time.Parse(time.DateOnly, cell); {
	case err != nil:
		return &Problem{Message: c.name + " is no date", Found: cell, Want: want,
			Hint: "a spreadsheet writes dates its own way: let the column be text"}
	case cell > r.day:
		return &Problem{Message: c.name + " is still to come", Found: cell, Want: "a day up to " + r.day,
			Hint: "the day on which it was measured; leave the field empty where nobody knows it"}
	}
	return nil
}

// meant gives the range of a column in the unit of the file.
func (r *reader) meant(c *column, u unit.Unit) string {
	low, high := u.FromSI(c.smallest()), u.FromSI(c.most)
	return fmt.Sprintf("%.3g to %.3g %s", low, high, u.Name)
}

// keep finds out what a line is and keeps it.
func (r *reader) keep(l *line, first cells.Cell, filled map[string]cells.Cell) {
	first.Column = 1
	row := first.Line
	var is []reading
	for _, one := range readings() {
		if _, ok := filled[one.signature]; ok {
			is = append(is, one)
		}
	}
	switch {
	case len(is) == 0 && l.shot.Misfire:
		r.need(first, "a misfire", []string{"pressure"}, filled)
	case len(is) == 0:
		var names []string
		for _, one := range readings() {
			names = append(names, one.signature)
		}
		r.Fault(first, Problem{Message: "the line has no reading", Want: "a value in one of " + strings.Join(names, ", "),
			Hint: "a shot that did not come out: misfire yes; a shot that was not made: take its line out"})
		return
	case len(is) > 1:
		r.Fault(filled[is[1].signature], Problem{Message: "the line has two readings, " + is[0].signature + " and " + is[1].signature,
			Want: "one reading a line",
			Hint: "one line for each way to measure"})
		return
	default:
		r.need(first, "a line with "+is[0].signature, is[0].needs, filled)
	}
	if len(is) == 1 && is[0].isBench {
		l.bench.Line, l.bench.Kind, l.bench.Gauge, l.bench.Date = row, is[0].bench, l.shot.Gauge, l.shot.Date
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
func (r *reader) need(at cells.Cell, what string, names []string, filled map[string]cells.Cell) {
	for _, n := range names {
		if _, ok := filled[n]; ok {
			continue
		}
		i, _ := find(r.all, n)
		r.Fault(at, Problem{Message: what + " needs " + n, Want: r.all[i].example + ", " + r.all[i].teach,
			Hint: "fill the column " + n + " on this line"})
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
