package screen

import (
	"io"
	"strings"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/finding"
)

// CompareScreen shows two designs side by side. The design of its frame is the first.
type CompareScreen struct {
	Frame
	Second  show.DesignID
	Differs []show.KeyDifference
	Results limits.Comparison
}

// Write prints the screen.
func (c *CompareScreen) Write(w io.Writer) error {
	words, tone := show.Finding(c.Results.B)
	first, _ := show.Finding(c.Results.A)
	return c.write(w, c.paintTone(tone, show.Wrap("B: "+words, c.Width, "", "   "))+"\n"+show.Wrap("A: "+first, c.Width, "", "   "),
		c.designs, c.writeKeys, c.writeFigures, c.writeVerdicts, c.cautions)
}

// designs names both.
func (c *CompareScreen) designs() {
	for _, one := range []struct {
		letter string
		id     show.DesignID
	}{{"A: ", c.Design}, {"B: ", c.Second}} {
		c.say(one.letter, "   ", show.Clean(one.id.Title())+fingerprint(one.id))
	}
}

// writeKeys lists the keys that the files do not write alike.
func (c *CompareScreen) writeKeys() {
	if len(c.Differs) == 0 {
		c.heading("Every key has the same value in both files")
		return
	}
	c.heading("What the files write differently")
	stated := func(v *string) string {
		if v == nil {
			return "not stated"
		}
		return show.Clean(*v)
	}
	var rows [][3]string
	for _, d := range c.Differs {
		rows = append(rows, [3]string{show.Clean(d.Key), stated(d.A), stated(d.B)})
	}
	c.columns(rows)
}

// writeFigures puts the results side by side.
func (c *CompareScreen) writeFigures() {
	c.heading("What comes of it")
	var rows [][3]string
	missing := false
	for _, f := range c.Results.Figures {
		rows = append(rows, [3]string{show.Clean(f.Name), show.Compared(c.Units, &f, f.A), show.Compared(c.Units, &f, f.B)})
		missing = missing || f.A == nil || f.B == nil
	}
	c.columns(rows)
	if missing {
		c.say("  ", "  ", "-: not known, without end, or there is none.")
	}
}

// writeVerdicts lists the verdicts whose answers differ.
func (c *CompareScreen) writeVerdicts() {
	if len(c.Results.Verdicts) == 0 {
		c.heading("Every verdict has the same answer for both")
		return
	}
	c.heading("Verdicts whose answers differ")
	word := func(st finding.Status) string {
		if st == "" {
			return "not asked"
		}
		return show.Word(st)
	}
	var rows [][3]string
	for _, v := range c.Results.Verdicts {
		rows = append(rows, [3]string{show.Clean(v.Title) + " (" + v.ID + ")", word(v.A), word(v.B)})
	}
	c.columns(rows)
}

// columns prints rows in three columns, cells in as many lines as they take.
func (c *CompareScreen) columns(rows [][3]string) {
	widths := c.shares(rows)
	t := c.grid("", "A", "B")
	for _, r := range rows {
		var cells [3][]string
		lines := 0
		for i, cell := range r {
			cells[i] = strings.Split(show.Wrap(cell, widths[i], "", ""), "\n")
			lines = max(lines, len(cells[i]))
		}
		for n := range lines {
			line := [3]string{}
			for i := range cells {
				if n < len(cells[i]) {
					line[i] = cells[i][n]
				}
			}
			t.add("  "+line[0], line[1], line[2])
		}
	}
	c.printRows(t)
}

// shares are the widths of three columns that fit the screen together: names have up to a half, and a value what the other one
// leaves.
func (c *CompareScreen) shares(rows [][3]string) [3]int {
	w := [3]int{0, 1, 1} // "A" and "B"
	for _, r := range rows {
		for i, cell := range r {
			w[i] = max(w[i], show.Columns(cell))
		}
	}
	room := c.Width - len("  ") - 2 // two blanks between
	if w[0]+w[1]+w[2] <= room {
		return w
	}
	w[0] = min(w[0], room/2)
	rest := room - w[0]
	w[1] = min(w[1], max(rest-w[2], rest/2))
	w[2] = min(w[2], rest-w[1])
	return w
}
