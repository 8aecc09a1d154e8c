package screen

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
)

// What fits a terminal of the usual size without rolling away.
const screenLines = 24

// writeOneScreen prints the answer in 24 lines of 80 columns: the finding, how hard it
// shoots, each verdict that is not passed in one line, what to do first, the cautions and
// the next command. Verdicts that do not fit are counted; blank lines go before verdicts.
func (c *CheckScreen) writeOneScreen(words string) {
	c.println(words)
	c.println(c.designLine())
	head := c.lineCount()
	hard, foot := c.howHard(), c.foot()
	rows := show.WithStatus(c.Report.Verdicts, finding.Fail, finding.Unknown, finding.Conditional)
	const blanks, fewest = 3, 6
	room, blank := screenLines-head-len(hard)-len(foot)-blanks, true
	if room < min(len(rows), fewest) {
		room, blank = room+blanks, false
	}
	gap := func() {
		if blank {
			c.gap()
		}
	}
	gap()
	c.printAll(hard)
	gap()
	c.printAll(c.verdictLines(rows, room))
	c.println(foot[0])
	gap()
	c.printAll(foot[1:])
}

// lineCount is how many lines have been printed.
func (f *Frame) lineCount() int { return strings.Count(f.page.String(), "\n") }

// printAll prints lines as they are.
func (f *Frame) printAll(lines []string) {
	for _, l := range lines {
		f.println(l)
	}
}

// designLine names the design in one line; of a long name the middle is left out, since
// its end may be what tells two designs apart.
func (c *CheckScreen) designLine() string {
	title, file := show.Clean(c.Design.Title()), fingerprint(c.Design)
	if room := c.Width - show.Columns(file); show.Columns(title) > room {
		half := []rune(title)
		for tail := half[len(half)/2:]; ; tail = tail[1:] {
			if show.Columns(string(tail)) <= room/2 {
				title = show.Shorten(title, room-show.Columns(string(tail))) + string(tail)
				break
			}
		}
	}
	return title + c.paint(faint, file)
}

// verdictLines are one line for each verdict, in as many lines as there is room for, the
// last of which counts the rest.
func (c *CheckScreen) verdictLines(verdicts []finding.Verdict, room int) []string {
	word, title := 0, 0
	for _, v := range verdicts {
		word, title = max(word, show.Columns(show.Word(v.Status))), max(title, show.Columns(show.Clean(v.Title)))
	}
	shown := len(verdicts)
	if shown > room {
		shown = max(0, room-1)
	}
	var out []string
	for _, v := range verdicts[:shown] {
		head := fmt.Sprintf("%-*s ", word, show.Word(v.Status))
		name := show.Shorten(show.Clean(v.Title), c.Width-show.Columns(head))
		line := c.paintTone(show.ToneOf(v.Status), head) + name
		free := c.Width - show.Columns(head) - 1
		if aside := c.aside(v, free-title, free-show.Columns(name)); aside != "" {
			line += strings.Repeat(" ", 1+min(title-show.Columns(name), free-show.Columns(name+aside))) + aside
		}
		out = append(out, line)
	}
	if rest := verdicts[shown:]; len(rest) > 0 {
		out = append(out, fmt.Sprintf("%*s and %d more%s: --full", word, "", len(rest), show.Counted(rest)))
	}
	return out
}

// aside is what stands beside a verdict: its figures, or why it is unknown where that fits
// the column of the figures, or its identifier, never cut; with the list of sources the
// number of its source. room is that behind the verdict's own title.
func (c *CheckScreen) aside(v finding.Verdict, column, room int) string {
	mark := ""
	if c.Sources == Listed {
		mark = show.Lead(" ", c.sources.mark(v.Source))
	}
	figures := ""
	if show.Judged(v) {
		value, limit := show.Figures(c.Units, v)
		figures = show.OfLimit(v, value, limit)
	}
	for _, t := range []struct {
		text string
		room int
	}{{figures, room}, {c.text(v.Why), column}, {"(" + show.Clean(v.ID) + ")", room}} {
		if t.text != "" && show.Columns(t.text+mark) <= t.room {
			return t.text + mark
		}
	}
	return ""
}

// foot is what stands under the verdicts, each line whole: how many pass, what to do
// first, the cautions, the next command.
func (c *CheckScreen) foot() []string {
	r := &c.Report
	count := fmt.Sprintf("%d %s", show.Tally(r.Verdicts, finding.Pass), show.Word(finding.Pass))
	if n := show.Tally(r.Verdicts, finding.NotApplicable); n > 0 {
		count += fmt.Sprintf(", %d %s", n, show.Word(finding.NotApplicable))
	}
	if n := len(r.Assumed); n > 0 && c.Assumed == Counted {
		count += "; " + show.Plural(n, "figure", "figures") + " assumed: --assumed"
	}
	if n := len(r.ToFind); n > 0 {
		count += fmt.Sprintf("; %d to find out", n)
	}
	out := []string{show.Shorten(count+"; all: --full", c.Width)}
	if m := r.Measured; m != nil && (len(m.Clashes) > 0 || len(m.Disagrees) > 0 || m.Bound == nil && len(m.NotCarried) > 0) {
		out = append(out, c.paint(yellow, show.Shorten("Measured: not as the model says, or no bound comes of it: --full", c.Width)))
	}
	var steps []string
	for _, cause := range r.DoFirst() {
		step := strings.TrimRight(c.text(cause.Step), ".")
		if n := len(cause.Verdicts); n > 1 {
			step += fmt.Sprintf(" (%d verdicts)", n)
		}
		steps = append(steps, step)
	}
	if lines := show.Steps("Do first", steps, c.Width); len(lines) > 0 {
		out = append(append(out, c.paint(bold, lines[0])), lines[1:]...)
	}
	out = append(out, show.WhyUnknown(r.Verdicts, steps, c.text, c.Width)...)
	out = append(out, strings.Split(show.Wrap(benchmark.CautionsInShort()+" More: --full", c.Width, "", ""), "\n")...)
	return append(out, c.next())
}

// next is the command that goes on from here.
func (c *CheckScreen) next() string {
	begun := len(c.Report.Template)
	if edited := "next: edit " + show.InShell(c.File) + ", then puffproof check " + show.InShell(c.File); begun > show.FewOfTemplate &&
		show.Columns(edited) <= c.Width {
		return edited
	}
	command, then := "plan", ""
	stays := c.Report.Energy != nil && c.Report.Energy.NominalShot.Outcome != show.OutcomeLeft
	fails := show.Tally(c.Report.Verdicts, finding.Fail) > 0
	switch m := c.Report.Measured; {
	case !c.Report.Holds && c.Detail == OneScreen && !fails && !stays && !c.weakestStays() && begun == 0:
		command, then = "check", " --full"
	case m != nil && m.Contradicted != nil: // first it is found out why
		command, then = "calibrate", " --shots SHOTS.csv"
	case c.Report.Holds && !stays && c.weakestStays(): // no step of commissioning is taken with one that may jam at each shot
		return c.toLeave("next")
	case !c.Report.Holds || stays: // nor with a launcher that does not shoot
		if line := "next: puffproof advise " + show.InShell(c.File) + c.written(); show.Columns(line) <= c.Width {
			return line
		}
		command = "advise"
	case c.Report.OpenItems > 0:
		command = "commission"
	case m != nil && m.Bound != nil:
		command, then = "dossier", " -o safety-file.html"
	}
	return c.command("next", command, then)
}

// written are the options with which advise writes what it finds, so that nobody waits for it twice: where something is not known, with
// what a way rests on.
func (c *CheckScreen) written() (options string) {
	if len(c.Report.Template) > 0 || show.Tally(c.Report.Verdicts, finding.Unknown) > 0 {
		options = " --declare"
	}
	return options + " -o " + show.BetterName(c.File)
}

// command is a command line for the design with what it is for; it names no file where that would make it too long.
func (c *CheckScreen) command(lead, command, then string) string {
	line := lead + ": puffproof " + command + " " + show.InShell(c.File) + then
	if show.Columns(line) > c.Width {
		line = lead + ": puffproof " + command + " DESIGN" + then
	}
	return line
}
