package render

import (
	"fmt"
	"io"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
)

// CheckScreen shows the answer of a check on a terminal or in a pipe.
type CheckScreen struct {
	Style   Style
	Design  DesignID
	Report  limits.Report
	Detail  Detail
	Sources Listing
	Assumed Listing
	// Scope is printed with the list of sources, Cautions always.
	Scope, Cautions []benchmark.Statement
	// DimensionOf tells what a key of the design file measures, so that its
	// values can be shown with a unit; nil shows no values of keys.
	DimensionOf func(key string) (unit.Dimension, bool)

	sources sourceList
}

// Write prints the screen.
func (c *CheckScreen) Write(w io.Writer) error {
	var b strings.Builder
	c.sources = sourceList{}
	for _, v := range c.Report.Verdicts {
		c.sources.number(v.Source)
	}
	for _, st := range append(append([]benchmark.Statement{}, c.Scope...), c.Cautions...) {
		c.sources.number(st.Source)
	}
	fmt.Fprintln(&b, c.finding())
	if c.Detail == Everything {
		c.writeDesign(&b)
		c.writeEnergy(&b)
		c.writeMeasured(&b)
		c.Style.writeWave(&b, c.Report.Wave)
		c.writeTroubles(&b)
		c.writePasses(&b)
		c.writeNotApplicable(&b)
		c.writeInformation(&b)
		c.writeAssumed(&b)
		c.writeSources(&b)
		c.writeCautions(&b)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// count counts the verdicts of a status.
func (c *CheckScreen) count(st finding.Status) int {
	n := 0
	for _, v := range c.Report.Verdicts {
		if v.Status == st {
			n++
		}
	}
	return n
}

// finding is the first line, the one that may be the only one read.
func (c *CheckScreen) finding() string {
	colour := green
	switch r := c.Report; {
	case !r.Holds:
		colour = red
	case !r.Confirmed:
		colour = yellow
	}
	return c.Style.paint(colour, Finding(c.Report))
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func (c *CheckScreen) writeDesign(b *strings.Builder) {
	fmt.Fprintln(b, Shorten(Clean(titleOf(c.Design)), c.Style.Width-22)+c.Style.paint(faint, fingerprint(c.Design)))
}

// fingerprint is the start of the design file's hash, enough to tell two files apart.
func fingerprint(id DesignID) string {
	if len(id.SHA256) < 12 {
		return ""
	}
	return " [file " + id.SHA256[:12] + "]"
}

// writeTroubles prints failures and unknowns in full, in the report's order.
func (c *CheckScreen) writeTroubles(b *strings.Builder) {
	for _, v := range c.Report.Verdicts {
		if v.Status != finding.Fail && v.Status != finding.Unknown {
			continue
		}
		c.writeTrouble(b, v)
	}
}

func (c *CheckScreen) writeTrouble(b *strings.Builder, v finding.Verdict) {
	const indent = "         "
	head := fmt.Sprintf("%-9s", statusWord(v.Status))
	fmt.Fprintln(b)
	fmt.Fprintln(b, Wrap(Clean(v.Title)+" ("+Clean(v.ID)+")", c.Style.Width,
		c.Style.paint(statusColour(v.Status), head), indent))
	if line := c.figureLine(v); line != "" {
		fmt.Fprintln(b, Wrap(line, c.Style.Width, indent, indent))
	}
	for _, part := range []struct{ lead, text string }{{"", v.Why}, {"Do: ", v.Advice}, {"Mind: ", v.Caveat}} {
		if part.text != "" {
			fmt.Fprintln(b, Wrap(part.lead+Clean(part.text), c.Style.Width, indent, indent))
		}
	}
}

// figureLine is value against limit, basis and source of a verdict.
func (c *CheckScreen) figureLine(v finding.Verdict) string {
	var parts []string
	value, limit := c.Style.figures(v)
	if v.Status == finding.Unknown {
		value, limit = "", ""
	}
	if value != "" {
		t := value
		if limit != "" {
			t += " against " + limit
		}
		if v.Margin != nil {
			t += ", " + margin(*v.Margin)
		}
		parts = append(parts, t)
	}
	if v.Basis != "" {
		parts = append(parts, "basis "+Clean(string(v.Basis)))
	}
	if n := c.sources.number(v.Source); n > 0 {
		parts = append(parts, fmt.Sprintf("source [%d]", n))
	}
	return strings.Join(parts, "; ")
}

// writePasses prints one line for each pass.
func (c *CheckScreen) writePasses(b *strings.Builder) {
	if c.count(finding.Pass) == 0 {
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
		value, limit := c.Style.figures(v)
		row := [4]string{Clean(v.Title), ofLimit(v, value, limit), Shorten(Clean(string(v.Basis)), 12), source}
		for i, cell := range row {
			widths[i] = max(widths[i], Columns(cell))
		}
		rows = append(rows, row)
	}
	for _, w := range widths[1:] {
		rest += w + 1
	}
	t := plainTable()
	people := false
	room := max(12, c.Style.Width-len("PASS* ")-rest)
	for _, r := range rows {
		word := "PASS"
		if r[2] == string(finding.OnProcedure) {
			word, people = "PASS*", true
		}
		t.AppendRow(table.Row{c.Style.paint(green, word), Shorten(r[0], room), r[1], r[2], r[3]})
	}
	fmt.Fprintln(b)
	fmt.Fprintln(b, trimLines(t.Render()))
	if people {
		fmt.Fprintln(b, Wrap("holds only while people do what the design declares, whatever the figure says; each is an item to inspect. --json has the condition.",
			c.Style.Width, "* ", "  "))
	}
}

// ofLimit says "0.38 of 0.50 J": the unit once where both have the same.
// A limit to stay above is "at least".
func ofLimit(v finding.Verdict, value, limit string) string {
	between := " of "
	if isLower(v) {
		between = ", at least "
	}
	if limit == "" {
		return value
	}
	number, u, _ := strings.Cut(value, " ")
	if _, lu, _ := strings.Cut(limit, " "); lu == u {
		return number + between + limit
	}
	return value + between + limit
}

// writeNotApplicable prints one line for each question that does not arise.
func (c *CheckScreen) writeNotApplicable(b *strings.Builder) {
	if c.count(finding.NotApplicable) == 0 {
		return
	}
	fmt.Fprintln(b)
	for _, v := range c.Report.Verdicts {
		if v.Status != finding.NotApplicable {
			continue
		}
		t := Clean(v.Title)
		if v.Why != "" {
			t += ": " + Clean(v.Why)
		}
		fmt.Fprintln(b, c.Style.paint(faint, Wrap(t, c.Style.Width, "n.a. ", "     ")))
	}
}

// plainTable is a table of blanks only, without the colours that the library
// would put into a pipe.
func plainTable() table.Writer {
	t := table.NewWriter()
	s := table.StyleDefault
	s.Options = table.OptionsNoBordersAndSeparators
	s.Box.PaddingLeft, s.Box.PaddingRight = "", " "
	t.SetStyle(s)
	return t
}

// trimLines cuts the blanks that a table leaves at the ends of its lines.
func trimLines(s string) string {
	lines := strings.Split(s, "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n")
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
