package screen

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/benchmark"
	"puffproof/limits/launcher"
)

// writeInformation prints what stands beside the verdicts and judges nothing.
func (c *CheckScreen) writeInformation(b *strings.Builder) {
	w := c.Style.Width
	fmt.Fprintln(b)
	if len(c.Report.Eye) > 0 {
		var parts []string
		for _, e := range c.Report.Eye {
			parts = append(parts, show.Clean(e.Injury)+" "+show.Number(e.Ratio, 2))
		}
		fmt.Fprintln(b, Wrap("Eye, for information: the worst energy per frontal area, as a multiple of that "+
			"with a 50 % chance of the injury: "+strings.Join(parts, ", ")+".", w, "", "  "))
	}
	c.Style.notes(c.Report.Notes)(b)
	for _, it := range c.Report.Items {
		if len(it.OpenWhy) != 0 {
			fmt.Fprintln(b, Wrap("Still open, "+show.Clean(it.ID)+": "+c.Style.text(it.OpenWhy)+".", w, "", "  "))
		}
	}
	if c.Report.OpenItems > 0 {
		fmt.Fprintln(b, Wrap(show.Plural(c.Report.OpenItems, "item", "items")+" of the checklist open: "+c.openTitles()+".", w, "", "  "))
	}
}

// openTitles names the open items, the first few of them.
func (c *CheckScreen) openTitles() string {
	const shown = 3
	var titles []string
	for _, it := range c.Report.Items {
		if it.Done == nil {
			titles = append(titles, strings.TrimRight(c.Style.text(it.Title), "."))
		}
	}
	if len(titles) > shown {
		return strings.Join(titles[:shown], "; ") + fmt.Sprintf("; and %d more", len(titles)-shown)
	}
	return strings.Join(titles, "; ")
}

// writeAssumed prints how many bands were assumed and which of them decide, or
// the whole list.
func (c *CheckScreen) writeAssumed(b *strings.Builder) {
	a := c.Report.Assumed
	if len(a) == 0 {
		return
	}
	t := show.Plural(len(a), "band was assumed because the design does not state it",
		"bands were assumed because the design does not state them")
	if d := c.deciding(); len(d) > 0 {
		t += "; these shift the worst case: " + strings.Join(d, ", ")
	}
	t += "."
	if c.Assumed == Counted {
		c.Style.say(b, "", "  ", t+" --assumed lists them.")
		return
	}
	c.Style.say(b, "", "  ", t)
	for _, band := range a {
		c.Style.say(b, "  ", "      ", c.bandText(band))
	}
}

// deciding names the assumed bands that the worst case pushes off nominal.
func (c *CheckScreen) deciding() []string {
	if c.Report.Energy == nil {
		return nil
	}
	var out []string
	for _, band := range c.Report.Assumed {
		for _, co := range c.Report.Energy.WorstPoint {
			if co.Key == band.Key && co.Side != "nominal" {
				out = append(out, show.Clean(band.Key))
			}
		}
	}
	return out
}

// bandText is one assumed band: its ends where a unit is known, and the rule.
func (c *CheckScreen) bandText(band launcher.Band) string {
	t := show.Clean(band.Key)
	low, ok := c.keyValue(band.Key, band.Low)
	if high, _ := c.keyValue(band.Key, band.High); ok && low != high {
		t += ": " + low + " to " + high
	} else if ok {
		t += ": " + low
	}
	if len(band.Reason) != 0 {
		t += " (" + c.Style.text(band.Reason) + ")"
	}
	return t
}

// writeSources prints how many sources the numbers mean, or the list.
func (c *CheckScreen) writeSources(b *strings.Builder) {
	if len(c.sources.list) == 0 {
		return
	}
	if c.Sources == Counted {
		c.Style.say(b, "", "  ", "Numbers in brackets are sources; --sources lists them.")
		return
	}
	fmt.Fprintln(b, "Sources:")
	for i, s := range c.sources.list {
		c.Style.say(b, fmt.Sprintf("  [%d] ", i+1), "      ", show.Clean(s))
	}
}

// writeCautions prints what no figure can take away, and with the sources what
// the figures are.
func (c *CheckScreen) writeCautions(b *strings.Builder) {
	fmt.Fprintln(b)
	if c.Sources == Listed {
		for _, st := range c.Scope {
			c.Style.say(b, "", "  ", c.statement(st))
		}
	}
	var parts []string
	for _, st := range c.Cautions {
		parts = append(parts, c.statement(st))
	}
	if len(parts) > 0 {
		c.Style.say(b, "", "", strings.Join(parts, " "))
	}
}

// statement is a sentence with the number of its source.
func (c *CheckScreen) statement(st benchmark.Statement) string {
	t := show.Clean(st.Text)
	if n := c.sources.number(st.Source); n > 0 {
		t += fmt.Sprintf(" [%d]", n)
	}
	return t
}
