package measure

import (
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// Remark is something about a line of the log that a person should look at.
// Nothing is ever left out because of it.
type Remark struct {
	Line   int // 0: the whole file
	Text   finding.Text
	Severe bool // the figure cannot be what it says: the file is refused
}

// in words a remark with its place in a file.
func (r Remark) in(file string) finding.Text {
	if r.Line == 0 {
		return finding.Say("%s: %s", file, r.Text)
	}
	return finding.Say("%s, line %d: %s", file, r.Line, r.Text)
}

// Findings is what the measurements say, as plain data.
type Findings struct {
	Log      string
	Shots    []ShotSpeed
	Groups   []SpeedGroup // by rising pressure
	Bench    []BenchValue
	Fit      *Fit // nil: no shot to fit to
	Narrowed []Narrowing
	Remarks  []Remark
	Wrong    *Contradiction   // shots that the model cannot make; nil: none
	Clashes  []launcher.Clash // bench tests that contradict the design
}

// Agrees tells whether the model holds against everything in the log: the shots
// count, the fit is credible, nothing contradicts it.
func (e *Findings) Agrees() bool {
	return e.Best() != nil && e.Fit != nil && e.Fit.Credible && e.Wrong == nil && len(e.Clashes) == 0
}

// Narrowing is one band that a measurement replaced.
type Narrowing struct {
	Was, Now launcher.Band
	How      finding.Text
	Widened  bool // an end of Now, or both, is what was stated: what was read does not stand for both
}

// Severe lists the remarks that refuse the file.
func (e *Findings) Severe() []Remark {
	var out []Remark
	for _, r := range e.Remarks {
		if r.Severe {
			out = append(out, r)
		}
	}
	return out
}

// Best is the group of shots that the energy verdicts use: of the admissible
// ones that at the highest pressure; nil: none.
func (e *Findings) Best() *SpeedGroup {
	for i := len(e.Groups) - 1; i >= 0; i-- {
		if e.Groups[i].Admissible() {
			return &e.Groups[i]
		}
	}
	return nil
}

// Main is the group that counts, else the largest; nil: there is none.
func (e *Findings) Main() *SpeedGroup {
	if g := e.Best(); g != nil {
		return g
	}
	var best *SpeedGroup
	for i := range e.Groups {
		if g := &e.Groups[i]; best == nil || g.Shots >= best.Shots {
			best = g
		}
	}
	return best
}

// Narrow gives a copy of the launcher with the measured bands in place of the
// stated or assumed ones.
func (e *Findings) Narrow(l *launcher.Launcher) *launcher.Launcher {
	c := l.Clone()
	for _, n := range e.Narrowed {
		replaceBand(c, n)
	}
	return c
}

// Contradiction is measured shots that the model with its factor, or the air
// itself, cannot make.
type Contradiction struct {
	Text    finding.Text
	Energy  float64 // the measured figure [J]
	Allowed float64 // what it is above [J]
}
