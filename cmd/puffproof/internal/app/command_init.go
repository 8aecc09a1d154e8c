package app

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/testdata/designs"
)

const defaultDesignName = "launcher.toml"

// initCommand writes the design file to start from.
func initCommand() *Command {
	return &Command{Name: "init", Operands: "[FILE]", Max: 1, Files: true, Run: runInit,
		Summary: "write a commented design file to start from",
		Help: []string{
			"Writes a design file with every key, what it means, and how to measure it at home. FILE is " +
				defaultDesignName + " unless you name another; - prints it. A file that exists is never overwritten.",
			"Every value is text with a unit. Say how far off it may be, and how you know it: \"2.0 L ± 3 %, measured\". A value without a " +
				"tolerance gets a wide one, and the report says that it was assumed. So a figure you have measured buys you margin.",
			"Every figure of it is invented and says \"template\"; while one is left, check says that nothing is known of your launcher. Write " +
				"\"?\" where you do not know a value: the strict side is taken, and check lists what is to be found out. What only you can say of " +
				"your launcher, such as ratings and proofs, is \"?\" from the start.",
			"Pressures are gauge readings: what the gauge shows above the air around it.",
		},
		Options: []Option{
			{Name: "from", Value: "EXAMPLE", Help: "start from an example (" + strings.Join(designs.Names(), ", ") +
				"): its build and remarks, figures marked, claims blank"},
		},
		Examples: []Example{
			{"puffproof init", "writes " + defaultDesignName + " in this folder"},
			{"puffproof init rocket.toml", "writes rocket.toml"},
			{"puffproof init - | less", "only shows it"},
			{"puffproof init --from rocket rocket.toml", "starts from the rocket over a tube"},
		},
	}
}

// begun is the file to start from: the template, or an example made blank.
func (c *Call) begun() ([]byte, error) {
	from := c.flags.String("from")
	if !c.flags.IsSet("from") {
		return design.Template(c.style.Units), nil
	}
	example, known := designs.Example(from)
	if !known {
		return nil, inputErrorf("--from: %s", design.NoExample(from, designs.Names()))
	}
	return design.From(from, example, c.style.Units)
}

func runInit(ctx context.Context, call *Call) (status, error) {
	name := defaultDesignName
	if len(call.Args) > 0 {
		name = call.Args[0]
	}
	text, err := call.begun()
	if err != nil {
		return 0, err
	}
	switch name {
	case "-":
		call.Out.Write(text)
		return statusOK, nil
	case "":
		return 0, inputErrorf("the file name is empty")
	}
	if err := atomicfile.Write(ctx, name, text, atomicfile.Keep); err != nil {
		if errors.Is(err, fs.ErrExist) {
			return 0, inputErrorf("%s: exists already and is kept; name another file", name)
		}
		return 0, writeError(ctx, name, err)
	}
	call.wrote = append(call.wrote, name)
	if call.json {
		return statusOK, call.writeJSON(map[string]string{"written": name})
	}
	if !call.quiet {
		fmt.Fprintf(call.Out, "Wrote %s. Fill it in, then: puffproof check %s\n", show.Clean(name), show.Clean(name))
	}
	return statusOK, nil
}
