package screen

import (
	"fmt"
	"io"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/checklist"
	"puffproof/limits/finding"
)

// ItemsScreen shows the checklist in the order of doing, on a terminal or in a pipe.
type ItemsScreen struct {
	Frame
	Report limits.Report
	Steps  []checklist.Step // all, in the order of doing
	File   string           // the design's file, as it was named
	Wrote  string           // the item whose answer was just written; "" none
	Done   Listing          // whether done items are shown
}

// Write prints the screen.
func (s *ItemsScreen) Write(w io.Writer) error {
	if s.Wrote != "" && s.Done == Counted { // who writes down one thing has seen the list
		return s.write(w, s.finding(), s.worth, s.design, s.next)
	}
	return s.write(w, s.finding(), s.worth, s.design, s.list, s.cautions, s.next)
}

// finding is the first line.
func (s *ItemsScreen) finding() string {
	wrote, tone := "", green
	if s.Wrote != "" {
		wrote = "Wrote " + s.Wrote + " into " + show.Clean(s.File) + ". "
	}
	t := "No item is open."
	switch {
	case s.Report.OpenItems > 0:
		t, tone = fmt.Sprintf("%d of %s open.", s.Report.OpenItems, show.Plural(len(s.Steps), "item", "items")), yellow
	case s.Report.Said > 0:
		t, tone = fmt.Sprintf("No item is open, but %d of %s said, not recorded.", s.Report.Said,
			show.Plural(len(s.Steps), "item is", "items are")), yellow
	}
	return s.lines(tone, "", "", wrote+t)
}

// worth is what the design itself is worth: no item says that.
func (s *ItemsScreen) worth() {
	t, _ := show.Finding(s.Report)
	s.say("", "  ", t)
}

// list prints the items that are asked for.
func (s *ItemsScreen) list() {
	stop, steps := show.NotCharged(&s.Report), s.Steps
	if s.Done == Counted {
		steps = checklist.ToDo(steps)
	}
	for i, step := range steps {
		if i == 0 {
			s.gap()
		}
		mark := "[ ] "
		if step.Done != nil {
			mark = "[x] "
		}
		line := func(lead, t string) {
			if t != "" {
				s.say("    ", "      ", lead+t)
			}
		}
		s.say(mark, "    ", s.text(step.Title)+" ("+show.Clean(step.ID)+")")
		if d := step.Done; d != nil {
			line("done: ", s.text(d.Says())+show.Lead(" ", signed(d)))
			continue
		}
		if stop != "" && !checklist.Empty(step.ID) {
			line("", show.Clean(stop)+".")
		} else {
			line("expect: ", s.text(step.Expect))
		}
		line("write: ", s.text(step.Write()))
		line("who: ", show.Clean(step.Who))
		line("still open: ", s.text(step.OpenWhy))
	}
}

// signed is who answered an item and when, in brackets, and that it is said only.
func signed(d *finding.Confirmation) string {
	who := "(" + show.Clean(d.Who)
	if d.Date != "" {
		who += ", " + show.Clean(d.Date)
	}
	if d.Said() {
		who += "; " + show.SaidOnly
	}
	return who + ")"
}

// next says how the first open item is done, or the first that is only said, and how it is written down.
func (s *ItemsScreen) next() {
	todo := checklist.ToDo(s.Steps)
	if len(todo) == 0 {
		return
	}
	step, lead := todo[0], "First: "
	if step.Done != nil {
		lead = "Again, so that the record has it: "
	}
	s.gap()
	s.say("", "  ", s.paint(bold, lead)+s.text(step.Title)+" ("+show.Clean(step.ID)+")")
	if stop := show.NotCharged(&s.Report); stop != "" && !checklist.Empty(step.ID) {
		s.say("  ", "  ", show.Clean(stop)+".")
		return
	}
	s.say("  ", "  ", s.text(step.How))
	if finding.IsItem(step.ID) {
		s.sayf("next: ", "  ", "puffproof items %s --done %s --value \"what was read\" --who \"initials\"", show.Clean(s.File), step.ID)
	}
}
