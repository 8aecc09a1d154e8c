package screen

import (
	"fmt"
	"io"
	"slices"
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
	File    string // the design's, for the command that goes on from here; "": none to name
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
	if c.Detail == OneScreen {
		c.Width = min(c.Width, DefaultWidth)
		c.writeOneScreen(c.paintTone(tone, show.Wrap(words, c.Width, "", "  ")))
		c.writeAsked()
		return c.flush(w)
	}
	return c.write(w, c.paintTone(tone, show.Wrap(words, c.Width, "", "  ")), c.design, c.writeEnergy,
		func() { c.writeBudget(c.Report.Budget) }, c.writeMeasured, c.wave(c.Report.Wave), c.writeTroubles, c.writeConditional, c.writePasses,
		c.writeNotApplicable, c.writeInformation, c.writeAssumed, c.writeSources, c.writeCautions, c.writeDoFirst)
}

// writeAsked prints under the one screen what was asked for by a flag.
func (c *CheckScreen) writeAsked() {
	c.wave(c.Report.Wave)()
	if c.Assumed == Listed && len(c.Report.Assumed) > 0 {
		c.gap()
		c.writeAssumed()
	}
	if c.Sources == Listed {
		c.gap()
		c.writeSources()
		c.writeScope()
	}
}

// writeTroubles prints failures and unknowns in full, in the report's order.
func (c *CheckScreen) writeTroubles() {
	for _, v := range show.Troubled(c.Report.Verdicts) {
		c.writeVerdict(v, c.figureLine(v))
	}
}

// figureLine is value against limit, basis and source of a verdict.
func (c *CheckScreen) figureLine(v finding.Verdict) string {
	value, limit := show.Figures(c.Units, v)
	switch {
	case v.Status == finding.Unknown:
		value = ""
	case show.NoneAllowed(v) != "" && limit != "":
		value += show.NoneAllowed(v)
	case value != "":
		value += show.Lead(" against ", limit)
		if v.Margin != nil {
			value += show.Lead(", ", show.MarginOf(v))
		}
	}
	return show.Joined("; ", value, show.Lead("basis ", show.Clean(string(v.Basis))), show.Lead("source ", c.sources.mark(v.Source)))
}

// writeConditional prints what holds only while people keep a condition: the figure
// that the condition holds back, the condition and its items.
func (c *CheckScreen) writeConditional() {
	for i, v := range show.WithStatus(c.Report.Verdicts, finding.Conditional) {
		if i == 0 {
			c.gap()
		}
		c.verdictHead(v)
		c.under(c.figureLine(v), show.Clean(show.Condition(c.Units, v)))
	}
}

// writePasses prints one line for each pass, more where its title takes them.
func (c *CheckScreen) writePasses() {
	passes := show.WithStatus(c.Report.Verdicts, finding.Pass)
	if len(passes) == 0 {
		return
	}
	var rows [][4]string
	rest := 0 // columns taken by all but the title
	widths := [4]int{}
	for _, v := range passes {
		value, limit := show.Figures(c.Units, v)
		row := [4]string{show.Clean(v.Title), show.OfLimit(v, value, limit), show.Shorten(show.Clean(string(v.Basis)), 12),
			c.sources.mark(v.Source)}
		for i, cell := range row {
			widths[i] = max(widths[i], show.Columns(cell))
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
		title := strings.Split(show.Wrap(r[0], room, "", " "), "\n")
		t.add(c.paintTone(show.ToneOf(finding.Pass), word), title[0], r[1], r[2], r[3])
		for _, more := range title[1:] {
			t.add("", more)
		}
	}
	c.printTable(t)
}

// writeNotApplicable prints one line for each question that does not arise.
func (c *CheckScreen) writeNotApplicable() {
	for i, v := range show.WithStatus(c.Report.Verdicts, finding.NotApplicable) {
		if i == 0 {
			c.gap()
		}
		c.println(c.lines(faint, "n.a. ", "     ", show.Clean(v.Title)+show.Lead(": ", c.text(v.Why))))
	}
}

// sourceList numbers sources in the order in which they are met.
type sourceList struct{ list []string }

// number gives a source's number from 1; 0 for no source.
func (s *sourceList) number(source string) int {
	if source == "" {
		return 0
	}
	if i := slices.Index(s.list, source); i >= 0 {
		return i + 1
	}
	s.list = append(s.list, source)
	return len(s.list)
}

// mark is the number of a source in brackets; "" for no source.
func (s *sourceList) mark(source string) string {
	if n := s.number(source); n > 0 {
		return fmt.Sprintf("[%d]", n)
	}
	return ""
}
