// Package readings reads the log of an emptying test: times by a stopwatch and
// what the gauge showed.
//
// The first line names the columns, each with its unit in brackets: "time [s],
// gauge [bar]". A column "run" tells several runs apart; an empty line, or a
// time that goes back, begins a new one too. Package cells says how a file looks. The
// sheet of vent --csv with its column "read" filled in is such a file too: its readings
// must be of one volume and one test. It judges nothing.
// Start reading at Read.
package readings

import (
	"fmt"
	"math"

	"puffproof/cmd/puffproof/internal/cells"
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/vent"
)

// The most lines and runs that are read; more is a wrong file. Each run is fitted by
// itself too, which takes some hundredths of a second.
const (
	mostLines = 20000
	mostRuns  = 50
)

// Readings beyond these are slips of the pen or another column: 1000 bar [Pa], and
// 3000 years, which a clock that counts from any calendar's start stays below [s].
const (
	mostGauge = 1e8
	mostTime  = 1e11
)

// reader reads one file.
type reader struct {
	*cells.Table
	ambient float64        // [Pa absolute], for absolute gauges
	at      map[string]int // columns by their names in columns()
	units   map[string]unit.Unit
	sheet   string // the volume and the test that its readings are of

	log     vent.Log
	current int
	full    bool // there are too many runs
	last    float64
	stated  map[string]int
}

// Read understands a log of readings. ambient [Pa absolute] is taken off
// absolute pressures. Where there are problems the log has no meaning.
func Read(name string, data []byte, ambient float64) (vent.Log, []problem.Problem) {
	r := &reader{Table: cells.Read(name, data, mostLines), ambient: ambient, at: map[string]int{}, units: map[string]unit.Unit{},
		last: math.Inf(-1), stated: map[string]int{}}
	r.log.Name = name
	if r.header() {
		for _, row := range r.Rows {
			r.reading(row)
		}
	}
	if len(r.Problems) == 0 && len(r.log.Readings) == 0 {
		r.Fault(cells.Cell{Line: 1, Column: 1}, problem.Problem{Message: "the file has no reading",
			Want: `a first line such as "time [s],gauge [bar]", then one line a reading`,
			Hint: "vent --csv writes a sheet to fill in"})
	}
	return r.log, r.Problems
}

// reading takes in one line. A cell left empty is a gap.
func (r *reader) reading(row cells.Row) {
	if row.Given <= max(r.at["time"], r.at["gauge"]) {
		r.Fault(row.Cells[0], problem.Problem{Message: "the line has too few columns", Found: row.Cells[0].Text,
			Want: "a time and a reading", Hint: "a reading that was missed is an empty field: write its comma"})
		return
	}
	time, gauge := row.Cells[r.at["time"]], row.Cells[r.at["gauge"]]
	t, timed := r.number(time, "time [s]")
	g, read := r.number(gauge, "gauge [bar]")
	if !timed || !read {
		return
	}
	one := vent.LogReading{Time: r.units["time"].ToSI(t), Gauge: r.units["gauge"].ToSI(g)}
	if r.units["gauge"].Reference == unit.Absolute {
		one.Gauge -= r.ambient
	}
	switch {
	case math.Abs(one.Gauge) > mostGauge:
		r.Fault(gauge, problem.Problem{Message: "no gauge shows such a pressure", Found: gauge.Text, Want: "a pressure of up to 1000 bar",
			Hint: "is the unit in the first line right? It says " + r.units["gauge"].Name})
	case math.Abs(one.Time) > mostTime:
		r.Fault(time, problem.Problem{Message: "no clock shows such a time", Found: time.Text, Want: "a time of the stopwatch, or of a clock",
			Hint: "is the unit in the first line right? It says " + r.units["time"].Name})
	case r.oneTest(row):
		if r.place(&one, row); one.Run == mostRuns && !r.full {
			r.full = true
			r.Fault(time, problem.Problem{Message: fmt.Sprintf("more than %d runs", mostRuns), Found: time.Text,
				Want: fmt.Sprintf("at most %d runs in one file", mostRuns),
				Hint: "an empty line, or a time that goes back, begins a new run: is this column the time?"})
		}
		r.log.Readings = append(r.log.Readings, one)
	}
}

// number reads a cell; a gap is no fault and no number.
func (r *reader) number(c cells.Cell, header string) (float64, bool) {
	if cells.Gap(c) {
		return 0, false
	}
	v, p := r.Number(c, header)
	if p != nil {
		p.Message = "this " + p.Message
		r.Fault(c, *p)
	}
	return v, p == nil
}

// text gives the cell of a column that may be missing.
func (r *reader) text(row cells.Row, column string) (cells.Cell, bool) {
	i, ok := r.at[column]
	if !ok {
		return cells.Cell{}, false
	}
	return row.Cells[i], true
}

// oneTest takes the volume of a filled-in sheet; readings of another volume or test
// beside it are a problem.
func (r *reader) oneTest(row cells.Row) bool {
	volume, ok := r.text(row, "volume")
	scenario, also := r.text(row, "scenario")
	if !ok || !also {
		return true
	}
	test := volume.Text + ", " + scenario.Text
	if r.sheet == "" {
		r.sheet, r.log.Volume = test, volume.Text
	}
	if test != r.sheet {
		r.Fault(volume, problem.Problem{Message: "the sheet has readings of more than one test", Found: test,
			Want: "readings of " + r.sheet + " only", Hint: "copy the rest to a file of its own"})
		return false
	}
	return true
}

// place gives the reading its run.
func (r *reader) place(one *vent.LogReading, row cells.Row) {
	if run, ok := r.text(row, "run"); ok {
		if _, ok := r.stated[run.Text]; !ok {
			r.stated[run.Text] = len(r.stated)
		}
		one.Run = r.stated[run.Text]
		return
	}
	if len(r.log.Readings) > 0 && (row.Fresh || one.Time < r.last) {
		r.current++
	}
	r.last, one.Run = one.Time, r.current
}
