package commission

import (
	"puffproof/limits/checklist"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/vent"
)

// Status is where a step stands.
type Status string

// The four. A step that is locked waits for one before it.
const (
	Done   Status = "done"
	Next   Status = "next"
	Locked Status = "locked"
	Failed Status = "failed"
)

// Input is what the steps are made of.
type Input struct {
	Launcher *launcher.Launcher // with its answers
	Day      string             // of the question, an ISO date
	Items    []finding.Item     // of the checklist, answered
	Emptying *vent.Report
	Parts    []launcher.Part   // vessels and barrel with the highest pressure in each
	Plan     *measure.ShotPlan // nil: there is none
	Refused  finding.Text      // why nobody may take any step; nil: they may
	NoAir    finding.Text      // why nobody may take a step with air in the launcher; nil: they may
}

// Step is one step.
type Step struct {
	checklist.Step
	Status  Status
	Do      finding.Text      // how it is done
	Read    finding.Text      // what to write down
	Band    *finding.Expected // what a reading is held against; nil: words are asked
	Expect  finding.Text      // the same in words, and what else to see; nil: nothing beyond what is to do
	Outside finding.Text      // what to do where it is otherwise
	Stop    float64           // of shots: a faster one ends the day [m/s]; 0: no such step
	Takes   float64           // its doing takes so long at least [s]; 0: not known
	Failing bool              // its newest answer says that it did not pass
}

// LeftOut is a step that this launcher does not have.
type LeftOut struct {
	ID, Title string
	Why       finding.Text
}

// Run is the whole way.
type Run struct {
	Steps    []Step // in the order of doing
	LeftOut  []LeftOut
	Refused  finding.Text // as of Input
	NoAir    finding.Text // as of Input
	Said     int          // steps that are done by an answer which is said, not recorded
	Complete bool         // nothing is open or only said, and nothing has to be mended

	in Input
}

// Of makes the steps.
func Of(in Input) Run {
	r := Run{Refused: in.Refused, NoAir: in.NoAir, LeftOut: leftOut(in), in: in}
	for _, s := range checklist.InOrder(in.Items) {
		r.Steps = append(r.Steps, stepOf(in, s))
	}
	before := false // a step before is not done
	for i := range r.Steps {
		s := &r.Steps[i]
		switch {
		case s.Done != nil:
			s.Status = Done
		case s.Failing:
			s.Status = Failed
		case before || len(in.Refused) != 0 || len(r.Stops(s.ID)) != 0:
			s.Status = Locked
		default:
			s.Status = Next
		}
		if before = before || s.Status != Done; s.Done != nil && s.Done.Said() {
			r.Said++
		}
	}
	r.Complete = !before && r.Said == 0 && len(in.Refused) == 0 && len(in.NoAir) == 0
	return r
}

// stepOf is one step, without its status.
func stepOf(in Input, s checklist.Step) Step {
	out := Step{Step: s, Band: s.Figure, Expect: s.Expect, Outside: outside(s), Do: s.How, Takes: takes(s.ID)}
	if sw := in.Launcher.Switch; sw != nil && s.Phase == checklist.LeakDown {
		out.Do = finding.Say("The switch is not set yet: fill by a hand pump, or with a hand at the plug, to %s and no further. %s",
			finding.Bar(sw.CutOut.Nominal), s.How)
	}
	out.Read = toRead(&out, len(in.Launcher.Volumes) == 1)
	if s.ID == finding.ItemLeakDown {
		leakDown(in, &out)
	}
	if narrow(in, &out); out.Takes > 0 {
		out.Read = out.Read.Say("; with when, as \"from 14:05 to 14:20\", where it is written down later")
	}
	for k := range in.Launcher.Checklist {
		if c := &in.Launcher.Checklist[k]; c.Item == s.ID && c.Signed() && s.Done == nil {
			outcome, _ := finding.Judge(&s.Item, c, in.Day)
			out.Failing = outcome == finding.Failing
		}
	}
	return out
}

// leakDown tells of a leak-down how long it takes, and what one figure of it says.
func leakDown(in Input, s *Step) {
	t := checklist.LeakTestOf(in.Launcher, in.Emptying)
	if t == nil {
		return
	}
	s.Takes = t.Needed
	s.Read = finding.Say("how far the gauge fell between %s and %s, as \"%s from %s to %s\"; or %s", vent.Minutes(t.Settled),
		vent.Minutes(t.Needed), finding.Bars.Of(1e3, 1), vent.Minutes(t.Settled), vent.Minutes(t.Needed), s.Read)
}

// Step finds a step by its identifier; nil: this launcher has none.
func (r *Run) Step(id string) *Step {
	for i := range r.Steps {
		if r.Steps[i].ID == id {
			return &r.Steps[i]
		}
	}
	return nil
}

// Open is the step to be taken now: the first that is not done; nil: none.
func (r *Run) Open() *Step {
	for i := range r.Steps {
		if r.Steps[i].Status != Done {
			return &r.Steps[i]
		}
	}
	return nil
}

// OnlySaid is the first step that is done by an answer which is said, not recorded; nil: none.
func (r *Run) OnlySaid() *Step {
	for i := range r.Steps {
		if d := r.Steps[i].Done; d != nil && d.Said() {
			return &r.Steps[i]
		}
	}
	return nil
}

// Before is the step that has to be done before another one; nil: that may be taken now, or again.
func (r *Run) Before(id string) *Step {
	if s := r.Open(); s != nil && s.ID != id {
		for i := range r.Steps {
			switch r.Steps[i].ID {
			case id: // it stands before the open one
				return nil
			case s.ID:
				return s
			}
		}
	}
	return nil
}

// Stops says what has to be mended before a step that needs air in the launcher; nil: nothing, or it needs none.
func (r *Run) Stops(id string) finding.Text {
	switch {
	case checklist.Empty(id):
		return nil
	case len(r.Refused) != 0:
		return r.Refused
	}
	return r.NoAir
}

// Mend says what has to be mended before the step to be taken now; nil: nothing, or it may be taken all the same.
func (r *Run) Mend() finding.Text {
	switch open := r.Open(); {
	case len(r.Refused) != 0:
		return r.Refused
	case open != nil:
		return r.Stops(open.ID)
	}
	return r.NoAir
}

// LastBefore is the step with the latest date among those that go before another one and are done; nil: none has a date.
func (r *Run) LastBefore(id string) (last *Step) {
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.ID == id {
			break
		}
		if s.Done != nil && s.Done.Date != "" && (last == nil || s.Done.Date > last.Done.Date) {
			last = s
		}
	}
	return last
}

// Count is how many steps are done.
func (r *Run) Count() (done int) {
	for i := range r.Steps {
		if r.Steps[i].Status == Done {
			done++
		}
	}
	return done
}
