// Package readings reads the log of an emptying test: times by a stopwatch and
// what the gauge showed.
//
// The first line names the columns, each with its unit in brackets: "time [s],
// gauge [bar]". A column "run" tells several runs apart; an empty line, or a
// time that goes back, begins a new one too. Lines that start with # are
// comments; columns are parted by commas, semicolons or tabs. The sheet of vent --csv
// with its column "read" filled in is such a file too: its readings must be of one
// volume and one test. It judges nothing.
// Start reading at Read.
package readings

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/shots"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/vent"
)

// The most problems listed and lines read; more is a wrong file.
const (
	mostProblems = 20
	mostLines    = 20000
)

// Readings beyond these are slips of the pen or another column: 1000 bar [Pa], and
// 3000 years, which a clock that counts from any calendar's start stays below [s].
const (
	mostGauge = 1e8
	mostTime  = 1e11
)

// reader reads one file.
type reader struct {
	name     string
	ambient  float64 // [Pa absolute], for absolute gauges
	sep      string
	time     int // column; -1: not found
	gauge    int
	run      int
	volume   int // of a filled-in sheet
	scenario int
	sheet    string // the volume and the test that its readings are of
	timeUnit unit.Unit
	unit     unit.Unit
	problems []shots.Problem

	log     vent.Log
	current int
	last    float64
	stated  map[string]int
	fresh   bool // an empty line was met
}

// Read understands a log of readings. ambient [Pa absolute] is taken off
// absolute pressures. Where there are problems the log has no meaning.
func Read(name string, data []byte, ambient float64) (vent.Log, []shots.Problem) {
	r := &reader{name: name, ambient: ambient, time: -1, gauge: -1, run: -1, volume: -1, scenario: -1, last: math.Inf(-1),
		stated: map[string]int{}}
	r.log.Name = name
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) {
		r.problem(1, shots.Problem{Message: "the file is not UTF-8 text", Hint: "save it as CSV UTF-8"})
		return r.log, r.problems
	}
	r.lines(string(data))
	if len(r.problems) == 0 && len(r.log.Readings) == 0 {
		r.problem(1, shots.Problem{Message: "the file has no reading",
			Want: `a first line such as "time [s],gauge [bar]", then one line a reading`})
	}
	return r.log, r.problems
}

func (r *reader) problem(line int, p shots.Problem) {
	p.File, p.Line, p.Column = r.name, line, 1
	if len(r.problems) < mostProblems {
		r.problems = append(r.problems, p)
	}
}

func (r *reader) lines(text string) {
	headed := false
	n := 0
	for l := range strings.Lines(text) {
		n++
		l = strings.TrimSpace(l)
		switch {
		case n > mostLines:
			r.problem(n, shots.Problem{Message: fmt.Sprintf("more than %d lines: a wrong file", mostLines)})
			return
		case l == "":
			r.fresh = headed
		case l[0] == '#':
		case !headed:
			headed = true
			if !r.header(n, l) {
				return
			}
		default:
			r.reading(n, l)
		}
	}
}

// header finds the columns and their units.
func (r *reader) header(line int, text string) bool {
	r.sep = ","
	for _, s := range []string{";", "\t"} {
		if strings.Count(text, s) > strings.Count(text, r.sep) {
			r.sep = s
		}
	}
	for i, cell := range r.cells(text) {
		name, u := headParts(cell)
		switch name {
		case "time", "t", "stopwatch", "clock":
			if r.timeUnit = r.unitOf(line, cell, u, unit.Time, "s"); r.timeUnit.Factor != 0 {
				r.time = i
			}
		case "gauge", "reading", "pressure", "p", "read":
			if r.unit = r.unitOf(line, cell, u, unit.Pressure, "bar"); r.unit.Factor != 0 {
				r.gauge = i
			}
		case "run", "test", "try":
			r.run = i
		case "volume":
			r.volume = i
		case "scenario":
			r.scenario = i
		}
	}
	if len(r.problems) == 0 && (r.time < 0 || r.gauge < 0) {
		r.problem(line, shots.Problem{Message: "the first line does not name a time and a gauge column", Found: problem.Clip(text),
			Want: `"time [s],gauge [bar]"`})
	}
	return len(r.problems) == 0
}

// headParts splits "gauge [bar]", "gauge (bar)" or "gauge_bar" into name and unit.
func headParts(cell string) (name, u string) {
	cell = strings.Trim(strings.TrimSpace(cell), `"`)
	if i := strings.IndexAny(cell, "[(_"); i > 0 {
		return strings.ToLower(strings.TrimSpace(cell[:i])), strings.TrimSpace(strings.TrimRight(cell[i+1:], "])"))
	}
	return strings.ToLower(cell), ""
}

func (r *reader) unitOf(line int, cell, name string, d unit.Dimension, example string) unit.Unit {
	u, ok := unit.Lookup(name)
	switch {
	case name == "":
		r.problem(line, shots.Problem{Message: "the column has no unit", Found: problem.Clip(cell), Want: fmt.Sprintf("%s [%s]",
			strings.ToLower(strings.TrimSpace(cell)), example)})
	case !ok || u.Dimension != d:
		r.problem(line, shots.Problem{Message: fmt.Sprintf("%q is no unit of %s", problem.Clip(name), d), Found: problem.Clip(cell),
			Want: fmt.Sprintf("such as [%s]", example)})
	default:
		return u
	}
	return unit.Unit{}
}

// reading takes in one line. A cell left empty is a gap.
func (r *reader) reading(line int, text string) {
	cells := r.cells(text)
	if len(cells) <= max(r.time, r.gauge) {
		r.problem(line, shots.Problem{Message: "the line has too few columns", Found: problem.Clip(text)})
		return
	}
	at, there := r.number(line, cells[r.time])
	g, read := r.number(line, cells[r.gauge])
	if !there || !read {
		return
	}
	one := vent.LogReading{Time: r.timeUnit.ToSI(at), Gauge: r.unit.ToSI(g)}
	if r.unit.Reference == unit.Absolute {
		one.Gauge -= r.ambient
	}
	if math.Abs(one.Gauge) > mostGauge {
		r.problem(line, shots.Problem{Message: "no gauge shows such a pressure", Found: problem.Clip(strings.TrimSpace(cells[r.gauge])),
			Want: "a pressure of up to 1000 bar; its unit stands in the first line"})
		return
	}
	if math.Abs(one.Time) > mostTime {
		r.problem(line, shots.Problem{Message: "no clock shows such a time", Found: problem.Clip(strings.TrimSpace(cells[r.time])),
			Want: "a time of the stopwatch, or of a clock; its unit stands in the first line"})
		return
	}
	if !r.oneTest(line, cells) {
		return
	}
	r.place(&one, cells)
	r.log.Readings = append(r.log.Readings, one)
}

// cells parts a line; a cell in quotes may hold the separator.
func (r *reader) cells(text string) []string {
	c := csv.NewReader(strings.NewReader(text))
	c.Comma, c.LazyQuotes, c.FieldsPerRecord = rune(r.sep[0]), true, -1
	if cells, err := c.Read(); err == nil {
		return cells
	}
	return strings.Split(text, r.sep)
}

// oneTest takes the volume of a filled-in sheet; readings of another volume or test
// beside it are a problem.
func (r *reader) oneTest(line int, cells []string) bool {
	if r.volume < 0 || r.scenario < 0 || len(cells) <= max(r.volume, r.scenario) {
		return true
	}
	volume, scenario := strings.TrimSpace(cells[r.volume]), strings.TrimSpace(cells[r.scenario])
	test := volume + ", " + scenario
	if r.sheet == "" {
		r.sheet, r.log.Volume = test, volume
	}
	if test != r.sheet {
		r.problem(line, shots.Problem{Message: "the sheet has readings of more than one test", Found: problem.Clip(test),
			Want: "readings of " + r.sheet + " only; copy the rest to a file of its own"})
		return false
	}
	return true
}

// place gives the reading its run.
func (r *reader) place(one *vent.LogReading, cells []string) {
	if r.run >= 0 && r.run < len(cells) {
		name := strings.TrimSpace(cells[r.run])
		if _, ok := r.stated[name]; !ok {
			r.stated[name] = len(r.stated)
		}
		one.Run = r.stated[name]
		return
	}
	if len(r.log.Readings) > 0 && (r.fresh || one.Time < r.last) {
		r.current++
	}
	r.fresh, r.last, one.Run = false, one.Time, r.current
}

// number reads a cell; an empty one is a gap and no fault.
func (r *reader) number(line int, cell string) (float64, bool) {
	cell = strings.Trim(strings.TrimSpace(cell), `"`)
	if cell == "" || slices.Contains([]string{"-", "n/a"}, strings.ToLower(cell)) {
		return 0, false
	}
	if r.sep != "," {
		cell = strings.Replace(cell, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(cell, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		r.problem(line, shots.Problem{Message: "this is no number", Found: problem.Clip(cell),
			Want: "a plain number; its unit stands in the first line"})
		return 0, false
	}
	return v, true
}
