package screen

import (
	"fmt"
	"io"
	"strings"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
)

// CheckScreen shows the answer of a check on a terminal or in a pipe.
type CheckScreen struct {
	Frame
	Report  limits.Report
	Sources Listing
	Assumed Listing
	// Scope is printed with the list of sources, Cautions always.
	Scope, Cautions []benchmark.Statement

	sources sourceList
}

// Write prints the screen.
func (c *CheckScreen) Write(w io.Writer) error {
	c.sources = sourceList{}
	for _, v := range c.Report.Verdicts {
		c.sources.number(v.Source)
	}
	for _, st := range append(append([]benchmark.Statement{}, c.Scope...), c.Cautions...) {
		c.sources.number(st.Source)
	}
	words, tone := show.Finding(c.Report)
	return c.write(w,
		c.paintTone(tone, Wrap(words, c.Width, "", "  ")), c.design, c.writeEnergy, c.writeMeasured, c.wave(c.Report.Wave), c.writeTroubles,
		c.writeConditional, c.writePasses, c.writeNotApplicable, c.writeInformation, c.writeAssumed, c.writeSources, c.writeCautions)
}

// writeTroubles prints failures and unknowns in full, in the report's order.
func (c *CheckScreen) writeTroubles() {
	for _, v := range show.Troubled(c.Report.Verdicts) {
		c.writeVerdict(v, c.figureLine(v))
	}
}

// figureLine is value against limit, basis and source of a verdict.
func (c *CheckScreen) figureLine(v finding.Verdict) string {
	var parts []string
	value, limit := c.Units.Figures(v)
	if v.Status == finding.Unknown {
		value, limit = "", ""
	}
	if value != "" {
		t := value
		if limit != "" {
			t += " against " + limit
		}
		if v.Margin != nil {
			t += ", " + show.Margin(*v.Margin)
		}
		parts = append(parts, t)
	}
	if v.Basis != "" {
		parts = append(parts, "basis "+show.Clean(string(v.Basis)))
	}
	if n := c.sources.number(v.Source); n > 0 {
		parts = append(parts, fmt.Sprintf("source [%d]", n))
	}
	return strings.Join(parts, "; ")
}

// writeConditional prints what holds only while people keep a condition: the figure
// that the condition holds back, the condition and its items.
func (c *CheckScreen) writeConditional() {
	if show.Tally(c.Report.Verdicts, finding.Conditional) > 0 {
		c.gap()
	}
	for _, v := range c.Report.Verdicts {
		if v.Status == finding.Conditional {
			c.say(c.statusHead(v.Status), statusIndent, show.Clean(v.Title)+" ("+show.Clean(v.ID)+")")
			c.parts(verdictPart{"", c.figureLine(v)}, verdictPart{"", show.Clean(c.Units.Condition(v))})
		}
	}
}

// writePasses prints one line for each pass.
func (c *CheckScreen) writePasses() {
	if show.Tally(c.Report.Verdicts, finding.Pass) == 0 {
		return
	}
	var rows [][4]string
	rest := 0 // columns taken by all but the title
	widths := [4]int{}
	for _, v := range c.Report.Verdicts {
		if v.Status != finding.Pass {
			continue
		}
		source := ""
		if n := c.sources.number(v.Source); n > 0 {
			source = fmt.Sprintf("[%d]", n)
		}
		value, limit := c.Units.Figures(v)
		row := [4]string{show.Clean(v.Title), show.OfLimit(v, value, limit), shorten(show.Clean(string(v.Basis)), 12), source}
		for i, cell := range row {
			widths[i] = max(widths[i], Columns(cell))
		}
		rows = append(rows, row)
	}
	for _, w := range widths[1:] {
		rest += w + 1
	}
	t := c.grid()
	word := show.Word(finding.Pass)
	room := max(12, c.Width-len(word+" ")-rest)
	for _, r := range rows {
		t.add(c.paintTone(show.ToneOf(finding.Pass), word), shorten(r[0], room), r[1], r[2], r[3])
	}
	c.printTable(t)
}

// writeNotApplicable prints one line for each question that does not arise.
func (c *CheckScreen) writeNotApplicable() {
	if show.Tally(c.Report.Verdicts, finding.NotApplicable) == 0 {
		return
	}
	c.gap()
	for _, v := range c.Report.Verdicts {
		if v.Status != finding.NotApplicable {
			continue
		}
		t := show.Clean(v.Title)
		if len(v.Why) != 0 {
			t += ": " + c.text(v.Why)
		}
		c.println(c.lines(faint, "n.a. ", "     ", t))
	}
}

// sourceList numbers sources in the order in which they are met.
type sourceList struct{ list []string }

// number gives a source's number from 1; 0 for no source.
func (s *sourceList) number(source string) int {
	if source == "" {
		return 0
	}
	for i, known := range s.list {
		if known == source {
			return i + 1
		}
	}
	s.list = append(s.list, source)
	return len(s.list)
}
