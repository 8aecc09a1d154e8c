package usage

import (
	"slices"

	"github.com/urfave/cli/v2"
)

// Command is one command of the program; R is the type of what runs it.
type Command[R any] struct {
	Name     string
	Summary  string   // one line of the overview, under 60 characters
	Operands string   // what stands after the name, such as "DESIGN"; "" for none
	Min, Max int      // how many operands there may be
	Files    bool     // operands are file names, for the shell's completion
	Words    []string // words an operand may be, for the shell's completion
	Help     []string // paragraphs that teach; lines are wrapped when shown
	Options  []Option
	Examples []Example
	Serves   bool // it runs until a signal ends it: that is no interruption
	Run      R    // what does the command's work
}

// Option is a flag. Every option of a name means the same in each command.
type Option struct {
	Name    string
	Short   string   // one letter that stands for the name, such as "q"; "" for none
	Value   string   // placeholder of the value, such as "FILE"; "" for a switch
	Choices []string // the values allowed; nil: any
	Many    bool     // it may be given several times; where there are choices, several with commas
	Help    string
	Files   bool // the value is a file name
	Writes  bool // of a file that the command writes
}

// typed is how a flag is typed: a letter takes one hyphen, a word two.
func typed(name string) string {
	if len(name) == 1 {
		return "-" + name
	}
	return "--" + name
}

// Example is one command line, and what it does.
type Example [2]string

// Registry is the list of commands of one run.
type Registry[R any] struct{ Commands []*Command[R] }

// find gives the command of a name, or nil.
func (r Registry[R]) find(name string) *Command[R] {
	for _, c := range r.Commands {
		if c.Name == name {
			return c
		}
	}
	return nil
}

// Names lists the commands' names.
func (r Registry[R]) Names() []string {
	var out []string
	for _, c := range r.Commands {
		out = append(out, c.Name)
	}
	return out
}

// option finds an option of any command, or a global one, by its name or its letter.
func (r Registry[R]) option(name string) (Option, bool) {
	for _, o := range GlobalOptions() {
		if o.Short != "" && o.Short == name {
			return o, true
		}
	}
	for _, c := range append([]*Command[R]{{Options: GlobalOptions()}}, r.Commands...) {
		if o, ok := c.option(name); ok {
			return o, true
		}
	}
	return Option{}, false
}

// option finds an option of the command itself.
func (c *Command[R]) option(name string) (Option, bool) {
	i := slices.IndexFunc(c.Options, func(o Option) bool { return o.Name == name })
	if i < 0 {
		return Option{}, false
	}
	return c.Options[i], true
}

// CLIFlags gives options as urfave/cli wants them.
func CLIFlags(options []Option) []cli.Flag {
	var out []cli.Flag
	for _, o := range options {
		switch {
		case o.Many:
			out = append(out, &cli.StringSliceFlag{Name: o.Name, Usage: o.Help})
		case o.Value == "":
			out = append(out, &cli.BoolFlag{Name: o.Name, Usage: o.Help})
		default:
			out = append(out, &cli.StringFlag{Name: o.Name, Usage: o.Help})
		}
	}
	return out
}

// GlobalOptions are understood by every command.
func GlobalOptions() []Option {
	return []Option{
		{Name: "json", Help: "print one JSON document in SI units instead of text"},
		{Name: "units", Value: "SYSTEM", Choices: []string{"metric", "us"}, Help: "show metric (bar, m/s) or us (psi, ft/s) units"},
		{Name: "no-color", Help: "no colours; they are never used in a pipe, nor when NO_COLOR is set"},
		{Name: "quiet", Short: "q", Help: "print the finding only, and nothing while it works"},
	}
}
