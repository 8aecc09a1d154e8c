package view

import (
	"encoding/json"
	"strings"

	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/commission"
	"puffproof/limits/finding"
)

// Road is the way from a design to a launcher that is signed.
type Road struct {
	Stage   []Stretch // fill in, hold, build, commission, sign
	Stop    string    // what has to be mended before anybody fills it
	Refused string
	NoAir   string
	Phases  []Phase
	Done    int
	All     int
	Watches []Watch
	Logs    []Log
	Papers  bool
	Unsaved bool
	Key     string
	Number  int
	Day     string
}

// Stretch is one stretch of the road.
type Stretch struct {
	Name, Says string
	Done, Now  bool
}

// Phase are the steps that are done in one go.
type Phase struct {
	Title, Why, Stand string
	Steps             []Step
	Open              int
}

// Step is one step with what is entered for it.
type Step struct {
	ID, Title, Who, Why, Do, Expect, Write, Outside, OpenWhy, Status, Says string
	Locked, Done, Next                                                     bool
	Answers                                                                bool // an answer closes it
	Two                                                                    bool // two people do it
	Day                                                                    string
}

// Watch is what a gauge should show while a volume empties, for a stopwatch.
type Watch struct {
	Name string
	Rows string // JSON: time [s], lowest, expected, highest in words
}

// Log is an answer to readings.
type Log struct {
	LogAnswer
	Faults []problem.Problem
}

func roadOf(st *State) *Road {
	r := &Road{Key: st.Key, Number: st.Number, Day: st.Day, Unsaved: st.Altered}
	for _, l := range st.Logs {
		r.Logs = append(r.Logs, Log{l, l.Problems})
	}
	full := st.Full
	r.stretches(st)
	if full == nil {
		return r
	}
	r.Papers = true
	run := &full.Way.Run
	r.Stop, r.Refused = show.NotBefore(&full.Report), st.text(run.Refused)
	if r.Refused == "" {
		r.NoAir = st.text(run.NoAir)
	}
	r.Done, r.All = run.Count(), len(run.Steps)
	for i := range run.Steps {
		s := &run.Steps[i]
		p := commission.PhaseOf(s.Phase)
		if n := len(r.Phases); n == 0 || r.Phases[n-1].Title != p.Title {
			r.Phases = append(r.Phases, Phase{Title: p.Title, Why: p.Why, Stand: st.text(p.Stand)})
		}
		phase := &r.Phases[len(r.Phases)-1]
		one := stepOf(st, s)
		if !one.Done {
			phase.Open++
		}
		phase.Steps = append(phase.Steps, one)
	}
	r.watches(st)
	return r
}

// stepOf is one step in words.
func stepOf(st *State, s *commission.Step) Step {
	out := Step{ID: s.ID, Title: st.text(s.Title), Who: s.Who, Why: st.text(s.Why), Do: st.text(s.How), Expect: st.text(s.Expect),
		Write: st.text(s.Read), Outside: st.text(s.Outside), OpenWhy: st.text(s.OpenWhy), Status: string(s.Status),
		Locked: s.Status == commission.Locked, Done: s.Status == commission.Done, Next: s.Status == commission.Next ||
			s.Status == commission.Failed,
		Answers: finding.IsItem(s.ID), Two: s.People > 1, Day: st.Day}
	if s.Done != nil {
		out.Says = st.text(s.Done.Says()) + " (" + strings.Join([]string{s.Done.Who, s.Done.Date}, ", ") + ")"
		if s.Done.Said() {
			out.Says += ": " + show.SaidOnly
		}
	}
	return out
}

// stretches are where the design stands on its road.
func (r *Road) stretches(st *State) {
	var report *limits.Report
	if st.Full != nil {
		report = &st.Full.Report
	}
	says, filled := "every figure of the design", st.NoTOML == "" && len(st.Problems) == 0
	if l := st.Launcher; l != nil {
		if still := stillTo(len(l.Template), len(l.ToFind)); still != "" {
			says, filled = still, false
		}
	}
	r.Stage = []Stretch{{Name: "fill in", Done: filled, Says: says},
		{Name: "hold", Says: "no verdict fails or is unknown"},
		{Name: "build and commission", Says: "every step below"}, {Name: "sign", Says: "safety file and card"}}
	if report != nil {
		r.Stage[1].Done = report.Holds
		r.Stage[2].Done = report.Holds && report.OpenItems == 0 && report.Said == 0
		r.Stage[3].Done = report.Confirmed
	}
	for i := range r.Stage {
		if !r.Stage[i].Done {
			r.Stage[i].Now = true
			break
		}
	}
}

// watches are the readings to expect when it is switched off, or without power.
func (r *Road) watches(st *State) {
	e := st.Full.Assessment.Emptying
	if e == nil {
		return
	}
	for _, c := range e.Tests { // as `vent --sheet` has them: from where its filling ends
		if len(c.Sheet) < 2 || c.Start <= e.Target { // as vent.Report.Drawn: nothing to be watched
			continue
		}
		var rows [][4]string
		for _, s := range c.Sheet {
			rows = append(rows, [4]string{quantity.Exact(s.Time), st.Units.Words(quantity.Gauge, s.Low, quantity.Down),
				st.Units.Near(quantity.Gauge, s.Gauge), st.Units.Words(quantity.Gauge, s.High, quantity.Up)})
		}
		if data, err := json.Marshal(rows); err == nil {
			r.Watches = append(r.Watches, Watch{show.Clean(c.Volume) + ", " + c.Scenario, string(data)})
		}
	}
}

// Beside is this design beside the other.
type Beside struct {
	A, B             string
	WordsA, WordsB   string
	Keys             []change
	Figures, Verdict []change
}

func besideOf(st *State) *Beside {
	c := st.Compare
	if c == nil {
		return nil
	}
	out := &Beside{A: c.A, B: c.B}
	out.WordsA, _ = show.Finding(c.Results.A)
	out.WordsB, _ = show.Finding(c.Results.B)
	for _, d := range c.Keys {
		out.Keys = append(out.Keys, change{d.Key, said(d.A), said(d.B)})
	}
	for _, f := range c.Results.Figures {
		out.Figures = append(out.Figures, change{f.Name, show.Compared(st.Units, &f, f.A), show.Compared(st.Units, &f, f.B)})
	}
	for _, v := range c.Results.Verdicts {
		out.Verdict = append(out.Verdict, change{v.Title, statusWord(v.A), statusWord(v.B)})
	}
	return out
}
