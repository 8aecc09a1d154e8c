// Package app is the command line of puffproof: it finds the command, checks
// flags and file names, runs the command and turns what happened into an exit
// status. It computes nothing and formats no result. Start reading at Main,
// then registry.go, then one command_*.go file.
//
// Nothing here is package-level state: Main may run many times, side by side,
// in a test.
package app

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"strings"
	"syscall"
	"time"

	"github.com/urfave/cli/v2"

	"puffproof/cmd/puffproof/internal/show"
)

// ThisMachine is the host of a real run.
func ThisMachine() Host {
	return Host{Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr, Environ: os.Environ(), Now: time.Now}
}

// Main runs the program and gives its exit status.
//
// args[0] is the program's name. All results go to stdout, in one write, only
// when the command has finished; messages go to stderr. With --json what is wrong
// inside of a file is a document on stdout too. An interrupt, or the end of ctx,
// stops the command before it writes anything.
func Main(ctx context.Context, host Host, args []string) int {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM)
	defer stop()
	// The first interrupt asks the command to end, a second one ends it at once.
	defer context.AfterFunc(ctx, stop)()
	return int(run(ctx, newRegistry(), host, args))
}

// run is Main with chosen commands.
func run(ctx context.Context, reg registry, host Host, args []string) (st status) {
	defer func() {
		if p := recover(); p != nil {
			st = reportPanic(host.Stderr, p, debug.Stack())
		}
	}()
	line, err := parseLine(reg, args)
	if err != nil {
		return reportError(host.Stderr, err)
	}
	call := &Call{Host: host, Out: new(bytes.Buffer), style: terminalStyle(host.Stdout, host.Environ)}
	st, err = dispatch(ctx, reg, line, call)
	if cerr := ctx.Err(); cerr != nil && (err == nil || errors.Is(err, cerr)) {
		err = errInterrupted
	}
	if err != nil {
		st = reportError(host.Stderr, err)
		call.Out.Reset()
		if err := call.listProblems(err); err != nil {
			return reportError(host.Stderr, err)
		}
	}
	if _, err := call.Out.WriteTo(host.Stdout); err != nil {
		return reportError(host.Stderr, inputErrorf("the output could not be written: %v", err))
	}
	return st
}

// dispatch shows help or the version, or runs the named command.
func dispatch(ctx context.Context, reg registry, line *commandLine, call *Call) (status, error) {
	switch {
	case line.version:
		fmt.Fprintln(call.Out, "puffproof", version())
		return statusOK, nil
	case line.help && line.command == nil:
		reg.writeOverview(call.Out)
		return statusOK, nil
	case line.help:
		writeCommandHelp(call.Out, line.command)
		return statusOK, nil
	case line.command == nil:
		reg.writeOverview(call.Stderr)
		return statusInput, nil
	}
	return runCommand(ctx, line, call)
}

// runCommand hands the tidied line to urfave/cli, which binds the values to the
// flags and calls the command.
func runCommand(ctx context.Context, line *commandLine, call *Call) (status, error) {
	st := statusOK
	action := func(c *cli.Context) error {
		call.flags = c
		call.Args = c.Args().Slice()
		call.readGlobals()
		var err error
		st, err = line.command.Run(c.Context, call)
		return err
	}
	a := &cli.App{
		Name:           "puffproof",
		HideHelp:       true, // help, version, hints: parseLine and help.go
		HideVersion:    true,
		Writer:         io.Discard,
		ErrWriter:      io.Discard,
		ExitErrHandler: func(*cli.Context, error) {}, // the library never ends the program
		OnUsageError:   func(_ *cli.Context, err error, _ bool) error { return inputErrorf("%v", err) },
		Commands: []*cli.Command{{
			Name:         line.command.Name,
			HideHelp:     true,
			Flags:        cliFlags(append(globalOptions(), line.command.Options...)),
			Action:       action,
			OnUsageError: func(_ *cli.Context, err error, _ bool) error { return inputErrorf("%v", err) },
		}},
	}
	err := a.RunContext(ctx, line.canonical())
	return st, err
}

// reportPanic tells of a fault of the program in one line. The place is the
// innermost frame of our own code, which is what a report needs.
func reportPanic(stderr io.Writer, p any, stack []byte) status {
	fmt.Fprintf(stderr, "puffproof: internal error, please report: %s (%s, puffproof %s, %s/%s)\n",
		show.Clean(fmt.Sprint(p)), panicPlace(string(stack)), version(), runtime.GOOS, runtime.GOARCH)
	return statusWithheld
}

// panicPlace finds the first line of our own code below the panic in a stack.
func panicPlace(stack string) string {
	_, below, found := strings.Cut(stack, "panic(")
	if !found {
		below = stack
	}
	for line := range strings.Lines(below) {
		line = strings.TrimSpace(line)
		if !strings.HasPrefix(line, "/") || !strings.Contains(line, ".go:") || strings.Contains(line, "/src/runtime/") {
			continue
		}
		file, _, _ := strings.Cut(line, " ")
		return file[strings.LastIndex(file, "/")+1:]
	}
	return "place unknown"
}
