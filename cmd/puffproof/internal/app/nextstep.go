package app

import (
	"fmt"
	"slices"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/explain"
)

// nextStep is the line that ends what a command has shown, so that nobody is left with a list of
// cautions: the command that goes on from there, "" where its own screen says it or nothing does.
func (c *Call) nextStep(command string, st status) string {
	of := func(i int) string {
		if i < len(c.Args) {
			return show.InShell(c.Args[i])
		}
		return "DESIGN"
	}
	wrote := func() string { return show.InShell(c.wrote[len(c.wrote)-1]) }
	judged := "check " + of(0)
	if st != statusOK {
		judged = "advise " + of(0)
	}
	switch command {
	case "keys", "self-check":
		return "check DESIGN"
	case "explain":
		switch {
		case len(c.Args) == 0:
			return "explain ID, or explain ID DESIGN"
		case len(c.Args) < 2:
			return "explain " + of(0) + " DESIGN"
		case !isVerdict(c.Args[0]) && st != statusOK:
			return "items " + of(1) // what is open is done, not changed
		case st != statusOK:
			return "advise " + of(1)
		}
		return "check " + of(1)
	case "compare":
		return "check " + of(1)
	case "flight":
		return "check " + of(0)
	case "size":
		return "init launcher.toml"
	case "shot", "faults", "setpoint", "parts":
		return judged
	case "vent":
		switch {
		case st != statusOK:
			return "check " + of(0)
		case len(c.wrote) > 0 && c.flags.IsSet("sheet"):
			return "vent " + of(0) + " --log " + show.InShell(c.flags.String("sheet"))
		case len(c.wrote) > 0 && c.flags.IsSet("leak-sheet"):
			return "vent " + of(0) + " --leak-log " + show.InShell(c.flags.String("leak-sheet"))
		case c.flags.IsSet("log"), c.flags.IsSet("leak-log"):
			return "commission " + of(0)
		}
		return "vent " + of(0) + " --sheet emptying.csv"
	case "plan":
		switch {
		case st != statusOK:
			return "check " + of(0)
		case len(c.wrote) > 0:
			return "calibrate " + of(0) + " --shots " + wrote()
		}
		return "plan " + of(0) + " --sheet shots.csv"
	case "calibrate":
		return "check " + of(0) + " --shots " + show.InShell(c.flags.String("shots"))
	case "dossier", "card":
		if len(c.wrote) == 0 { // it went to standard output, where nothing is to stand behind it
			return ""
		}
		return "verify " + wrote() + " " + of(0)
	case "verify":
		switch {
		case len(c.Args) < 2:
			return "verify " + of(0) + " DESIGN"
		case st != statusOK:
			return "check " + of(1)
		}
		return "commission " + of(1)
	}
	return ""
}

// sayNext prints the next step under the text of a screen.
func (c *Call) sayNext(command string, st status) {
	raw := command == "keys" && c.flags.Bool("schema") || command == "parts" && slices.Contains(c.flags.StringSlice("o"), "-")
	if c.json || c.quiet || raw || c.Out.Len() == 0 {
		return
	}
	if next := c.nextStep(command, st); next != "" {
		fmt.Fprintln(c.Out, show.Wrap("puffproof "+next, c.style.Width, "next: ", "  "))
	}
}

// isVerdict tells whether an identifier is that of a verdict; an item's is not.
func isVerdict(id string) bool {
	_, ok := explain.Of(id)
	return ok
}
