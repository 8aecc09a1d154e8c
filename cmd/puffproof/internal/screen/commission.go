package screen

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/commission"
	"puffproof/limits/finding"
)

// CommissionScreen shows where a commissioning stands, on a terminal or in a pipe: the step to be taken, or all.
type CommissionScreen struct {
	Frame
	Report limits.Report
	Run    *commission.Run
	Record record.State
	File   string        // the design's file, as it was named
	Wrote  *record.Wrote // nil: nothing was
	Steps  Listing
	Asked  Asked
}

// Asked is how much of a dialogue a screen is.
type Asked uint8

const (
	NotAsked Asked = iota // no dialogue
	First                 // its first screen
	Again                 // a later one: what the design is worth was said
)

// Write prints the screen.
func (s *CommissionScreen) Write(w io.Writer) error {
	if s.Steps == Listed {
		return s.write(w, s.finding(), s.worth, s.design, s.trouble, s.list, s.leftOut, s.cautions)
	}
	switch s.Asked {
	case First:
		return s.write(w, s.finding(), s.worth, s.design, s.trouble, s.step)
	case Again:
		return s.write(w, s.finding(), s.step)
	}
	return s.write(w, s.finding(), s.worth, s.design, s.trouble, s.step, s.next)
}

// finding is the first line.
func (s *CommissionScreen) finding() string {
	r, wrote := s.Run, ""
	if s.Wrote != nil {
		wrote = fmt.Sprintf("Wrote %s into %s: %s. ", s.Wrote.Step, show.Clean(s.Record.File), strings.ToUpper(s.Wrote.Result))
	}
	count := fmt.Sprintf("%d of %s done.", r.Count(), show.Plural(len(r.Steps), "step", "steps"))
	open := r.Open()
	switch {
	case len(r.Refused) != 0:
		return s.lines(red, "", "  ", wrote+"NO STEP may be taken: "+s.text(r.Refused)+".")
	case r.Complete:
		return s.lines(green, "", "  ", wrote+count+" Nothing is open.")
	case len(r.Mend()) != 0:
		return s.lines(red, "", "  ", wrote+count+" NO AIR: "+s.text(r.NoAir)+".")
	case open == nil:
		return s.lines(yellow, "", "  ", wrote+count+" Nothing is open, but "+show.Plural(r.Said, "step is", "steps are")+" "+show.SaidOnly+
			": do those again here, or put their record back.")
	case open.Status == commission.Failed:
		return s.lines(red, "", "  ", wrote+count+" FAILED: "+s.text(open.Title)+" ("+open.ID+"). No later step before it passes.")
	}
	return s.lines(yellow, "", "  ", wrote+count)
}

// worth is what the design itself is worth.
func (s *CommissionScreen) worth() {
	t, _ := show.Finding(s.Report)
	s.say("", "  ", t)
}

// trouble tells what is wrong with the record.
func (s *CommissionScreen) trouble() {
	for _, t := range s.Record.Troubles(s.File) {
		lead, rest, _ := strings.Cut(t, ":")
		if lead != "Note" {
			lead = s.paint(red, lead)
		}
		s.say(lead+": ", "  ", show.Clean(rest))
	}
}

// step prints the step to be taken.
func (s *CommissionScreen) step() {
	for _, t := range s.Wrote.Told() {
		s.say("  ", "  ", strings.TrimRight(s.text(t), ".")+".")
	}
	if open := s.Run.Open(); open != nil && len(s.Run.Mend()) == 0 {
		s.whole(open)
	}
}

// whole prints one step with all that belongs to it.
func (s *CommissionScreen) whole(step *commission.Step) {
	phase := commission.PhaseOf(step.Phase)
	s.gap()
	s.sayf("", "  ", "Step %d of %d, %s: %s (%s)", s.place(step), len(s.Run.Steps), strings.ToLower(phase.Title[:1])+phase.Title[1:],
		s.paint(bold, s.text(step.Title)), show.Clean(step.ID))
	line := func(lead, t string) {
		if t != "" {
			s.say("  "+fmt.Sprintf("%-9s", lead), "           ", t)
		}
	}
	for _, c := range s.Record.Due[step.ID] {
		line("again:", fmt.Sprintf("%s was %s, is %s", show.Clean(c.Key), missing(c.Before), missing(c.After)))
	}
	if len(step.OpenWhy) != 0 {
		line("open:", s.text(step.OpenWhy))
	}
	line("why:", s.text(step.Why))
	line("stand:", s.text(phase.Stand))
	line("who:", show.Clean(step.Who))
	line("do:", s.text(step.Do))
	line("expect:", s.text(step.Expect))
	line("write:", s.text(step.Read))
	line("outside:", s.text(step.Outside))
}

// missing is the value of a key, or that it is not there.
func missing(value string) string {
	if value == "" {
		return "not there"
	}
	return show.Clean(value)
}

// place is the number of a step.
func (s *CommissionScreen) place(step *commission.Step) int {
	for i := range s.Run.Steps {
		if s.Run.Steps[i].ID == step.ID {
			return i + 1
		}
	}
	return 0
}

// next is the line that goes on.
func (s *CommissionScreen) next() {
	file := show.InShell(s.File)
	open := cmp.Or(s.Run.Open(), s.Run.OnlySaid())
	switch {
	case len(s.Run.Mend()) != 0:
		s.println("\nnext: puffproof check " + file)
	case open == nil:
		if s.Record.Log.Ends() != "" {
			s.sayf("", "  ", "The record ends in %s: whoever looked last writes that beside the signature on the safety file, and keeps "+
				"a copy.", s.Record.Log.Ends())
		}
		if !s.Report.Confirmed {
			s.say("", "  ", "Speeds that were typed in change no verdict: the file of the shots does, with --shots (puffproof help calibrate).")
		}
		s.gap()
		s.println("next: puffproof dossier " + file + " -o safety-file.html")
	case finding.IsItem(open.ID):
		s.gap()
		s.sayf("next: ", "  ", "puffproof commission %s --step %s --reading \"...\" --who \"AB, CD\"", file, open.ID)
	}
}

// list prints every step in one line, by its phase.
func (s *CommissionScreen) list() {
	last := -1
	for i := range s.Run.Steps {
		step := &s.Run.Steps[i]
		if p := int(step.Phase); p != last {
			s.heading(commission.PhaseOf(step.Phase).Title)
			last = p
		}
		behind := ""
		if d := step.Done; d != nil {
			behind = ": " + s.text(d.Says()) + " " + signed(d)
		}
		s.say(s.paint(stepColour(step.Status), fmt.Sprintf("%-7s", step.Status)), "         ",
			s.text(step.Title)+" ("+show.Clean(step.ID)+")"+behind)
	}
}

func stepColour(st commission.Status) string {
	return map[commission.Status]string{commission.Done: green, commission.Next: yellow, commission.Failed: red, commission.Locked: faint}[st]
}

// leftOut prints the steps that this launcher does not have.
func (s *CommissionScreen) leftOut() {
	if len(s.Run.LeftOut) == 0 {
		return
	}
	s.heading("Left out")
	for _, l := range s.Run.LeftOut {
		s.say("  - ", "    ", l.Title+" ("+l.ID+"): "+s.text(l.Why))
	}
}

// Asks words what a dialogue asks for.
func (s *Frame) Asks(what string) string { return s.paint(bold, what+"> ") }
