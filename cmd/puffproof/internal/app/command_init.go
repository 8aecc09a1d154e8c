package app

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"golang.org/x/term"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/interview"
	"puffproof/cmd/puffproof/internal/manual"
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
			"--ask makes the file of your answers. In a pipe each line answers the next question that is asked (a line that begins with # is " +
				"none); the first one that is refused ends it with status 2 and its line; at the end of the input the rest is not known, and " +
				"without any answer nothing is written. What is not asked and not known is marked as said above.",
			"Pressures are gauge readings: what the gauge shows above the air around it.",
		},
		Options: []Option{
			{Name: "from", Value: "EXAMPLE", Help: "start from an example (" + strings.Join(designs.Names(), ", ") +
				"): its build and remarks, figures marked, claims blank"},
			{Name: "ask", Help: "make the file of your answers to some twenty questions, one line each; ? is don't know, how tells how to find out"},
		},
		Examples: []Example{
			{"puffproof init", "writes " + defaultDesignName + " in this folder"},
			{"puffproof init - | less", "only shows it"},
			{"puffproof init --ask mine.toml", "asks what you built and writes that"},
			{"puffproof init --from rocket rocket.toml", "starts from the rocket over a tube"},
		},
	}
}

// begun is the file to start from: the template, an example made blank, or one of answers.
func (c *Call) begun(ctx context.Context) ([]byte, error) {
	from := c.flags.String("from")
	if c.flags.Bool("ask") {
		if c.flags.IsSet("from") {
			return nil, inputErrorf("--ask and --from exclude each other: answers make a file of their own")
		}
		return c.ask(ctx)
	}
	if !c.flags.IsSet("from") {
		return manual.Template(c.style.Units), nil
	}
	example, known := designs.Example(from)
	if !known {
		return nil, inputErrorf("--from: %s", manual.NoExample(from, designs.Names()))
	}
	return manual.From(from, example, c.style.Units)
}

// ask makes a design file of what standard input answers; on a terminal it asks aloud.
func (c *Call) ask(ctx context.Context) ([]byte, error) {
	var to io.Writer
	if f, is := c.Stdin.(*os.File); is {
		c.used("standard input", f)
		if term.IsTerminal(int(f.Fd())) {
			c.waiting.End() // who answers is not waited for aloud
			to = c.Stderr
		}
	}
	data, problems, err := interview.Converse(ctx, c.Stdin, to, c.Stderr, c.style.Units)
	if len(problems) > 0 {
		err = &fileError{problems}
	} else if err != nil && ctx.Err() == nil {
		err = inputErrorf("standard input: %v", err)
	}
	return data, err
}

func runInit(ctx context.Context, call *Call) (status, error) {
	name := defaultDesignName
	if len(call.Args) > 0 {
		name = call.Args[0]
	}
	if name == "" {
		return 0, inputErrorf("the file name is empty")
	}
	if _, err := os.Lstat(name); err == nil && name != "-" && call.flags.Bool("ask") { // before anybody answers for nothing
		return 0, inputErrorf("%s: exists already and is kept; name another file", name)
	}
	if err := atomicfile.Try(name, atomicfile.Keep); errors.Is(err, atomicfile.ErrRecord) {
		return 0, writeError(ctx, name, err)
	}
	text, err := call.begun(ctx)
	if err != nil {
		return 0, err
	}
	if name == "-" {
		call.Out.Write(text)
		return statusOK, nil
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
		how := "Fill it in, then"
		if call.flags.Bool("ask") {
			how = "Next"
		}
		fmt.Fprintf(call.Out, "Wrote %s. %s: puffproof check %s\n", show.Clean(name), how, show.Clean(name))
	}
	return statusOK, nil
}
