package render

import (
	"fmt"
	"puffproof/limits/finding"
	"strings"
)

// writeVerdicts prints verdicts with their figures and reasons, for the screens
// that show a part of a check.
func writeVerdicts(b *strings.Builder, s Style, verdicts []finding.Verdict) {
	const indent = "         "
	for _, v := range verdicts {
		head := fmt.Sprintf("%-9s", statusWord(v.Status))
		fmt.Fprintln(b)
		fmt.Fprintln(b, Wrap(Clean(v.Title)+" ("+Clean(v.ID)+")", s.Width, s.paint(statusColour(v.Status), head), indent))
		if v.Status == finding.Pass || v.Status == finding.Fail {
			if value, limit := s.figures(v); value != "" {
				fmt.Fprintln(b, Wrap(ofLimit(v, value, limit)+"; basis "+Clean(string(v.Basis)), s.Width, indent, indent))
			}
		}
		for _, part := range []struct{ lead, text string }{{"", v.Why}, {"Do: ", v.Advice}, {"Mind: ", v.Caveat}} {
			if part.text != "" {
				fmt.Fprintln(b, Wrap(part.lead+Clean(part.text), s.Width, indent, indent))
			}
		}
	}
}

// writeItems prints checklist items in short.
func writeItems(b *strings.Builder, s Style, items []finding.Item) {
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
	fmt.Fprintln(b, s.paint(bold, fmt.Sprintf("To confirm by hand: %s open", plural(open, "item", "items"))))
	for _, it := range items {
		mark := "[ ] "
		if it.Done != nil {
			mark = "[x] "
		}
		fmt.Fprintln(b, Wrap(Clean(it.Title), s.Width, mark, "    "))
		if it.Expect != "" {
			fmt.Fprintln(b, Wrap("expect: "+Clean(it.Expect), s.Width, "    ", "    "))
		}
		if it.OpenWhy != "" {
			fmt.Fprintln(b, Wrap("still open: "+Clean(it.OpenWhy), s.Width, "    ", "    "))
		}
	}
}

// verdictDocs are verdicts as JSON.
func verdictDocs(verdicts []finding.Verdict) []verdictDoc {
	out := []verdictDoc{}
	for _, v := range verdicts {
		out = append(out, verdictDocOf(v))
	}
	return out
}

// verdictDocOf is one verdict as JSON: figures only where it was judged.
func verdictDocOf(v finding.Verdict) verdictDoc {
	d := verdictDoc{ID: v.ID, Title: v.Title, Status: string(v.Status), Unit: string(v.Unit), Basis: string(v.Basis),
		Source: v.Source, Caveat: v.Caveat, Why: v.Why, Advice: v.Advice}
	if v.Status == finding.Pass || v.Status == finding.Fail {
		d.Value, d.Limit, d.Margin = v.Value, v.Limit, v.Margin
	}
	return d
}

// itemDocs are checklist items as JSON.
func itemDocs(items []finding.Item) []itemDoc {
	out := []itemDoc{}
	for _, it := range items {
		out = append(out, itemDoc{it.ID, it.Title, it.Why, it.How, it.Expect, it.Verdict, it.Source, it.Done == nil, it.OpenWhy})
	}
	return out
}
