package screen

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/benchmark"
	"puffproof/limits/launcher"
)

// writeInformation prints what stands beside the verdicts and judges nothing.
func (c *CheckScreen) writeInformation() {
	c.gap()
	if len(c.Report.Eye) > 0 {
		var parts []string
		for _, e := range c.Report.Eye {
			parts = append(parts, show.Clean(e.Injury)+" "+quantity.Number(e.Ratio, 2))
		}
		c.say("", "  ", "Eye, for information: the worst energy per frontal area, as a multiple of that "+
			"with a 50 % chance of the injury: "+strings.Join(parts, ", ")+". "+show.Clean(benchmark.EyeInjuries().Text))
	}
	for _, line := range show.Sound(c.Units, c.Report.Sound) {
		c.say("", "  ", line)
	}
	c.notes(c.Report.Notes)()
	for _, it := range c.Report.Items {
		if len(it.OpenWhy) != 0 {
			c.say("", "  ", "Still open, "+show.Clean(it.ID)+": "+c.text(it.OpenWhy)+".")
		}
	}
	if c.Report.OpenItems > 0 {
		c.say("", "  ", show.Plural(c.Report.OpenItems, "item", "items")+" of the checklist open: "+c.openTitles()+".")
	}
}

// openTitles names the open items, the first few of them.
func (c *CheckScreen) openTitles() string {
	const shown = 3
	var titles []string
	for _, it := range c.Report.Items {
		if it.Done == nil {
			titles = append(titles, strings.TrimRight(c.text(it.Title), "."))
		}
	}
	if len(titles) > shown {
		return strings.Join(titles[:shown], "; ") + fmt.Sprintf("; and %d more", len(titles)-shown)
	}
	return strings.Join(titles, "; ")
}

// writeAssumed prints how many bands were assumed and which of them decide, or
// the whole list.
func (c *CheckScreen) writeAssumed() {
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
		c.say("", "  ", t+" --assumed lists them.")
		return
	}
	c.say("", "  ", t)
	for _, band := range a {
		c.say("  ", "      ", c.bandText(band))
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
	low, ok := c.keys().Value(band.Key, band.Low)
	if high, _ := c.keys().Value(band.Key, band.High); ok && low != high {
		t += ": " + low + " to " + high
	} else if ok {
		t += ": " + low
	}
	if len(band.Reason) != 0 {
		t += " (" + c.text(band.Reason) + ")"
	}
	return t
}

// writeSources prints how many sources the numbers mean, or the list.
func (c *CheckScreen) writeSources() {
	if len(c.sources.list) == 0 {
		return
	}
	if c.Sources == Counted {
		c.say("", "  ", "Numbers in brackets are sources; --sources lists them.")
		return
	}
	c.writeSourceList(c.sources)
}

// writeSourceList prints sources under their numbers.
func (f *Frame) writeSourceList(sources sourceList) {
	f.println("Sources:")
	for i, s := range sources.list {
		f.say(fmt.Sprintf("  [%d] ", i+1), "      ", show.Clean(s))
	}
}

// writeCautions prints what no figure can take away, and with the sources what
// the figures are.
func (c *CheckScreen) writeCautions() {
	c.gap()
	if c.Sources == Listed {
		c.writeScope()
	}
	var parts []string
	for _, st := range c.Cautions {
		parts = append(parts, c.statement(st))
	}
	if len(parts) > 0 {
		c.say("", "", strings.Join(parts, " "))
	}
}

// writeScope prints what the figures are.
func (c *CheckScreen) writeScope() {
	for _, st := range c.Scope {
		c.say("", "  ", c.statement(st))
	}
}

// statement is a sentence with the number of its source.
func (c *CheckScreen) statement(st benchmark.Statement) string {
	return show.Clean(st.Text) + show.Lead(" ", c.sources.mark(st.Source))
}
