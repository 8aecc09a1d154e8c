package app

import (
	"context"
	"fmt"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/render"
)

const defaultDesignName = "launcher.toml"

// initCommand writes the design file to start from.
func initCommand() *Command {
	return &Command{
		Name:     "init",
		Summary:  "write a commented design file to start from",
		Operands: "[FILE]",
		Max:      1,
		Files:    true,
		Help: []string{
			"Writes a design file with every key, what it means, and how to measure it at home. FILE is " +
				defaultDesignName + " unless you name another; - prints it. A file that exists is never overwritten.",
			"Every value is text with a unit. Say how far off it may be, and how you know it: \"2.0 L ± 3 %, measured\". " +
				"A value without a tolerance gets a wide one, and the report says that it was assumed. " +
				"So a figure you have measured buys you margin.",
			"Pressures are gauge readings: what the gauge shows above the air around it.",
		},
		Examples: []Example{
			{"puffproof init", "writes " + defaultDesignName + " in this folder"},
			{"puffproof init rocket.toml", "writes rocket.toml"},
			{"puffproof init - | less", "only shows it"},
		},
		Run: runInit,
	}
}

func runInit(ctx context.Context, call *Call) (status, error) {
	name := defaultDesignName
	if len(call.Args) > 0 {
		name = call.Args[0]
	}
	text := call.services.template()
	if name == "-" {
		call.Out.Write(text)
		return statusOK, nil
	}
	if name == "" {
		return statusInput, inputErrorf("the file name is empty")
	}
	if err := atomicfile.Write(ctx, name, text, atomicfile.Keep); err != nil {
		if exists(err) {
			return statusInput, inputErrorf("%s: exists already and is kept; name another file", name)
		}
		return statusInput, writeError(ctx, name, err)
	}
	if call.json {
		return statusOK, call.writeJSON(map[string]string{"written": name})
	}
	if !call.quiet {
		fmt.Fprintf(call.Out, "Wrote %s. Fill it in, then: puffproof check %s\n", render.Clean(name), render.Clean(name))
	}
	return statusOK, nil
}

// writeError says why a file was not written, unless the run was interrupted.
func writeError(ctx context.Context, name string, err error) error {
	if ctx.Err() != nil {
		return ctx.Err()
	}
	return inputErrorf("%s: not written: %s", name, cause(err))
}
