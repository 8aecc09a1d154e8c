package screen

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// verdicts are verdicts with their figures and reasons, for the screens that show a
// part of a check.
func (s Style) verdicts(verdicts []finding.Verdict) part {
	return func(b *strings.Builder) {
		for _, v := range verdicts {
			figures := ""
			if show.Judged(v) {
				if value, limit := s.Units.Figures(v); value != "" {
					figures = show.OfLimit(v, value, limit) + "; basis " + show.Clean(string(v.Basis))
				}
			}
			s.writeVerdict(b, v, figures)
		}
	}
}

// writeVerdict prints a verdict with its line of figures and its reasons.
func (s Style) writeVerdict(b *strings.Builder, v finding.Verdict, figures string) {
	fmt.Fprintln(b)
	s.say(b, s.statusHead(v.Status), statusIndent, show.Clean(v.Title)+" ("+show.Clean(v.ID)+")")
	s.parts(b, verdictPart{"", figures}, verdictPart{"", s.text(v.Why)}, verdictPart{"", show.Clean(s.Units.Condition(v))},
		verdictPart{"Do: ", s.text(v.Advice)}, verdictPart{"Mind: ", s.text(v.Caveat)})
}

// verdictPart is a line under a verdict, and the word that it begins with.
type verdictPart struct{ lead, text string }

// parts prints what there is of lines under a verdict.
func (s Style) parts(b *strings.Builder, parts ...verdictPart) {
	for _, p := range parts {
		if p.text != "" {
			s.say(b, statusIndent, statusIndent, p.lead+p.text)
		}
	}
}

// items are checklist items in short.
func (s Style) items(items []finding.Item) part {
	return func(b *strings.Builder) {
		if len(items) == 0 {
			return
		}
		open := 0
		for _, it := range items {
			if it.Done == nil {
				open++
			}
		}
		fmt.Fprintln(b)
		fmt.Fprintln(b, s.paint(bold, fmt.Sprintf("To confirm by hand: %s open", show.Plural(open, "item", "items"))))
		for _, it := range items {
			mark := "[ ] "
			if it.Done != nil {
				mark = "[x] "
			}
			s.say(b, mark, "    ", s.text(it.Title))
			if len(it.Expect) != 0 {
				s.say(b, "    ", "    ", "expect: "+s.text(it.Expect))
			}
			if len(it.OpenWhy) != 0 {
				s.say(b, "    ", "    ", "still open: "+s.text(it.OpenWhy))
			}
		}
	}
}
