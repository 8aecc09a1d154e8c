package usage

import (
	"fmt"
	"io"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
)

// helpWidth keeps help inside the narrowest common window.
const helpWidth = 78

// WriteOverview prints what the program is for and its commands.
func (r Registry[R]) WriteOverview(w io.Writer) {
	fmt.Fprintln(w, show.Wrap("puffproof: "+purpose+" It reads one design file.", helpWidth, "", ""))
	fmt.Fprintln(w, "\nUsage: puffproof COMMAND [FLAGS] [FILE]")
	fmt.Fprintln(w, "\nCommands:")
	for _, c := range r.Commands {
		fmt.Fprintf(w, "  %-12s %s\n", c.Name, c.Summary)
	}
	fmt.Fprintf(w, "  %-12s %s\n", "help", "explain a command: puffproof help check")
	fmt.Fprintln(w, "\nFlags of every command:")
	writeOptions(w, everywhere(), quantity.Metric)
	fmt.Fprintln(w, "\nExit status:")
	for _, st := range exitStatuses() {
		fmt.Fprintf(w, "  %s  %s\n", st[0], st[1])
	}
	fmt.Fprintln(w, interrupted)
	fmt.Fprintln(w, "\n"+show.Wrap(voluntary, helpWidth, "", ""))
	fmt.Fprintln(w, "\nFrom an idea to a launcher that may be used:")
	for _, step := range road() {
		fmt.Fprintf(w, "  %-52s  %s\n", step[0], step[1])
	}
	fmt.Fprintln(w, "next: "+road()[0][0])
}

// road are the commands from an idea to a signed file, each with what it does. The README has the same.
func road() [][2]string {
	return [][2]string{
		{"puffproof init --ask launcher.toml", "a file of your answers"},
		{"puffproof advise launcher.toml -o better.toml", "what to change"},
		{"puffproof check better.toml", "does it hold"},
		{"puffproof parts better.toml", "buy, and build it"},
		{"puffproof commission better.toml", "test it, by steps"},
		{"puffproof dossier better.toml -o safety-file.html", "the safety file"},
	}
}

// What the overview and the manual page say of the program.
const (
	purpose     = "how hard does a low-pressure air launcher for foam shoot, and what must be shown before anyone stands near it."
	interrupted = "An interrupt (ctrl-c) ends it with 130 and writes no file."
	voluntary   = "The figures are benchmarks, used voluntarily. Local law and codes, and a licensed engineer, go before this program."
	anywhere    = "Flags may stand before or after the file name. -- ends them."
)

// everywhere are the flags that every line may have.
func everywhere() []Option {
	return append(GlobalOptions(), Option{Name: "help", Help: "this text, or that of the command"},
		Option{Name: "man", Help: "with help: this text and that of every command as a manual page"},
		Option{Name: "version", Help: "the program's version"})
}

// exitStatuses are the exit statuses and what they mean.
func exitStatuses() [][2]string {
	return [][2]string{{"0", "every verdict passes or is not applicable"}, {"1", "some verdict fails or is unknown"},
		{"2", "the command line, a file or the design is wrong"}, {"3", "a computation failed its own checks, its result is withheld"}}
}

// WriteHelp prints the help of one command, its examples in units of a system.
func WriteHelp[R any](w io.Writer, c *Command[R], units quantity.System) {
	fmt.Fprintf(w, "%s\n", show.Wrap("puffproof "+c.Name+": "+c.Summary, helpWidth, "", ""))
	usage := "puffproof " + c.Name + " [FLAGS]"
	if c.Operands != "" {
		usage += " " + c.Operands
	}
	fmt.Fprintf(w, "\nUsage: %s\n", usage)
	for _, p := range c.Help {
		fmt.Fprintf(w, "\n%s\n", show.Wrap(units.Example(p), helpWidth, "", ""))
	}
	if len(c.Examples) > 0 {
		fmt.Fprintln(w, "\nExamples:")
		for _, e := range c.Examples {
			fmt.Fprintf(w, "  %s\n%s\n", units.Example(e[0]), show.Wrap(e[1], helpWidth, "      ", "      "))
		}
	}
	if len(c.Options) > 0 {
		fmt.Fprintln(w, "\nFlags:")
		writeOptions(w, c.Options, units)
	}
	fmt.Fprintln(w, "\nFlags of every command:")
	writeOptions(w, GlobalOptions(), units)
	fmt.Fprintln(w, "\n"+anywhere)
}

// writeOptions prints flags and their meaning in two columns.
func writeOptions(w io.Writer, options []Option, units quantity.System) {
	const column = 21
	for _, o := range options {
		name := "  " + typed(o.Name)
		if o.Short != "" {
			name = "  -" + o.Short + ", --" + o.Name
		}
		if o.Value != "" {
			name += " " + o.Value
		}
		indent := strings.Repeat(" ", column)
		if len(name) >= column-1 {
			fmt.Fprintln(w, name)
			name = ""
		}
		fmt.Fprintln(w, show.Wrap(units.Example(o.Help), helpWidth, fmt.Sprintf("%-*s", column, name), indent))
	}
}
