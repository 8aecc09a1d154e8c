package screen

import (
	"fmt"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// verdicts are verdicts with their figures and reasons, for the screens that show a
// part of a check.
func (s *Frame) verdicts(verdicts []finding.Verdict) part {
	return func() {
		for _, v := range verdicts {
			figures := ""
			if show.Judged(v) {
				if value, limit := show.Figures(s.Units, v); value != "" {
					figures = show.OfLimit(v, value, limit) + "; basis " + show.Clean(string(v.Basis))
				}
			}
			s.writeVerdict(v, figures)
		}
	}
}

// writeVerdict prints a verdict with its line of figures and its reasons.
func (s *Frame) writeVerdict(v finding.Verdict, figures string) {
	s.gap()
	s.verdictHead(v)
	s.under(figures, s.text(v.Why), show.Clean(show.Condition(s.Units, v)), show.Lead("Do: ", s.text(v.Advice)),
		show.Lead("Mind: ", s.text(v.Caveat)))
}

// verdictHead prints a verdict's status and what it is about.
func (s *Frame) verdictHead(v finding.Verdict) {
	s.say(s.statusHead(v.Status), statusIndent, show.Clean(v.Title)+" ("+show.Clean(v.ID)+")")
}

// under prints what there is of lines under a status.
func (s *Frame) under(lines ...string) {
	for _, l := range lines {
		if l != "" {
			s.say(statusIndent, statusIndent, l)
		}
	}
}

// items are checklist items in short.
func (s *Frame) items(items []finding.Item) part {
	return func() {
		if len(items) == 0 {
			return
		}
		open := 0
		for _, it := range items {
			if it.Done == nil {
				open++
			}
		}
		s.heading(fmt.Sprintf("To confirm by hand: %s open", show.Plural(open, "item", "items")))
		for _, it := range items {
			mark := "[ ] "
			if it.Done != nil {
				mark = "[x] "
			}
			s.say(mark, "    ", s.text(it.Title))
			if len(it.Expect) != 0 {
				s.say("    ", "    ", "expect: "+s.text(it.Expect))
			}
			if len(it.OpenWhy) != 0 {
				s.say("    ", "    ", "still open: "+s.text(it.OpenWhy))
			}
		}
	}
}
