package render

import (
	"fmt"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"strings"
)

// verdicts are verdicts with their figures and reasons, for the screens that show a
// part of a check.
func (s Style) verdicts(verdicts []finding.Verdict) part {
	return func(b *strings.Builder) {
		for _, v := range verdicts {
			figures := ""
			if v.Status == finding.Pass || v.Status == finding.Fail {
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
	for _, part := range []struct{ lead, text string }{{"", figures}, {"", show.Clean(v.Why.String())}, {"Do: ", show.Clean(v.Advice.String())},
		{"Mind: ", show.Clean(v.Caveat.String())}} {
		if part.text != "" {
			s.say(b, statusIndent, statusIndent, part.lead+part.text)
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
			s.say(b, mark, "    ", show.Clean(it.Title.String()))
			if len(it.Expect) != 0 {
				s.say(b, "    ", "    ", "expect: "+show.Clean(it.Expect.String()))
			}
			if len(it.OpenWhy) != 0 {
				s.say(b, "    ", "    ", "still open: "+show.Clean(it.OpenWhy.String()))
			}
		}
	}
}
