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
	"syscall"
	"time"

	"github.com/urfave/cli/v2"
	"golang.org/x/term"

	"puffproof/cmd/puffproof/internal/build"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/usage"
	"puffproof/cmd/puffproof/internal/waiting"
	"puffproof/limits/search"
	"puffproof/limits/worst"
)

// ThisMachine is the host of a real run.
func ThisMachine() Host {
	return Host{Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr, Environ: os.Environ(), Now: time.Now,
		Terminal:    waiting.TerminalOf(os.Stderr, os.Getenv("TERM")),
		Interactive: term.IsTerminal(int(os.Stdin.Fd())) && term.IsTerminal(int(os.Stdout.Fd()))}
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
	out := perform(ctx, newRegistry(), host, args)
	// Whoever reads the output may keep it waiting: then a signal ends the program as
	// it ends any other.
	stop()
	return int(out.tell(host))
}

// grace is how long an interrupted command may take to end by itself: together with the
// ending of the program less than the tenth of a second that feels like at once (Miller,
// R. B. (1968), "Response time in man-computer conversational transactions", AFIPS Fall
// Joint Computer Conference 33, 267-277; from memory).
const grace = 50 * time.Millisecond

// perform runs the command. Where the end of ctx finds it in something that cannot be
// stopped it is left behind: it writes nothing any more, for every write asks ctx first.
func perform(ctx context.Context, reg registry, host Host, args []string) outcome {
	done := make(chan outcome, 1)
	shown, soFar := new(waiting.Line), new(waiting.SoFar)
	defer shown.End()
	go func() { done <- work(ctx, reg, host, args, shown, soFar) }()
	select {
	case out := <-done:
		return out
	case <-ctx.Done():
	}
	select {
	case out := <-done:
		return out
	case <-time.After(grace):
		return outcome{call: &Call{Host: host, Out: new(bytes.Buffer), soFar: soFar}, err: &interruption{}}
	}
}

// outcome is what became of a run.
type outcome struct {
	call   *Call
	status status
	err    error
}

// work understands the line and does what it says.
func work(ctx context.Context, reg registry, host Host, args []string, shown *waiting.Line, soFar *waiting.SoFar) (out outcome) {
	out.call = &Call{Host: host, Out: new(bytes.Buffer), waiting: shown, soFar: soFar, style: terminalStyle(host.Stdout, host.Environ)}
	defer func() {
		if p := recover(); p != nil {
			out.err = panicError(p, debug.Stack())
		}
	}()
	line, err := usage.Parse(reg, args)
	if err != nil {
		out.err = err
		return out
	}
	out.status, out.err = dispatch(ctx, reg, line, out.call)
	if line.Command != nil && line.Command.Serves && out.err == nil {
		return out
	}
	var withheld *worst.WithheldError // by a run that was stopped
	if cerr := ctx.Err(); cerr != nil && (out.err == nil || errors.Is(out.err, cerr) || errors.As(out.err, &withheld)) {
		out.err = &interruption{out.call.wrote}
	}
	return out
}

// tell writes what a run gave, and gives its status.
func (o outcome) tell(host Host) status {
	if o.err != nil {
		if stopped := new(interruption); errors.As(o.err, &stopped) {
			o.call.soFar.Show(host.Stdout)
		}
		o.status = reportError(host.Stderr, o.err)
		o.call.Out.Reset()
		if err := o.call.listProblems(o.err); err != nil {
			return reportError(host.Stderr, err)
		}
	}
	if _, err := o.call.Out.WriteTo(host.Stdout); err != nil {
		return reportError(host.Stderr, inputErrorf("the output could not be written: %v", err))
	}
	return o.status
}

// dispatch shows help or the version, or runs the named command.
func dispatch(ctx context.Context, reg registry, line *usage.Line[runner], call *Call) (status, error) {
	switch {
	case line.Version:
		writeVersion(call.Out)
		return statusOK, nil
	case line.Man:
		reg.WriteMan(call.Out, build.Version())
		return statusOK, nil
	case line.Help && line.Command == nil:
		reg.WriteOverview(call.Out)
		return statusOK, nil
	case line.Help:
		usage.WriteHelp(call.Out, line.Command, line.Units())
		return statusOK, nil
	case line.Command == nil:
		reg.WriteOverview(call.Stderr)
		return statusInput, nil
	}
	return runCommand(ctx, line, call)
}

// runCommand hands the tidied line to urfave/cli, which binds the values to the
// flags and calls the command.
func runCommand(ctx context.Context, line *usage.Line[runner], call *Call) (status, error) {
	st := statusOK
	action := func(c *cli.Context) error {
		call.flags = c
		call.Args = c.Args().Slice()
		call.readGlobals()
		if err := call.tryTargets(line.Command.Options); err != nil {
			return err
		}
		var err error
		if st, err = line.Command.Run(call.wait(c.Context, line.Command.Name), call); err == nil {
			call.sayNext(line.Command.Name, st)
		}
		return err
	}
	a := &cli.App{
		Name:        "puffproof",
		HideHelp:    true, // help, version, hints: package usage
		HideVersion: true,
		// The values of a flag that is given several times may hold commas.
		DisableSliceFlagSeparator: true,
		Writer:                    io.Discard,
		ErrWriter:                 io.Discard,
		ExitErrHandler:            func(*cli.Context, error) {}, // the library never ends the program
		OnUsageError:              func(_ *cli.Context, err error, _ bool) error { return inputErrorf("%v", err) },
		Commands: []*cli.Command{{
			Name:         line.Command.Name,
			HideHelp:     true,
			Flags:        usage.CLIFlags(append(usage.GlobalOptions(), line.Command.Options...)),
			Action:       action,
			OnUsageError: func(_ *cli.Context, err error, _ bool) error { return inputErrorf("%v", err) },
		}},
	}
	err := a.RunContext(ctx, line.Canonical())
	return st, err
}

// internalError is a fault of the program.
type internalError struct{ text string }

func (e *internalError) Error() string { return e.text }

// panicError tells of a fault of the program in one line. The place is the
// innermost frame of our own code, of the goroutine where it happened, which is what a report needs.
func panicError(p any, stack []byte) error {
	if r, ok := p.(search.Raised); ok {
		stack = r.Stack
	}
	return &internalError{fmt.Sprintf("internal error, please report: %s (%s, puffproof %s, %s/%s)",
		show.Clean(fmt.Sprint(p)), build.PlaceOf(string(stack)), build.Version(), runtime.GOOS, runtime.GOARCH)}
}
